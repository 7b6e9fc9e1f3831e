package brewday

import (
	"cmp"
	"math"
	"slices"

	"skep/calc/alcohol"
	"skep/calc/cautions"
	"skep/calc/coldside"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/stress"
	"skep/calc/water"
)

// cells is what the design pitches, 1e9.
func (b *brew) cells() float64 { return b.yeast.CellsBillionPerL * b.d.Batch.IntoFermenterL }

// yeastAmount is what to weigh or measure for so many cells; None for a liquid
// culture, whose count its maker states.
func (b *brew) yeastAmount() quantity.Quantity {
	n := b.cells()
	switch b.yeast.Form {
	case "dry":
		return quantity.Quantity{Kind: quantity.MassG, Value: weighed(n / dryCellsPerG), Low: weighed(n / dryCellsMost), High: weighed(n / dryCellsLeast)}
	case "slurry":
		return quantity.Quantity{Kind: quantity.Millilitres, Value: n / slurryCellsPerML, Low: n / slurryMost, High: n / slurryLeast}
	}
	return quantity.Quantity{}
}

// pitching is the yeast, air and temperature.
func (b *brew) pitching() (Step, bool) {
	if b.yeast.Name == "" && b.yeast.CellsBillionPerL == 0 {
		return Step{}, false
	}
	y := b.yeast
	s := Step{Key: Pitching, Title: message.New("Pitch"), Why: message.New("Enough live yeast, and air once, are what makes it finish.")}
	s.Goes = append(s.Goes, Entry{Path: "yeast.0", Name: message.Plain(y.Name), Amount: b.yeastAmount()})
	s.lead("pitch at", celsius(y.TemperatureC))
	if a := b.yeastAmount(); a.Kind != quantity.None {
		s.add(message.New("{name}, {form}", sentenceCase(y.Name), design.WordOf("form", y.Form)), a, true)
	}
	s.number("billion cells", of(quantity.Cells, b.cells()))
	if b.predicted {
		s.number("original gravity", band(quantity.Gravity, b.p.OriginalGravitySG))
	}
	for i, h := range b.d.Honey {
		if h.Moment == design.MomentPitching && h.MassKg > 0 {
			s.Goes = append(s.Goes, Entry{Path: path("honey", i), Name: message.New("{name} honey", h.Name), Amount: kilos(h.MassKg)})
			s.do("Stir {mass} of honey, warm enough to pour, into the wort before the reading", kilos(h.MassKg))
		}
	}
	expect := quantity.Quantity{}
	if b.predicted {
		expect = gravity(b.p.OriginalGravitySG.Mid)
	}
	s.blank("original gravity", "original-gravity", quantity.Gravity, expect)
	s.blank("at", "beer-temperature", quantity.Temperature, celsius(y.TemperatureC))
	s.do("Read the gravity, then splash or shake for {minutes} until it froths: air now, never again", minutes(2))
	switch y.Form {
	case "dry":
		s.do("Wipe packet and scissors with sanitiser; sprinkle")
	case "slurry":
		s.do("Slurry of a sound beer, not older than a week, poured in")
	default:
		s.do("Pitch cultures for {cells} billion cells; each loses {share} a day from its date", of(quantity.Cells, b.cells()), percent(liquidLossPctPerDay))
	}
	s.Goes[0].Place = len(s.Do) - 1 // the yeast comes last: the gravity is read, and air is in
	s.blank("pitched: day, time", "pitched", quantity.Moment, quantity.Quantity{})
	b.infant(&s, design.MomentPitching)
	if g := b.d.Batch.NutrientG; g > 0 {
		s.do("{mass} of yeast nutrient (diammonium phosphate) stirred in, or as its maker says", grams(g))
	}
	b.warnYeast(&s, stress.Pitch, stress.Alcohol, stress.Gravity, stress.Nitrogen)
	return s, true
}

// stressKeys are the settings that a stress of the yeast is about.
var stressKeys = map[string][]string{
	stress.Alcohol:  {"yeast.0.tolerance_pct"},
	stress.Cold:     {"yeast.0.temperature_c"},
	stress.Heat:     {"yeast.0.temperature_c"},
	stress.Pitch:    {"yeast.0.cells_billion_per_l"},
	stress.Nitrogen: {"batch.nutrient_g"},
	stress.Gravity:  {"yeast.0.cells_billion_per_l", "batch.nutrient_g"},
}

