package calc

import (
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/water"
	"skep/calc/yeast"
)

// The spread of the uncertain inputs, one standard deviation (design notes,
// section 7), where no package of the physics has it.
const (
	efficiencyPoints = 2.0 // mash efficiency, percentage points
	moisturePoints   = 1.0 // honey moisture, percentage points
)

// Logged is what is known of a brew and has no key in its design: what was
// written down while it was made. The zero value is a plan.
type Logged struct {
	RestRead   []bool    // by rest: its temperature was measured, so no lesson shifts it
	HoneyHours []float64 // by honey: hours after pitching at which it went in; NaN: as planned
	NowHours   float64   // honey that is only planned goes in no sooner
	BeerSD     float64   // 1 sd of the beer's temperature over the days, °C; 0: the usual
	Changes    []Change  // of the beer's temperature on purpose
	LowestSG   float64   // the lowest gravity that was read of the beer as it is; 0: none
	ReadHours  float64   // hours after pitching of the last gravity; 0: none was read
}

// Change is a temperature that the beer is brought to at an hour after pitching.
type Change struct{ Hours, TemperatureC float64 }

func (l *Logged) honeyHours(i int) (hours float64, known bool) {
	if i < len(l.HoneyHours) && !math.IsNaN(l.HoneyHours[i]) {
		return l.HoneyHours[i], true
	}
	return 0, false
}

// Brew is a design made ready for one strain: everything that does not hang on
// the uncertain inputs, once for each draw. It is not changed afterwards, so
// several goroutines may draw from it, each with a [Draw] of its own.
type Brew struct {
	d         design.Design
	yeast     design.Yeast
	clock     Clock // of the yeast
	spread    spreads
	logged    *Logged
	plan      water.Plan
	crushCost float64     // mash efficiency that the crush loses, points
	mash      *mashTables // nil: no grain, the wort is honey and water
	trim      float64     // of dextrin by live honey enzymes, at their 90th percentile
	bears     float64     // alcohol that the strain bears, % vol
	feed      float64     // pace of the yeast on its nitrogen; 0: well fed
	notes     []message.Message

	draws  []drawn
	honeys []honeySums // of draws
	mid    Inputs      // every uncertain input at its middle
	middle drawn
}

// Plan is the liquor of the day; Yeast the strain; KeptShare the share of the
// vessel's wort that reaches the fermenter.
func (b *Brew) Plan() *water.Plan { return &b.plan }

// Yeast is the strain that it is brewed with.
func (b *Brew) Yeast() design.Yeast { return b.yeast }

// Design is the design that it is made of.
func (b *Brew) Design() *design.Design { return &b.d }

// CrushCost is the mash efficiency that the crush loses, points.
func (b *Brew) CrushCost() float64 { return b.crushCost }

// HasGrain tells whether any extract comes from grain.
func (b *Brew) HasGrain() bool { return b.mash != nil }

// NewBrew makes a design ready, with its own yeast and what was logged, outside
// an engine: for the few beers that package learn reads a batch with. The mash
// is tabulated only so many kelvin to each side of its first rest, and held at
// the ends of that.
func NewBrew(d design.Design, reachC float64, logged Logged) (*Brew, error) {
	if len(d.Yeast) == 0 || len(d.Mash.Rest) == 0 {
		return nil, message.NewError("the design needs a yeast and a mash rest")
	}
	e := Engine{reachC: reachC, logged: logged}
	plan := recipe.Liquor(d)
	return e.brewOf(d, &plan, d.Yeast[0], 0)
}

// brewOf makes a design ready with one yeast, over the temperature of one rest,
// without any draw.
func (e *Engine) brewOf(d design.Design, plan *water.Plan, y design.Yeast, rest int) (*Brew, error) {
	b := &Brew{d: d, yeast: y, plan: *plan, crushCost: recipe.Crush(d.Crush).EfficiencyPoints(), spread: e.doubts.sd(), logged: &e.logged}
	b.clock = Clock{ferment.UsualLagHours, 1, 1}
	for _, w := range b.plan.Warnings {
		b.notes = append(b.notes, w.WithKeys())
	}
	if b.plan.LaboratoryKg > 0 {
		tables, notes, err := e.tables(d, rest)
		if err != nil {
			return nil, err
		}
		b.mash = tables
		b.notes = append(b.notes, notes...)
	} else {
		b.notes = append(b.notes, message.New("there is no extract from grain: this is honey and water, which the model knows only by mass"))
	}
	b.readyTrim()
	b.readyStress()
	b.mid = b.Inputs(&e.middle)
	b.drawFrom(&b.mid, &b.middle)
	return b, nil
}

