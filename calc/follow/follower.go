package follow

import (
	"fmt"
	"math"
	"slices"
	"time"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/says"
)

// Follower follows batches. It keeps the mash and the plan's bands of the last
// design: a new reading costs only the update. A Follower is for one goroutine;
// the zero value is ready.
type Follower struct {
	mash mashes

	planKey string
	plan    *sample
	planned Bands
}

// Batch is all that is known of a fermentation. It is for one goroutine.
type Batch struct {
	Timeline    Timeline
	Conditioned Conditioned
	// Before is what was predicted with what was measured of volumes, mash,
	// temperature and honey, but no gravity and no foam; After is the posterior.
	Before, After Bands
	Inputs        []Input
	// Draws is the posterior for an engine: rows of equal weight, as package
	// doubt would draw them. An engine with the same doubts, and these in the
	// place of its own draws, predicts Conditioned.Design, and tunes what is left
	// of it, as measured. Palate and clock are not in them (package ferment draws
	// the clock apart): dryness, body and times are in After.
	Draws   doubt.Draws
	ESS     float64 // effective sample size of the posterior's draws: about 200 and more is good, below 50 the bands are rough
	Doubts  []Doubt // readings that don't fit, the worst first
	State   State
	Moment  Moment
	Honey   HoneyLog
	Bottle  Bottle
	Notes   []says.Sentence
	priors  calc.Doubts
	model   *model
	mash    mashes
	sample  sample
	evened  []theta
	left    calc.Band // SG still to fall from now on, in the posterior
	horizon int
}

// horizonHours is how far the bands by the hour go at least, and at most.
const (
	horizonLeast = 14 * 24
	horizonMost  = 60 * 24
)

// Follow updates a design by its own readings as of now, with the instruments
// they were made with. A zero now is the time of the last reading. The design
// must be valid but for its readings, whatever they hold. The doubts are the
// priors that it has no key for, as the engine takes them: finished batches may
// have told of them (package learn), zero is the engine's own.
func (f *Follower) Follow(d design.Design, now time.Time, in Instruments, x calc.Doubts) (*Batch, error) {
	if err := x.Check(); err != nil {
		return nil, err
	}
	b := &Batch{Timeline: NewTimeline(d.Reading, now, in), priors: x.Filled(1)}
	t := &b.Timeline
	if err := b.prepare(f, d); err != nil {
		return nil, err
	}
	before := b.update(f)
	b.courses()
	b.inputs(before)
	b.moment()
	b.Bottle.Guard = b.guard()
	b.state()
	b.bottle()
	b.Notes = append(b.Notes, t.Notes...)
	return b, nil
}

// update finds the posterior; it returns the plan's sample.
func (b *Batch) update(f *Follower) *sample {
	before := f.before(b)
	g := target{m: b.model, free: b.freeInputs()}
	g.obs = b.model.observed(&b.Timeline, b.Before.EffectiveOriginalGravitySG.Mid, b.endSG())
	b.sample = *before
	if len(g.obs) > 0 {
		var r mode
		b.sample, r = g.solve()
		b.doubts(&g, &r)
	}
	b.ESS = b.sample.ess
	b.After = b.model.bands(&b.sample)
	return before
}

// endSG is where the gravity is going, for the model's own error: the last
// reading when it should be over, else the plan's or what was passed already.
func (b *Batch) endSG() float64 {
	end := b.Before.FinalGravitySG.Mid
	for _, p := range b.Timeline.used(Gravity, FinalGravity) {
		if p.Hours > b.Before.FinishedHours.Mid {
			end = p.Value
		} else {
			end = min(end, p.Value)
		}
	}
	return end
}

// prepare conditions the design. Honey's moment is filed from the height, so
// that has to be known first: the plan's serves, as only the file shows it (the
// model takes logged honey by the clock).
func (b *Batch) prepare(f *Follower, d design.Design) error {
	t := &b.Timeline
	plan := d.Clone()
	plan.Reading = nil
	b.Conditioned = Condition(plan, t, 0)
	m, err := newModel(&b.Conditioned, b.priors, &f.mash)
	if err != nil {
		return err
	}
	var l look
	m.run(&theta{}, &l.beer, &l.course)
	b.Conditioned = Condition(plan, t, l.course.times.height)
	if b.model, err = newModel(&b.Conditioned, b.priors, &f.mash); err != nil {
		return err
	}
	b.mash = f.mash
	if v := t.used(PreBoilVolume); len(v) > 0 {
		b.model.preBoilL = v[len(v)-1].Value
	}
	b.model.nowHours = t.NowHours
	t.refract(b.model.original(t, &l.beer), b.model.mostSG())
	return nil
}

