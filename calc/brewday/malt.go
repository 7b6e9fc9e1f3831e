package brewday

import (
	"math"
	"strconv"

	"skep/calc"
	"skep/calc/cautions"
	"skep/calc/crush"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

// crush is the milling, or a look at what somebody else has milled.
func (b *brew) crush() (Step, bool) {
	if !(b.plan.GrainKg > 0) {
		return Step{}, false
	}
	s := Step{Key: Crush, Title: message.New("Crush"), Why: message.New("Husks are the filter; flour clogs it.")}
	for i, g := range b.d.Grain {
		s.Goes = append(s.Goes, Entry{Path: path("grain", i), Name: message.Plain(g.Name), Amount: kilos(g.MassKg)})
	}
	s.lead("grain", kilos(b.plan.GrainKg))
	word := recipe.Crush(b.d.Crush).Word()
	advice := crush.AdviceFor(word)
	if lost := recipe.Crush(b.d.Crush).EfficiencyPoints(); lost > 0 {
		s.number("yield lost", percent(lost))
	}
	if word == crush.Sound {
		s.do("Husks split, not shredded; no whole kernels")
	} else {
		s.warn(keys("crush.by_eye", "crush.on_sieve_pct"), "The crush is {word}: {means}; {do}", design.WordOf("by_eye", word), advice.Means, advice.Do)
	}
	s.do("Bought milled: {kernels} whole kernels in 100 is coarse, a finger of flour at the bottom too fine", count(5))
	s.Cautions = []message.Message{cautions.MaltDust()}
	return s, true
}

// liquor is the water made ready: chlorine out, volumes, salts.
func (b *brew) liquor() (Step, bool) {
	all := b.plan.MashLiquor + b.plan.Sparge
	s := Step{Key: Liquor, Title: message.New("Liquor"), Why: message.New("Chlorine makes a medicine taste no later step takes out.")}
	s.lead("mash", litres(b.plan.MashLiquor))
	s.lead("sparge", litres(b.plan.Sparge))
	s.number("in all", litres(all))
	if g := b.bisulphiteG(); g < pinchG {
		s.do("Chlorine out first: a pinch of metabisulphite, {mass}, stirred into all {volume}, or a carbon filter", grams(g), litres(all))
	} else {
		s.do("Chlorine out first: {mass} of metabisulphite stirred into all {volume}, or a carbon filter", grams(g), litres(all))
	}
	if w := b.d.Water; w != nil {
		b.salts(&s)
	} else {
		s.note("The water's ions are not given: no salts, no pH.")
	}
	s.Cautions = []message.Message{cautions.Sulphite()}
	if _, _, _, _, sour := recipe.MashAcid(b.d); sour || b.d.Water != nil && b.d.Water.LacticAcid88ML > 0 {
		s.Cautions = append(s.Cautions, cautions.Acid())
	}
	if !(all > 0) {
		s.warn(keys("batch.into_fermenter_l"), "There is no liquor to draw: check the batch and the grain")
	}
	return s, true
}

// bisulphiteG is what takes the chlorine out of all the liquor, g.
func (b *brew) bisulphiteG() float64 {
	return weighed(chlorineMgPerL * (b.plan.MashLiquor + b.plan.Sparge) / 1000)
}

// added is one thing stirred into the liquor.
type added struct {
	path   string
	name   message.Message
	amount quantity.Quantity
}

func (b *brew) saltsOf() []added {
	w := b.d.Water
	if w == nil {
		return nil
	}
	var out []added
	for _, a := range []added{
		{"water.gypsum_g", message.New("Gypsum"), grams(w.GypsumG)},
		{"water.calcium_chloride_g", message.New("Calcium chloride, dihydrate"), grams(w.CalciumChlorideG)},
		{"water.epsom_g", message.New("Epsom salt"), grams(w.EpsomG)},
		{"water.table_salt_g", message.New("Table salt, without iodine"), grams(w.TableSaltG)},
		{"water.baking_soda_g", message.New("Baking soda"), grams(w.BakingSodaG)},
		{"water.lactic_acid_88_ml", message.New("Lactic acid, 88 %"), of(quantity.Millilitres, w.LacticAcid88ML)},
	} {
		if a.amount.Value > 0 {
			out = append(out, a)
		}
	}
	return out
}

func (b *brew) salts(s *Step) {
	for _, a := range b.saltsOf() {
		s.Goes = append(s.Goes, Entry{Path: a.path, Name: a.name, Amount: a.amount})
	}
	if len(s.Goes) > 0 {
		s.do("Stir the salts into all the liquor, then part it")
	}
	ions, _, ok := recipe.LiquorIons(b.d)
	if !ok {
		return
	}
	s.number("calcium", of(quantity.MgPerLitre, ions.CalciumMgL))
	s.number("sulphate", of(quantity.MgPerLitre, ions.SulphateMgL))
	s.number("chloride", of(quantity.MgPerLitre, ions.ChlorideMgL))
	s.number("residual alkalinity, as chalk", of(quantity.MgPerLitre, water.ChalkMgL(ions.ResidualAlkalinityMEqL())))
	if acid, low, mid, high, ok := recipe.MashAcid(b.d); ok {
		s.Goes = append(s.Goes, Entry{Path: "water.mash_ph_wanted", Name: message.New("{acid}, into the mash liquor", design.WordOf("acid", acid)), Amount: band(quantity.Millilitres, calc.Band{Low: low, Mid: mid, High: high})})
		s.do("{first} of it first; measure the cooled mash, then the rest bit by bit", quantity.Of(quantity.Millilitres, low))
	}
	if low, mid, high, ok := recipe.MashPH(b.d); ok {
		s.number("mash pH, cooled", quantity.Quantity{Kind: quantity.PH, Value: mid, Low: low, High: high})
		switch {
		case mid > mashPHHigh:
			s.warn(keys("water.lactic_acid_88_ml", "water.bicarbonate"), "The mash will be at pH {ph}, above {highest}: add acid, a little and measure", of(quantity.PH, mid), of(quantity.PH, mashPHHigh))
		case mid < mashPHLow:
			s.warn(keys("water.lactic_acid_88_ml", "water.baking_soda_g"), "The mash will be at pH {ph}, below {lowest}: less acid, or baking soda", of(quantity.PH, mid), of(quantity.PH, mashPHLow))
		}
	}
}

// Mash pH at room temperature: 5.2 to 5.5 wanted, up to 5.8 accepted (J.-P.
// Hosom, article 18, quoting several).
const mashPHLow, mashPHHigh = 5.1, 5.8

// mashIn is the strike liquor and the grain stirred into it.
func (b *brew) mashIn() (Step, bool) {
	p := &b.plan
	if !(p.GrainKg > 0) || len(b.d.Mash.Rest) == 0 {
		return Step{}, false
	}
	first := b.d.Mash.Rest[0].TemperatureC
	s := Step{Key: MashIn, Title: message.New("Mash-in"), Why: message.New("Dry clumps never turn to sugar.")}
	s.lead("strike", celsius(p.StrikeTemperatureC))
	s.lead("liquor", litres(p.MashLiquor))
	s.number("mash settles at", celsius(p.SettlesC))
	s.number("grain at", celsius(b.d.Mash.GrainC))
	if m := b.heatingLiquor(); m > 0 {
		s.number("heating, at least", minutes(m))
	}
	s.number("level with the grain", litres(p.MashLevelL))
	s.do("Heat the liquor in the vessel; heater off")
	b.thermometerOff(&s, p.StrikeTemperatureC)
	s.blank("strike", measured.StrikeTemperature, quantity.Temperature, celsius(p.StrikeTemperatureC))
	n := b.portions()
	s.do("Stir in {count} portions of {mass}, a minute apart: top, middle, bottom, no clumps", count(n), kilos(p.GrainKg/n))
	s.do("After {minutes} pump, slowly at first; it settles by itself in {settled}", minutes(restBeforePumpMin), minutes(settlesMin))
	s.blank("mash after it", "mash-temperature", quantity.Temperature, celsius(first))
	s.Table = b.mashTable()
	s.Cautions = []message.Message{cautions.Scald(), cautions.Mains()}
	b.volumesWarn(&s, water.AtMash)
	return s, true
}

// thermometerOff says what a thermometer that is known to be off must show for
// what is wanted.
func (b *brew) thermometerOff(s *Step, wantedC float64) {
	off := b.d.Kit.ThermometerReadsHighK
	shown, by := celsius(wantedC+off), quantity.Of(quantity.TemperatureDifference, math.Abs(off))
	switch {
	case math.Abs(off) < 0.05: // no thermometer of the trade shows it
	case off > 0:
		s.do("The thermometer reads {off} too high: {wanted} is {shown} on it", by, celsius(wantedC), shown)
	default:
		s.do("The thermometer reads {off} too low: {wanted} is {shown} on it", by, celsius(wantedC), shown)
	}
}

// rests are the mash's temperatures over time.
func (b *brew) rests() (Step, bool) {
	if !(b.plan.GrainKg > 0) || len(b.d.Mash.Rest) == 0 {
		return Step{}, false
	}
	s := Step{Key: Rests, Title: message.New("Mash rest"), Why: message.New("Cooler is drier, hotter is fuller: a degree shows in the glass.")}
	if len(b.d.Mash.Rest) > 1 {
		s.Title = message.New("Mash rests")
	}
	several := len(b.d.Mash.Rest) > 1
	t, at := 0.0, b.d.Mash.Rest[0].TemperatureC
	for i, r := range b.d.Mash.Rest {
		up := b.heatingMash(at, r.TemperatureC)
		switch {
		case i > 0 && r.TemperatureC > at && up > 0:
			s.event(SinceMashIn, t, message.New("Heat to {temperature}, about {minutes}, pump running", celsius(r.TemperatureC), minutes(up)), path("mash.rest", i))
		case i > 0 && r.TemperatureC > at:
			s.event(SinceMashIn, t, message.New("Bring to {temperature} with hot liquor", celsius(r.TemperatureC)), path("mash.rest", i))
		case i > 0 && r.TemperatureC < at:
			s.event(SinceMashIn, t, message.New("Let it fall to {temperature}", celsius(r.TemperatureC)), path("mash.rest", i))
			s.warn(keys(path("mash.rest", i)+".temperature_c"), "Rest {number} is cooler than the one before: a mash hardly cools by itself, and what the hotter rest ended stays ended; put the cooler rest first", count(float64(i+1)))
		}
		t += up
		if several {
			s.event(SinceMashIn, t, message.New("Hold {temperature} for {minutes}", celsius(r.TemperatureC), minutes(r.Minutes)), path("mash.rest", i))
			s.Events[len(s.Events)-1].Timer = "rest." + strconv.Itoa(i)
		}
		if i == 0 {
			s.lead("mash", celsius(r.TemperatureC))
			s.lead("hold", minutes(r.Minutes))
		}
		t, at = t+r.Minutes, r.TemperatureC
	}
	if several {
		s.number("in all", minutes(t))
	}
	b.thermometerOff(&s, b.d.Mash.Rest[0].TemperatureC)
	if b.plan.Sparge > 0 {
		s.do("Meanwhile heat {volume} to {temperature} in another pot", litres(b.plan.Sparge), celsius(spargeC))
	}
	s.do("Iodine on a drop of wort stays yellow: converted. Blue: {minutes} more. Both down the drain", minutes(iodineMinPerRest))
	return s, true
}

func (s *Step) event(c Clock, at float64, what message.Message, path string) {
	q := minutes(at)
	if c == SincePitch {
		q = hours(at)
	}
	s.Events = append(s.Events, Event{Clock: c, At: q, What: what, Path: path})
}

// sparge is rinsing the grain, and judging the wort before it is boiled.
func (b *brew) sparge() (Step, bool) {
	p := &b.plan
	if !(p.GrainKg > 0) {
		return Step{}, false
	}
	s := Step{Key: Sparge, Title: message.New("Sparge"), Why: message.New("Slow rinsing takes the sugar; too hot or too long, tannin.")}
	if p.Sparge > 0 {
		s.lead("sparge", litres(p.Sparge))
		s.lead("liquor", celsius(spargeC))
		s.do("Pump off, basket up, let it drain")
		s.do("Pour over slowly, in {minutes}, never above {temperature}. Stop when the runnings are at {gravity} or pH {ph} and make up with water", minutes(p.Sparge/spargePaceLPerMin), celsius(spargeHottestC), gravity(spargeStopSG), of(quantity.PH, spargeStopPH))
	} else {
		s.Title = message.New("Lift the grain")
		s.do("Pump off, basket up, let it drain; there is nothing to sparge with")
	}
	s.number("then in the vessel, hot", litres(p.PreBoil))
	expect := b.like(b.preBoilSG)
	s.number("gravity", expect)
	s.Table = b.wortTable()
	s.blank("hot", "pre-boil-volume", quantity.Volume, litres(p.PreBoil))
	s.blank("cooled", "pre-boil-gravity", quantity.Gravity, expect.Plain())
	s.Cautions = []message.Message{cautions.Lift()}
	b.volumesWarn(&s, water.AtSparge)
	return s, true
}
