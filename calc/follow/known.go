package follow

import (
	"fmt"
	"slices"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/measured"
	"skep/calc/water"
)

// Known is one beer: a design with its readings, the lessons of other batches and
// now. Every place, sheet and command predicts it with Engine from
// Conditioned.Design, so all of them say the same. Without a reading that tells of
// it, it is the plan with the plan's own draws.
type Known struct {
	Timeline    measured.Timeline
	Plan        design.Design // as it was before anything was measured
	Conditioned measured.Conditioned
	// Draws is the posterior: rows of equal weight, as package doubt would draw
	// them. nil: the plan's own.
	Draws  doubt.Draws
	Engine *calc.Engine // set to them and to what was logged
	ESS    float64      // effective sample size of the posterior's draws: about 200 and more is good, below 50 the bands are rough
	Doubts []Doubt      // readings that don't fit, the worst first

	planned Bands // without any gravity or foam
	model   *model
	evened  []theta
}

// Minute is the now that an hour of the clock stands for: the end of its minute.
// Readings written down within it are not later than it, and a beer asked for
// twice within it is the same one.
func Minute(at time.Time) time.Time { return at.UTC().Truncate(time.Minute).Add(time.Minute) }

// Know makes one beer of a design, its readings as of now, the instruments they
// were made with, and the lessons of finished batches. A zero now is the time of
// the last reading. The design must be valid but for its readings, whatever they
// hold.
func (f *Follower) Know(d design.Design, now time.Time, in measured.Instruments, x calc.Doubts) (*Known, error) {
	if f.engine == nil {
		f.engine = calc.NewEngine()
	}
	if err := f.engine.SetDoubts(x); err != nil {
		return nil, err
	}
	k := &Known{Timeline: measured.NewTimeline(d.Reading, now, in), ESS: drawCount}
	if err := k.condition(f.engine, d); err != nil {
		return nil, err
	}
	t := &k.Timeline
	if len(d.Reading) > 0 {
		if err := f.plan(k); err != nil {
			return nil, err
		}
		observe := func() []obs { return observed(t, k.planned.EffectiveOriginalGravitySG.Mid, k.endSG()) }
		g := target{m: k.model, free: k.freeInputs(), obs: observe(), scores: f.scores, nowHours: t.NowHours, heightHours: k.planned.HeightHours.Mid}
		for g.leaveOutWrong(t) {
			k.Conditioned.Lowest(t)
			if err := k.model.again(f.engine, &k.Conditioned, t.NowHours); err != nil {
				return nil, err
			}
			g.obs = observe()
		}
		g.untimed = !slices.ContainsFunc(g.obs, func(o obs) bool { return o.what == measured.Foam })
		if len(g.obs) > 0 {
			s, _ := g.solve()
			k.doubts(&g, &s)
			k.ESS = s.ess
			own, untold := f.engine.Own(), g.untold()
			for j, i := range s.even() {
				row := s.draws[i].row()
				for _, input := range untold {
					row[input] = own[j][input]
				}
				k.evened = append(k.evened, s.draws[i])
				k.Draws = append(k.Draws, row)
			}
		}
	}
	k.Engine = f.engine.Fork()
	return k, k.Engine.SetMeasured(k.Draws, k.Conditioned.Logged(t.NowHours))
}

// condition puts what was measured into the design. Honey's moment is filed from
// the height, so that has to be known first: the plan's serves, as only the file
// shows it (the model takes logged honey by the clock).
func (k *Known) condition(e *calc.Engine, d design.Design) error {
	t := &k.Timeline
	plan := d.Clone()
	plan.Reading = nil
	k.Plan = plan
	k.Conditioned = measured.Condition(plan, t, 0)
	if err := e.SetMeasured(nil, calc.Logged{}); err != nil {
		return err
	}
	if len(d.Reading) == 0 {
		return design.FirstError(plan.Validate())
	}
	m, err := newModel(e, &k.Conditioned, t.NowHours)
	if err != nil {
		return err
	}
	var l evaluation
	middle := planned
	m.run(&middle, &l)
	height := l.HeightHours
	k.Conditioned = measured.Condition(plan, t, height)
	if k.model, err = newModel(e, &k.Conditioned, t.NowHours); err != nil {
		return err
	}
	if v := t.Used(measured.PreBoilVolume); len(v) > 0 {
		k.model.preBoilL = water.CoolL(v[len(v)-1].Value, k.model.brew.Plan().BoilingPointC)
	}
	k.model.run(&middle, &l)
	t.Refract(k.model.original(t, &l), k.model.mostSG(&l))
	return nil
}

// endSG is where the gravity is going, for the model's own error: the last
// reading when it should be over, else the plan's or what was passed already.
func (k *Known) endSG() float64 {
	end := k.planned.FinalGravitySG.Mid
	for _, p := range k.Timeline.Used(measured.Gravity, measured.FinalGravity) {
		if p.Hours > k.planned.FinishedHours.Mid {
			end = p.Value
		} else {
			end = min(end, p.Value)
		}
	}
	return end
}

// freeInputs are the inputs that readings may tell of.
func (k *Known) freeInputs() []int {
	var out []int
	raw, honey := false, false
	for _, h := range k.Conditioned.Design.Honey {
		honey = honey || h.MassKg > 0
		raw = raw || h.Raw && h.MassKg > 0
	}
	brix := slices.ContainsFunc(k.Timeline.Points, func(p measured.Point) bool { return p.Used && p.InBeer() && p.Instrument == measured.Refractometer })
	for j := range dims {
		switch j {
		case int(doubt.MaltSweet), int(doubt.SimpleSweet):
			continue
		case int(doubt.HoneyMoisture), int(doubt.HoneySugars):
			if !honey {
				continue
			}
		case int(doubt.Diastase):
			if !raw {
				continue
			}
		case iTail, iAir:
			if !slices.ContainsFunc(k.Timeline.Points, func(p measured.Point) bool { return p.Used && p.What == measured.Gravity }) {
				continue
			}
		case iHeight:
			if len(k.Timeline.Used(measured.Foam)) == 0 {
				continue
			}
		case iRefractometer:
			if !brix {
				continue
			}
		}
		out = append(out, j)
	}
	return out
}

// untold are the inputs that no observation tells of. They keep the engine's own
// draws, which are as even as so few can be.
func (g *target) untold() []doubt.Input {
	out := []doubt.Input{doubt.PalateDryness, doubt.PalateBody}
	for j := range wortInputs {
		if !slices.Contains(g.free, j) {
			out = append(out, doubt.Input(j))
		}
	}
	if !slices.Contains(g.free, iHeight) {
		out = append(out, doubt.Height)
	}
	return out
}

// plan fills in what was predicted with what was measured of volumes, mash,
// temperature and honey, but no gravity and no foam, from the last call if
// nothing of it has changed.
func (f *Follower) plan(k *Known) error {
	d, c := &k.Conditioned.Design, &k.Conditioned
	crush := ""
	if d.Crush != nil {
		crush = fmt.Sprint(*d.Crush)
	}
	// All that the plan's gravities and times hang on.
	key := fmt.Sprint(d.Batch, d.Kit, crush, d.Mash, d.Grain, d.Yeast, d.Honey, d.Hop, d.Boil, c.Logged(0), f.engine.Doubts())
	if key == f.planKey {
		k.planned = f.planned
		return nil
	}
	if err := f.engine.SetMeasured(nil, c.Logged(0)); err != nil {
		return err
	}
	p, err := f.engine.Predict(*d)
	if err != nil {
		return err
	}
	f.planKey, f.planned = key, bandsOf(&p)
	k.planned = f.planned
	return nil
}