// original is what the beer of an hour is from: the measured original gravity
// if there is one, and all honey that is in.
func (m *model) original(t *Timeline, plan *beer) originalPlato {
	oe := plan.ogPlato
	for _, p := range t.used(OriginalGravity) {
		oe = density.PlatoFromSG(p.Value)
	}
	atPitching := plan.honey.pitched.Total()+plan.honey.hot.Total() > 0
	return func(hours float64) (float64, bool) {
		extract, mass, honey := oe/100*plan.pitchKg, plan.pitchKg, atPitching
		for i := range plan.honey.lates {
			x := &plan.honey.late[i]
			if !x.fromHeight && x.hours < hours {
				extract, mass, honey = extract+x.kg.Total(), mass+x.massKg, true
			}
		}
		return 100 * extract / mass, honey
	}
}

// mostSG is the gravity of all extract that the laboratory finds in the grist,
// and all honey: no beer of this design can show more, but for the
// instrument.
func (m *model) mostSG() float64 {
	var b beer
	t := theta{}
	m.beerOf(&t, &b)
	extract, mass := m.plan.LaboratoryKg*m.plan.KeptShare+b.honey.hot.Total()+b.honey.pitched.Total(), b.pitchKg
	for i := range b.honey.lates {
		extract += b.honey.late[i].kg.Total()
		mass += b.honey.late[i].massKg
	}
	return density.SGFromPlato(min(100*extract/mass, 40)) + aboveOriginalSG
}

// freeInputs are the inputs that readings may tell of.
func (b *Batch) freeInputs() []int {
	var out []int
	raw, honey := false, false
	for _, h := range b.model.d.Honey {
		honey = honey || h.MassKg > 0
		raw = raw || h.Raw && h.MassKg > 0
	}
	brix := slices.ContainsFunc(b.Timeline.Points, func(p Point) bool { return p.Used && p.inBeer() && p.Instrument == refractometer })
	for k := range dims {
		switch doubt.Input(k) {
		case doubt.MaltSweet, doubt.SimpleSweet:
			continue
		case doubt.HoneyMoisture, doubt.HoneySugars:
			if !honey {
				continue
			}
		case doubt.Diastase:
			if !raw {
				continue
			}
		}
		if k == iRefractometer && !brix {
			continue
		}
		out = append(out, k)
	}
	return out
}

// before is the plan's sample and bands, from the last call if nothing of it
// has changed.
func (f *Follower) before(b *Batch) *sample {
	m := *b.model
	m.nowHours = 0
	crush := ""
	if m.d.Crush != nil {
		crush = m.d.Crush.ByEye
	}
	// All that the plan's gravities and times hang on.
	key := fmt.Sprint(m.d.Batch, m.d.Kit, crush, m.d.Mash, m.d.Grain, m.yeast, m.d.Honey, m.d.Hop, m.d.Boil, m.honeyHours, m.beerC, m.beerSD, m.restC, m.priors)
	if f.plan == nil || key != f.planKey {
		g := target{m: &m}
		s := g.draw(nil, drawCount)
		f.planKey, f.plan, f.planned = key, &s, m.bands(&s)
	}
	now := math.Ceil(b.Timeline.NowHours) + 24
	b.horizon = int(min(max(horizonLeast, math.Ceil(f.planned.FinishedHours.High)+24, now), horizonMost))
	if len(f.planned.Hours) <= b.horizon {
		m.hourly(f.plan.pick(), b.horizon, &f.planned, nil)
	}
	b.Before = f.planned
	return f.plan
}

// pick are the draws of equal weight.
func (s *sample) pick() []theta {
	var out []theta
	for _, i := range s.even() {
		out = append(out, s.draws[i])
	}
	return out
}

// courses fills in the bands by the hour, what honey did, and the engine's
// draws.
func (b *Batch) courses() {
	b.evened = b.sample.pick()
	logs := newHoneyRows(len(b.evened))
	b.model.hourly(b.evened, b.horizon, &b.After, logs)
	b.logged(logs)
	b.Draws = make(doubt.Draws, len(b.evened))
	for i := range b.evened {
		b.Draws[i] = b.evened[i].engine()
	}
}