// prepare is brewOf with the engine's draws.
func (e *Engine) prepare(d design.Design, plan *water.Plan, y design.Yeast, rest int) (*Brew, error) {
	b, err := e.brewOf(d, plan, y, rest)
	if err != nil {
		return nil, err
	}
	b.draws, b.honeys = e.drawn, e.honeys
	b.drawAll(e)
	e.drawn, e.honeys = b.draws, b.honeys
	return b, nil
}

// drawAll works the draws of an engine out, in the memory of earlier ones.
func (b *Brew) drawAll(e *Engine) {
	takes, n := e.takesOf(b.yeast), len(e.draws)
	b.draws, b.honeys = slices.Grow(b.draws[:0], n)[:n], slices.Grow(b.honeys[:0], n)[:n]
	for i := range e.draws {
		in := e.fixed[i]
		b.place(&in)
		in.Take = takes[i]
		b.drawFrom(&in, &b.draws[i])
		b.honeys[i] = b.draws[i].honey()
	}
}

// of works one row of normal scores out as far as no design is needed: the
// efficiency as points from its middle, the rest's error in its sd.
func (s spreads) of(z *[doubt.Inputs]float64) Inputs {
	// How the trim spreads is the same whatever its size.
	unit := honey.DiastaseTrim(1, 1, 20)
	unit.Mid, unit.High = unit.Mid/unit.High, 1
	return Inputs{
		RestErrorC: z[doubt.Rest], EfficiencyPct: s.efficiency * z[doubt.Efficiency], MoisturePct: moisturePoints * z[doubt.HoneyMoisture],
		Malt:         mash.Doubt{AttenuationPoints: s.malt * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))},
		Tasting:      taste.Draw(s.maltSweet.at(s.sweet*z[doubt.MaltSweet]), s.alcoholFull.at(s.sweet*z[doubt.SimpleSweet])),
		HoneySolids:  honey.Solids(honey.Blossom, honey.FermentableShareMid+honey.FermentableShareSD*z[doubt.HoneySugars]),
		Trim:         unit.At(z[doubt.Diastase]),
		DrynessShift: s.dryness.above(z[doubt.PalateDryness]), BodyShift: s.body.above(z[doubt.PalateBody]),
	}
}

// place puts a worked row into this design.
func (b *Brew) place(in *Inputs) {
	in.EfficiencyPct += b.d.Kit.MashEfficiencyPct
	in.RestErrorC = b.restErrorC(in)
}

// restErrorC is how much warmer than set the rests are in a row without a design.
func (b *Brew) restErrorC(fixed *Inputs) float64 { return fixed.RestErrorC * b.d.Kit.RestErrorC }

// Inputs is what a row of normal scores means in this design.
func (b *Brew) Inputs(z *[doubt.Inputs]float64) Inputs {
	in := b.spread.of(z)
	b.place(&in)
	in.Take = takeAt(&b.yeast, z[doubt.Strain])
	b.pace(&in, z)
	return in
}

// pace fills in the clock of a row.
func (b *Brew) pace(in *Inputs, z *[doubt.Inputs]float64) {
	sd := b.logged.BeerSD
	if sd == 0 {
		sd = ferment.UsualTemperatureErrorC
	}
	c := b.clock
	in.RateFactor = min(max(c.RateFactor*ferment.RateFactor(c.Share*z[doubt.Rate]), 0.05), 20)
	if b.feed > 0 {
		in.RateFactor *= b.feed
	}
	in.LagHours = min(max(c.LagHours*ferment.LagFactor(c.Share*z[doubt.Lag]), 0.01), 500)
	in.Shape = ferment.ShapeFactor(min(max(z[doubt.Shape], -3), 3))
	in.Slow, in.Air = ferment.SlowShare(z[doubt.Tail]-doubt.Asked), ferment.AirFactor(z[doubt.Air]-doubt.Asked)
	in.Height = doubt.Uniform(z[doubt.Height])
	in.WarmerC = sd * z[doubt.BeerTemperature]
}

// LagHours is the lag of some inputs at the temperature of their beer.
func (b *Brew) LagHours(in *Inputs) float64 {
	k := ferment.Trade()
	return in.LagHours / k.Activity(b.yeast.TemperatureC+in.WarmerC)
}