// warnYeast adds the stresses of the yeast that are worth a warning.
func (b *brew) warnYeast(s *Step, of ...string) {
	for _, x := range b.p.YeastStress {
		if x.Risk >= stress.Worth && slices.Contains(of, x.What) {
			s.Warnings = append(s.Warnings, Warning{stress.Warning(x, b.plan.FermenterL), stressKeys[x.What]})
		}
	}
}

// nutrientG is what the yeast is to be given, g: what the design gives, or what
// would be enough where it is short.
func (b *brew) nutrientG() float64 {
	enough := 0.0
	for _, x := range b.p.YeastStress {
		if x.What == stress.Nitrogen && x.Risk >= stress.Worth {
			enough = x.EnoughPerL * b.plan.FermenterL
		}
	}
	return math.Max(b.d.Batch.NutrientG, enough)
}

// late are the honeys that go in while it ferments.
func (b *brew) late() []int {
	var at []int
	for i, h := range b.d.Honey {
		if h.Moment == design.MomentFermenting && h.MassKg > 0 {
			at = append(at, i)
		}
	}
	return at
}

// honeyHour is when a honey goes in, hours since pitching.
func (b *brew) honeyHour(h design.Honey) float64 {
	return math.Max(0, b.p.HeightHours.Mid+h.HoursAfterHeight)
}

// ferment is what happens in the fermenter, by the hour.
func (b *brew) ferment() (Step, bool) {
	if !b.predicted {
		return Step{}, false
	}
	p := &b.p
	s := Step{Key: Ferment, Title: message.New("Ferment"), Why: message.New("The height is the wildest hour; it is over when the foam begins to fall.")}
	s.lead("keep at", celsius(b.yeast.TemperatureC))
	s.Events = append(s.Events, Event{Clock: SincePitch, At: band(quantity.WholeHours, p.HeightHours), What: message.New("Height: foam at its tallest")})
	if len(b.late()) > 0 {
		s.Events = append(s.Events,
			Event{Clock: SincePitch, At: band(quantity.WholeHours, p.HoneyWindowHours[0]), What: message.New("Honey window opens")},
			Event{Clock: SincePitch, At: band(quantity.WholeHours, p.HoneyWindowHours[1]), What: message.New("Honey window closes")})
	}
	for _, i := range b.late() {
		s.Events = append(s.Events, Event{
			Clock: SincePitch, At: hours(b.honeyHour(b.d.Honey[i])), What: message.New("of {name} goes in", b.d.Honey[i].Name),
			Path: path("honey", i), Amount: kilos(b.d.Honey[i].MassKg),
		})
	}
	s.Events = append(s.Events, Event{Clock: SincePitch, At: band(quantity.WholeHours, p.FinishedHours), What: message.New("Finished; readings decide")})
	b.programme(&s)
	b.warnYeast(&s, stress.Cold, stress.Heat)
	b.coldHops(&s)
	slices.SortStableFunc(s.Events, func(x, y Event) int { return cmp.Compare(x.At.Value, y.At.Value) })
	s.blank("foam began to fall: day, time", "foam", quantity.Moment, quantity.Quantity{})
	s.blank("gravity", "gravity", quantity.Gravity, quantity.Quantity{})
	s.blank("at", "beer-temperature", quantity.Temperature, quantity.Quantity{})
	if len(b.late()) == 0 {
		b.volumesWarn(&s, water.AtFerment)
	}
	s.Cautions = []message.Message{cautions.CarbonDioxide()}
	return s, true
}

// coldHops are hops that go into the beer, and the sugar they free.
func (b *brew) coldHops(s *Step) {
	dose, days := 0.0, 0.0
	for i, h := range b.d.Hop {
		if h.When != design.HopCold || !(h.MassG > 0) {
			continue
		}
		s.Goes = append(s.Goes, Entry{Path: path("hop", i), Name: message.Plain(h.Name), Amount: grams(h.MassG)})
		s.do("{name} into the beer {days} days before it is packaged, once it is past its height; keep air out", h.Name, count(h.Days))
		dose += h.MassG / math.Max(b.plan.FermenterL, 1)
		days = math.Max(days, h.Days)
	}
	if dose > 0 {
		fall := coldside.Creep(dose, days, b.yeast.TemperatureC)
		points := func(plato float64) float64 { return density.SGFromPlato(plato) - 1 }
		s.note("{dose} of hops added cold free sugar from dextrin: the gravity may fall by {points} more in that time, and on in the bottle.", of(quantity.GramsPerLitre, dose),
			quantity.Quantity{Kind: quantity.Points, Value: points(fall.Mid), Low: points(fall.Low), High: points(fall.High)})
	}
}

