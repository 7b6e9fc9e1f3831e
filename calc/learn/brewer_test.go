package learn

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/taste"
)

// brewer is a simulated one: the true values are hidden from package learn,
// which only sees the readings.
type brewer struct {
	rng   *rand.Rand
	keep  map[float64]*tables // the brewer's mashes, by rest
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
		rng: rng, keep: map[float64]*tables{}, base: base, world: w,
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
	beer   beer
	f      *forward
	factor float64
	offset float64
	x      inputs
}

// brew makes a design with the true values, and this batch's luck.
func (b *brewer) brew(d design.Design) made {
	n := func(sd float64) float64 { return b.world.batch * sd * b.rng.NormFloat64() }
	rest := d.Mash.Rest[0].TemperatureC
	if b.keep[rest] == nil {
		b.keep[rest] = &tables{}
	}
	f, err := newForward(d, b.keep[rest], 6)
	if err != nil {
		panic(err)
	}
	strain, log := b.clean, b.cleanLog
	if d.Yeast[0].Name == b.base.Yeast[1].Name {
		strain, log = b.english, b.engLog
	}
	m := made{f: f, factor: math.Exp(b.hands + log + n(batchTimeSD)), offset: b.offset + n(d.Kit.RestErrorC*math.Sqrt(1-offsetShare))}
	m.x = f.middle()
	m.x.efficiencyPct = b.efficiency + n(batchEfficiencySD)
	m.x.restErrorC = m.offset
	m.x.malt = mash.Doubt{AttenuationPoints: b.malt + n(batchMaltSD), Response: b.response}
	m.x.strainPct = math.Min(math.Max(strain, 10), 100)
	m.x.moisture = moisturePoints * b.rng.NormFloat64()
	m.x.honeyShare += honey.FermentableShareSD * b.rng.NormFloat64()
	m.x.diastase = b.rng.NormFloat64()
	m.x.tasting = taste.Draw(b.sweet, b.simple)
	m.beer = f.beer(m.x)
	brewed := d.Clone()
	brewed.Kit.SteamLPerH = math.Max(0.1, b.steam+n(batchSteamSD))
	plan := calc.LiquorForExtract(brewed, m.beer.grainKg/f.plan.KeptShare)
	// The brewer boils until the mark in the fermenter is met.
	m.outcome = outcome{m.beer.ogSG, m.beer.fgSG, m.beer.abvPct, 0, plan.PreBoil,
		m.beer.dryness + b.dryness + n(tastingSD), m.beer.body + b.body + n(tastingSD)}
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
			f, err := newForward(d, &tables{}, 2)
			if err != nil {
				panic(err)
			}
			c, err := f.course(f.middle())
			if err != nil {
				panic(err)
			}
			h = c.HeightHours
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
		read("original-gravity", -0.1, sg(m.beer.ogSG)),
		read("pitched", 0, 1),
	}
	c, err := m.f.course(m.x)
	if err != nil {
		panic(err)
	}
	height := c.HeightHours * m.factor
	// A look twice a day until the honey goes in.
	for h := 12.0; h < height+18; h += 12 {
		g, _ := c.At(h / (m.factor * math.Exp(0.5*shapeTimeSD*n())))
		out = append(out, read("gravity", h, sg(g)))
	}
	if len(d.Honey) > 0 && d.Honey[0].MassKg > 0 {
		out = append(out, read("honey-added", height+18, d.Honey[0].MassKg))
	}
	out = append(out, read("final-gravity", 400, sg(m.beer.fgSG)))
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

// forecast are the bands of the outcomes, as the engine will make them from
// what Apply gives.
func forecast(d design.Design, l *Lessons, off Switches, keep *tables, draws doubt.Draws) (bands [7][3]float64, err error) {
	applied, doubts, _ := l.Apply(d, off)
	f, err := newForward(applied, keep, 3*applied.Kit.RestErrorC+math.Abs(doubts.RestShiftC))
	if err != nil {
		return bands, err
	}
	eff, malt, sweet := doubts.EfficiencySD, doubts.MaltSD, doubts.SweetShare
	if sweet == 0 {
		sweet = 1
	}
	if eff == 0 {
		eff = efficiencySD
	}
	if malt == 0 {
		malt = mash.MaltSDPoints
	}
	var x [5][]float64
	for i := range draws {
		in := f.drawn(&draws[i], eff, malt, sweet)
		in.restErrorC += doubts.RestShiftC
		r := f.beer(in)
		for k, v := range []float64{r.ogSG, r.fgSG, r.abvPct, r.dryness, r.body} {
			x[k] = append(x[k], v)
		}
	}
	for k := range x {
		low, mid, high := doubt.Percentiles(x[k])
		at := k
		if k > 2 {
			at += 2
		}
		bands[at] = [3]float64{low, mid, high}
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
			steam := x.NextSD * d.Boil.Minutes / 60 * 1.04 * doubt.Z90
			bands[4] = [3]float64{f.plan.PreBoil - steam, f.plan.PreBoil, f.plan.PreBoil + steam}
		}
	}
	for i, t := range []TasteDoubts{doubts.Dryness, doubts.Body} {
		if !t.Known { // a stranger's palate
			t = TasteDoubts{0, palateSD, tastingSD, true}
		}
		v := &bands[5+i]
		b := t.palate().Band(calc.Band{Low: v[0], Mid: v[1], High: v[2]})
		*v = [3]float64{b.Low, b.Mid, b.High}
	}
	return bands, nil
}
