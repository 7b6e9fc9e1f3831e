package learn

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"time"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/mash"
	"skep/calc/recipe"
)

// brewer is a simulated one: the true values are hidden from package learn,
// which only sees the readings.
type brewer struct {
	rng   *rand.Rand
	keep  map[float64]*calc.Engine // each with the mash of a rest
	base  design.Design
	world world

	efficiency, steam, offset float64
	malt, clean, english      float64 // attenuation points: stands in the malt, of the strains
	hands, cleanLog, engLog   float64 // logarithm of the time
	dryness, body             float64
	response                  float64
	sweet, simple             float64
}

// world is how brewers differ from what is believed of them: kit by kit and
// batch by batch, in multiples of the believed spreads.
type world struct {
	name       string
	kit, batch float64
}

func newBrewer(seed uint64, base design.Design, w world) *brewer {
	rng := rand.New(rand.NewPCG(20260621, seed))
	n := func(sd float64) float64 { return w.kit * sd * rng.NormFloat64() }
	y := base.Yeast
	return &brewer{
		rng: rng, keep: map[float64]*calc.Engine{}, base: base, world: w,
		efficiency: base.Kit.MashEfficiencyPct + n(kitEfficiencySD),
		steam:      math.Max(0.3, base.Kit.SteamLPerH+n(kitSteamSD)),
		offset:     n(base.Kit.RestErrorC * math.Sqrt(offsetShare)),
		malt:       n(standingMaltSD),
		clean:      (y[0].AttenuationLowPct+y[0].AttenuationHighPct)/2 + n(strainSD(y[0].AttenuationLowPct, y[0].AttenuationHighPct)),
		english:    (y[1].AttenuationLowPct+y[1].AttenuationHighPct)/2 + n(strainSD(y[1].AttenuationLowPct, y[1].AttenuationHighPct)),
		hands:      n(handsTimeSD), cleanLog: n(strainTimeSD), engLog: n(strainTimeSD),
		dryness: n(palateSD), body: n(palateSD),
		response: mash.ResponseQuantile(rng.Float64()),
		sweet:    rng.NormFloat64(), simple: rng.NormFloat64(),
	}
}

// outcome is what a batch truly came to.
type outcome [7]float64

// names of the outcomes; the tenth of a unit is what is printed.
var outcomes = [7]struct {
	name, unit string
	times      float64
}{
	{"original gravity", "points", 1000}, {"final gravity", "points", 1000}, {"strength", "% vol", 1},
	{"time to the height", "h", 1}, {"litres before the boil", "L", 1}, {"dryness as perceived", "index", 1}, {"body as perceived", "index", 1},
}

// made is one true batch with what its readings are made from.
type made struct {
	outcome
	beer   calc.Beer
	brew   *brewed
	factor float64
	offset float64
	x      calc.Inputs
}

// ready makes a design ready by the engine that has its mash already.
func (b *brewer) ready(d design.Design) *brewed {
	rest := d.Mash.Rest[0].TemperatureC
	if b.keep[rest] == nil {
		b.keep[rest] = calc.NewEngineDraws(1)
	}
	if err := b.keep[rest].SetMeasured(nil, afterAll(&d)); err != nil {
		panic(err)
	}
	brew, err := b.keep[rest].Brew(d, 0)
	if err != nil {
		panic(err)
	}
	return &brewed{Brew: brew}
}

// brew makes a design with the true values, and this batch's luck.
func (b *brewer) brew(d design.Design) made {
	n := func(sd float64) float64 { return b.world.batch * sd * b.rng.NormFloat64() }
	strain, log := b.clean, b.cleanLog
	if d.Yeast[0].Name == b.base.Yeast[1].Name {
		strain, log = b.english, b.engLog
	}
	m := made{brew: b.ready(d), factor: math.Exp(b.hands + log + n(batchTimeSD)), offset: b.offset + n(d.Kit.RestErrorC*math.Sqrt(1-offsetShare))}
	efficiency, malt := b.efficiency+n(batchEfficiencySD), b.malt+n(batchMaltSD)
	row := [doubt.Inputs]float64{doubt.MaltSweet: b.sweet, doubt.SimpleSweet: b.simple}
	for _, honey := range []doubt.Input{doubt.HoneyMoisture, doubt.HoneySugars, doubt.Diastase} {
		row[honey] = b.rng.NormFloat64()
	}
	m.x = m.brew.Inputs(&row)
	m.x.EfficiencyPct, m.x.RestErrorC = efficiency, m.offset
	m.x.Malt = mash.Doubt{AttenuationPoints: malt, Response: b.response}
	m.x.Take = calc.TakeOf(math.Min(math.Max(strain, 10), 100))
	m.beer = *m.brew.beer(&m.x)
	brewed := d.Clone()
	brewed.Kit.SteamLPerH = math.Max(0.1, b.steam+n(batchSteamSD))
	plan := recipe.LiquorForExtract(brewed, m.beer.GrainKg/m.brew.Plan().KeptShare)
	// The brewer boils until the mark in the fermenter is met.
	m.outcome = outcome{density.SGFromPlato(m.beer.OriginalPlato), m.beer.FinalGravitySG, m.beer.ABVPct, 0, plan.PreBoil,
		m.beer.Dryness + b.dryness + n(tastingSD), m.beer.Body + b.body + n(tastingSD)}
	m.outcome[3] = m.factor * midHeight(d)
	for i := 5; i < 7; i++ {
		m.outcome[i] = min(max(m.outcome[i], 0), 100) // the scale ends there
	}
	return m
}