// honeyStep is the honey that goes into the working beer.
func (b *brew) honeyStep() (Step, bool) {
	late := b.late()
	if len(late) == 0 {
		return Step{}, false
	}
	p := &b.p
	s := Step{Key: Honey, Title: message.New("The honey"), Why: message.New("Cool, it keeps its scent. After the height it foams less and the malt's sugars are mostly done; its scent gains little by the wait.")}
	raw, thick, points := false, false, 0.0
	for _, i := range late {
		h := b.d.Honey[i]
		s.Goes = append(s.Goes, Entry{Path: path("honey", i), Name: message.Plain(h.Name), Amount: kilos(h.MassKg)})
		s.add(message.Plain(h.Name), kilos(h.MassKg), true)
		if b.predicted {
			s.lead("after pitching", hours(b.honeyHour(h)))
		}
		s.number("poured", of(quantity.Millilitres, volumeML(h)))
		raw = raw || h.Raw
		thick = thick || 1000*h.MassKg/math.Max(b.plan.FermenterL, 1) > honeyDiluteGPerL
		points += b.pointsOf(h)
	}
	if b.predicted {
		s.number("window opens", hours(p.HoneyWindowHours[0].Mid))
		s.number("closes", hours(p.HoneyWindowHours[1].Mid))
	}
	head := b.d.Kit.FermenterL - b.plan.FermenterL
	s.number("room for foam", litres(head))
	s.number("raises the gravity by", of(quantity.Points, points))

	s.do("Closed jar in water of {temperature} until it pours, never above {hottest}; sanitise jar, lid, spoon", celsius(pourC), celsius(honeyHottestC))
	if thick {
		s.do("So much sinks: thin it with half its volume of boiled water at {temperature}", celsius(pourC))
	}
	s.do("In {count} portions, each when the foam has fallen; swirl, no splashing. For an airlock a wide hose into sanitiser", count(honeyPortions))
	s.note("Gravity jumps by {points} and means nothing until it is mixed and working again.", of(quantity.Points, points))
	if raw {
		s.note("Raw honey has live enzymes and wild yeast: it may end drier, over weeks.")
	}
	if b.predicted {
		plain := alcohol.Strength(p.OriginalGravitySG.Mid, p.FinalGravitySG.Mid).StrengthPct
		s.note("Strength from before and after misses the honey: {strength}, not {withHoney}.", of(quantity.Strength, plain), of(quantity.Strength, p.StrengthPct.Mid))
	}
	s.blank("gravity before", "gravity", quantity.Gravity, quantity.Quantity{})
	s.blank("in", "honey-added", quantity.MassKg, kilos(b.lateHoneyKg))
	s.blank("honey in: day, time", "honey-added", quantity.Moment, quantity.Quantity{})
	s.Cautions = append(s.Cautions, cautions.HoneyFoam())
	b.infant(&s, design.MomentFermenting)
	b.warnHoney(&s)
	return s, true
}

// warnTainted asks where honey comes from whose name tells of rhododendron.
func (b *brew) warnTainted(s *Step) {
	for i, h := range b.d.Honey {
		if h.MassKg > 0 && coldside.Tainted(h.Name) {
			s.warn(keys(path("honey", i)), "{name}: honey of rhododendron and its kin can poison, and fermenting is not known to help: only from a keeper who has it tested", h.Name)
		}
	}
}

// infant adds the caution about honey where the first of it goes in.
func (b *brew) infant(s *Step, moment string) {
	for _, m := range []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting} {
		if recipe.HoneyAt(b.d, m).MassKg() > 0 {
			if m == moment {
				s.Cautions = append(s.Cautions, cautions.HoneyInfants())
				b.warnTainted(s)
			}
			return
		}
	}
}

func (b *brew) warnHoney(s *Step) {
	b.volumesWarn(s, water.AtFerment)
	if !b.predicted {
		return
	}
	for _, o := range b.p.OutsideWindow {
		s.Warnings = append(s.Warnings, Warning{o.Text, keys(path("honey", o.Honey) + ".hours_after_height")})
	}
}