// reference turns a strain's attenuation into what it takes.
var reference = yeast.NewScale(mash.Reference())

// takeAt is what a strain takes at a normal score: the range is its 10 to 90.
func takeAt(y *design.Yeast, z float64) yeast.Take { return TakeOf(StrainPct(y, z)) }

// StrainPct is a strain's apparent attenuation on the reference wort at a normal
// score.
func StrainPct(y *design.Yeast, z float64) float64 {
	mid := (y.AttenuationLowPct + y.AttenuationHighPct) / 2
	sd := (y.AttenuationHighPct - y.AttenuationLowPct) / (2 * doubt.Z90)
	return mid + sd*z
}

// TakeOf is what a strain of an apparent attenuation on the reference wort takes.
func TakeOf(attenuationPct float64) yeast.Take { return reference.Take(attenuationPct) }

// drawFrom works inputs out, as far as the mash temperature is not needed.
func (b *Brew) drawFrom(in *Inputs, w *drawn) {
	efficiency := in.EfficiencyPct - b.crushCost
	w.restErrorC, w.malt, w.take, w.tasting = in.RestErrorC, in.Malt, in.Take, in.Tasting
	w.dryness, w.body, w.kept, w.reach, w.bears = in.DrynessShift, in.BodyShift, b.plan.KeptShare, 0, b.bears
	w.grainKg = b.plan.LaboratoryKg * min(max(efficiency, 0), 100) / 100 * b.plan.KeptShare
	w.trimmed, w.known = in.Trim*b.trim, false
	w.hot, w.pitched, w.late = sugar.Spectrum{}, honeyIn{}, honeyIn{}
	if in.GrainKg > 0 {
		w.grainKg, w.known = in.GrainKg, true
	}
	for i := range b.d.Honey {
		h := &b.d.Honey[i]
		kg := in.solidsKg(h)
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			w.hot.Add(&in.HoneySolids, kg*w.kept)
		case design.MomentPitching:
			w.pitched.add(h.MassKg, &in.HoneySolids, kg)
		default:
			w.late.add(h.MassKg, &in.HoneySolids, kg)
		}
	}
}

// HoneyKg is the extract of a honey.
func (in *Inputs) HoneyKg(h *design.Honey) sugar.Spectrum {
	return in.HoneySolids.Times(in.solidsKg(h))
}

func (in *Inputs) solidsKg(h *design.Honey) float64 {
	return honey.SolidsKg(h.MassKg, min(max(h.MoisturePct+in.MoisturePct, honey.MinMoisturePct), honey.MaxMoisturePct))
}

// readyTrim works out what live enzymes of raw honey that never was hot trim of
// the dextrin.
func (b *Brew) readyTrim() {
	rawCool := 0.0 // g per litre
	for i := range b.d.Honey {
		if h := &b.d.Honey[i]; h.Raw && (h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting) {
			rawCool += 1000 * h.MassKg / b.plan.FermenterL
		}
	}
	b.trim = 0
	if rawCool > 0 {
		b.trim = honey.DiastaseTrim(rawCool, honey.TrimDays, b.yeast.TemperatureC).High
	}
}

// Middle is every uncertain input at its middle, or at that of what was measured.
func (b *Brew) Middle() Inputs { return b.mid }

// Draw is one beer and its course: a workspace, used again and again by one
// goroutine.
type Draw struct {
	Beer
	Fermentation

	w      drawn
	events []ferment.Event
	again  bool // the course is that of the draw before it
}

// Draw works the beer of some inputs out, without its course. It allocates
// nothing.
func (b *Brew) Draw(in *Inputs, x *Draw) {
	b.drawFrom(in, &x.w)
	b.at(b.d.Mash.Rest[0].TemperatureC, &x.w, &x.Beer)
}

// Ferment is [Brew.Draw] with the course.
func (b *Brew) Ferment(in *Inputs, x *Draw) {
	b.Draw(in, x)
	b.course(in, x, toTheEnd, nil)
}

// FermentUntilNow is Ferment without the milestones, and without honey that is
// only planned where it is known what has been logged until now: what readings are
// held against.
func (b *Brew) FermentUntilNow(in *Inputs, x *Draw) {
	b.Draw(in, x)
	b.course(in, x, untilNow, nil)
}