// midHeight is the predicted height of a design, hours, each worked out once.
var midHeight = func() func(d design.Design) float64 {
	var lock sync.Mutex
	known := map[string]float64{}
	return func(d design.Design) float64 {
		key := fmt.Sprint(d.Mash.Rest, d.Yeast[0].Name, d.Yeast[0].TemperatureC, d.Honey)
		lock.Lock()
		defer lock.Unlock()
		h, ok := known[key]
		if !ok {
			brew, err := brewedOf(d)
			if err != nil {
				panic(err)
			}
			x := brew.middle()
			h = brew.course(&x).HeightHours
			known[key] = h
		}
		return h
	}
}()

var monday = time.Date(2026, 1, 5, 10, 0, 0, 0, time.UTC)

// readings are what the brewer writes down of a batch, by instruments with
// their errors.
func (b *brewer) readings(d design.Design, m *made, at time.Time) []design.Reading {
	n := b.rng.NormFloat64
	sg := func(v float64) float64 { return v + 0.0005*n() }
	read := func(what string, hours, v float64) design.Reading {
		return design.Reading{What: what, At: at.Add(time.Duration(hours * float64(time.Hour))), Value: v, TemperatureC: 20, Instrument: "hydrometer"}
	}
	out := []design.Reading{
		read("mash-temperature", -5, d.Mash.Rest[0].TemperatureC+m.offset+math.Hypot(0.5, mashGradientC)*n()),
		read("pre-boil-volume", -3, m.outcome[4]*(1+preBoilVolumeShare*n())),
		read("volume-into-fermenter", -0.2, d.Batch.IntoFermenterL*(1+0.02*n())),
		read("original-gravity", -0.1, sg(m.outcome[0])),
		read("pitched", 0, 1),
	}
	c := m.brew.course(&m.x)
	height := c.HeightHours * m.factor
	// A look twice a day until the honey goes in.
	for h := 12.0; h < height+18; h += 12 {
		now := c.At(h / (m.factor * math.Exp(0.5*shapeTimeSD*n())))
		out = append(out, read("gravity", h, sg(now.GravitySG)))
	}
	if len(d.Honey) > 0 && d.Honey[0].MassKg > 0 {
		out = append(out, read("honey-added", height+18, d.Honey[0].MassKg))
	}
	out = append(out, read("final-gravity", 400, sg(m.outcome[1])))
	tasted := func(what string, v float64) {
		out = append(out, read(what, 900, math.Round(v)))
	}
	tasted("perceived-dryness", m.outcome[5])
	tasted("perceived-body", m.outcome[6])
	return out
}

// recipe is the n-th design of a brewer's life: rests, honey and strain vary.
func (b *brewer) recipe(n int) design.Design {
	d := b.base.Clone()
	d.Mash.Rest[0].TemperatureC = 64 + float64((n*2)%6)
	d.Honey[0].MassKg = 0.3 + 0.1*float64(n%5)
	if n%4 == 2 {
		d.Yeast[0], d.Yeast[1] = d.Yeast[1], d.Yeast[0]
	}
	return d
}

// forecast are the bands of the outcomes that the engine makes of what Apply
// gives, by so many draws. The time to the height and the litres before the boil
// are by their spreads alone, which saves a course a draw.
func forecast(d design.Design, l *Lessons, off Switches, e *calc.Engine, draws doubt.Draws) (bands [7][3]float64, err error) {
	applied, doubts, _ := l.Apply(d, off)
	for _, t := range []*TasteDoubts{&doubts.Dryness, &doubts.Body} {
		if !t.Known { // a stranger's palate
			*t = TasteDoubts{0, palateSD, tastingSD, true}
		}
	}
	if err := e.SetDoubts(doubts.Engine()); err != nil {
		return bands, err
	}
	brew, err := e.Brew(applied, 0)
	if err != nil {
		return bands, err
	}
	b := brewed{Brew: brew}
	var x [7][]float64
	for i := range draws {
		in := b.Inputs(&draws[i])
		r := b.beer(&in)
		for k, v := range [7]float64{0: density.SGFromPlato(r.OriginalPlato), 1: r.FinalGravitySG, 2: r.ABVPct, 5: r.Dryness, 6: r.Body} {
			x[k] = append(x[k], v)
		}
	}
	for k := range x {
		bands[k][0], bands[k][1], bands[k][2] = doubt.Percentiles(x[k])
	}
	clock := ClockDoubts{1, 1}
	if doubts.Clock != nil {
		clock = doubts.Clock[0]
	}
	hours := clock.TimeFactor * midHeight(d)
	wide := math.Exp(doubt.Z90 * engineTimeSD * clock.Share)
	bands[3] = [3]float64{hours / wide, hours, hours * wide}
	for i := range l.Lessons {
		if x := &l.Lessons[i]; x.Key == BoilOff {
			steam, litres := x.NextSD*d.Boil.Minutes/60*1.04*doubt.Z90, brew.Plan().PreBoil
			bands[4] = [3]float64{litres - steam, litres, litres + steam}
		}
	}
	return bands, nil
}
