package tune

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/quantity"
)

// mostWays is how many ways are shown.
const mostWays = 3

// nearPoints is how much further than the nearest a way may land to be shown
// beside it, when none reaches.
const nearPoints = 1.0

// To finds ways to a taste: up to three, best first.
//
// The miss of the mid values comes first, then the narrower cloud, then the
// smallest change, each in classes of one index point. All levers together
// are searched from a grid over their whole range, so that the nearest point
// is the nearest there is; ways with fewer levers are searched beside it and
// shown in its place where they land as near.
func (t *Tuner) To(w Wishes, free Levers) (Result, error) {
	r, err := t.Live(w, free)
	if err != nil {
		return r, err
	}
	now, err := t.engine.Drawn(t.design, 0)
	if err != nil {
		return Result{}, err
	}
	present, err := t.alone(t.design)
	if err != nil {
		return Result{}, err
	}
	for i := range r.Ways {
		if err := t.predict(&r.Ways[i], w, now, size(present.Four())); err != nil {
			return Result{}, err
		}
	}
	r.updateReached()
	r.Evaluations = t.evaluations
	return r, nil
}

// Live is To without the predictions, for a pin that is being dragged: the
// ways' Miss and Cloud are there, their Prediction is empty.
func (t *Tuner) Live(w Wishes, free Levers) (Result, error) {
	t.evaluations = 0
	qs, err := w.list()
	if err != nil {
		return Result{}, err
	}
	if err := t.ask(w); err != nil {
		return Result{}, err
	}
	g := t.prepare(free, w.StrengthPct != nil)
	places, err := t.search(g, qs)
	if err != nil {
		return Result{}, err
	}
	if f := &places[0]; !f.reached && f.miss < ReachedIndex*math.Sqrt(float64(len(qs))) {
		if places, err = t.even(g, qs, places); err != nil {
			return Result{}, err
		}
	}
	r := Result{Binding: []lever.Lever{}, Conflict: []string{}, Notes: t.notes(g)}
	any := slices.ContainsFunc(places, func(f found) bool { return f.reached })
	for i := range places {
		f := &places[i]
		if len(r.Ways) == mostWays ||
			len(r.Ways) > 0 && any && !f.reached ||
			len(r.Ways) > 0 && !any && (f.miss > places[0].miss+nearPoints || f.moved == 0) {
			continue
		}
		way, err := t.way(g, f, qs)
		if err != nil {
			return Result{}, err
		}
		r.Ways = append(r.Ways, way)
	}
	r.updateReached()
	if slices.ContainsFunc(places, func(f found) bool {
		return f.needless && (f.reached && !places[0].reached || class(f.miss) < class(places[0].miss))
	}) {
		r.Notes = append(r.Notes, message.New("the ways that come nearer take another strain or a short mash, and gain less by it than the doubt can tell apart: they stand last"))
	}
	if !r.Reached {
		r.Binding = t.binding(g, qs, &places[0])
		if slices.Contains(r.Binding, lever.Honey) && places[0].setting.HoneyKg >= t.mostHoneyKg()-lever.Honey.Found() {
			r.Notes = append(r.Notes, message.New("all {mass} of the honey at hand is used: more would have to be bought", quantity.Of(quantity.MassG, 1000*t.atHandKg)))
		}
		if len(r.Binding) == 0 && len(g.axes) > 0 {
			if r.Conflict = conflict(qs, &places[0]); len(r.Conflict) == 0 {
				r.Notes = append(r.Notes, message.New("no free lever goes further: each is where it does most for this taste"))
			}
		}
	}
	r.Evaluations = t.evaluations
	return r, nil
}

// even looks again for a place where no single miss is past its tolerance,
// when the nearest one lands so near that there may be one: the worst quality
// is given more weight.
func (t *Tuner) even(g *seeds, qs []quality, places []found) ([]found, error) {
	weighted := slices.Clone(qs)
	f := places[0]
	for range 2 {
		worst, most := 0, 0.0
		for i := range qs {
			if d := math.Abs(qs[i].of(&f.land)-qs[i].want) * qs[i].points; d > most {
				worst, most = i, d
			}
		}
		weighted[worst].points *= 1.5
		more, err := t.search(g, weighted)
		if err != nil {
			return nil, err
		}
		f = more[0]
		for i := range more {
			more[i].miss = missOf(qs, &more[i].land)
		}
		if reached(qs, &f.land) {
			return choose(append(places, more...), qs), nil
		}
	}
	return places, nil
}

func (r *Result) updateReached() {
	r.Reached = false
	for i := range r.Ways {
		r.Reached = r.Reached || r.Ways[i].Reached
	}
}

// way makes a place into what is shown.
func (t *Tuner) way(g *seeds, f *found, qs []quality) (Way, error) {
	d, set, err := t.apply(f.setting, f.yeast)
	if err != nil {
		return Way{}, err
	}
	return Way{
		HoneyLeftKg: t.honeyLeft(&d), Cautions: t.cautions(f),
		Settings: set, Design: d, Miss: misses(qs, &f.land), Reached: reached(qs, &f.land),
		Parts: t.parts(f), Free: g.levers(t), Points: f.miss, Cloud: f.cloud, Change: f.change,
	}, nil
}

// honeyLeft is what a design leaves of the honey at hand.
func (t *Tuner) honeyLeft(d *design.Design) *float64 {
	if math.IsInf(t.atHandKg, 1) {
		return nil
	}
	left := settable(max(t.atHandKg-d.HoneyBesideKg(-1), 0), 0.001)
	return &left
}

// shortMashMin is the mash, all rests together, below which a way that shortens it
// carries a caution: an hour is usual, and most malts convert in three quarters of
// it (common practice, no source).
const shortMashMin = 45.0

func (t *Tuner) cautions(f *found) []message.Message {
	if !t.cutShort(&f.setting) {
		return []message.Message{}
	}
	return []message.Message{message.New("a mash of {minutes} may leave starch: go on only when iodine on a drop of wort stays yellow", quantity.Of(quantity.Minutes, t.mashMin(&f.setting)))}
}

// cutShort tells whether a setting makes a short mash of one that was longer.
func (t *Tuner) cutShort(s *lever.Setting) bool {
	return s.Minutes < t.start.Minutes && t.mashMin(s) < shortMashMin
}

// mashMin is how long all rests together take.
func (t *Tuner) mashMin(s *lever.Setting) float64 {
	total := s.Minutes
	chosen, _ := t.lander.Chosen()
	for i := range t.design.Mash.Rest {
		if i != chosen {
			total += t.design.Mash.Rest[i].Minutes
		}
	}
	return total
}

// predict lets the engine have the last word.
func (t *Tuner) predict(way *Way, w Wishes, now *calc.Drawn, cloud float64) error {
	p, err := t.alone(way.Design)
	if err != nil {
		return err
	}
	t.evaluations++
	way.Prediction = p
	if way.Difference, err = t.engine.Difference(now, way.Design, 0); err != nil {
		return err
	}
	qs, err := w.list()
	if err != nil {
		return err
	}
	land := MidsOf(&p)
	way.Miss, way.Reached, way.Points, way.Cloud = misses(qs, &land), reached(qs, &land), missOf(qs, &land), size(p.Four())
	way.Surer = cloud - way.Cloud
	return nil
}

// alone predicts a design with its first strain; those beside it do not matter here.
func (t *Tuner) alone(d design.Design) (calc.Prediction, error) {
	d.Yeast = d.Yeast[:1]
	return t.engine.Predict(d)
}

// leastGain is what half a natural step must bring for a lever to be said to
// bind, index points.
const leastGain = 0.02

// binding are the free levers that stand at an end and would bring the beer
// nearer if they went on.
func (t *Tuner) binding(g *seeds, qs []quality, f *found) []lever.Lever {
	p := t.problem(g, qs, f.flip)
	p.bias = minus(f.land, t.quick(f.setting))
	for i := range g.axes {
		if a := &g.axes[i]; a.strains != nil {
			p.base.YeastC = f.setting.YeastC
		}
	}
	now := p.land(&f.x)
	out := []lever.Lever{}
	for i := range g.axes {
		a := &g.axes[i]
		near := max(a.Step, 1e-9) * 0.75
		inward := 0.0
		switch {
		case f.x[i] >= a.High-near:
			inward = -a.Natural
		case f.x[i] <= a.Low+near:
			inward = a.Natural
		default:
			continue
		}
		y := f.x
		y[i] = min(max(y[i]+inward/2, a.Low), a.High)
		// Half a step past the end, as far as half a step within it tells.
		back := p.land(&y)
		past := plus(now, minus(now, back))
		if missOf(qs, &past) < missOf(qs, &now)-leastGain {
			out = append(out, a.Lever)
		}
	}
	return out
}

// conflict are the qualities that hold each other off at the nearest point.
func conflict(qs []quality, f *found) []string {
	out := []string{}
	for i := range qs {
		if math.Abs(qs[i].of(&f.land)-qs[i].want)*qs[i].points > ReachedIndex/4 {
			out = append(out, qs[i].key)
		}
	}
	if len(out) >= 2 {
		return out
	}
	out = out[:0]
	if len(qs) > 1 {
		for i := range qs {
			out = append(out, qs[i].key)
		}
	}
	return out
}

// levers are the free ones, in the order of the brew.
func (g *seeds) levers(t *Tuner) []lever.Lever {
	var out []lever.Lever
	for _, l := range lever.All() {
		is := l == lever.Moment && g.free.Set[lever.Moment] && t.lander.HasHoney()
		for i := range g.axes {
			is = is || g.axes[i].Lever == l
		}
		if is {
			out = append(out, l)
		}
	}
	return out
}

func (t *Tuner) notes(g *seeds) []message.Message {
	n := []message.Message{}
	if len(g.levers(t)) == 0 {
		n = append(n, g.free.stay())
	}
	if len(g.free.Strains) > 0 {
		is := false
		for i := range g.axes {
			is = is || g.axes[i].strains != nil
		}
		if !is {
			n = append(n, message.New("there is only one strain to choose from: all others have the same range and temperature, or none that a design can hold"))
		}
	}
	for i := range g.axes {
		if g.axes[i].over() {
			n = append(n, message.New("the design takes more honey than the {mass} at hand: each way takes less", quantity.Of(quantity.MassG, 1000*t.atHandKg)))
		}
	}
	if used := t.design.HoneyBesideKg(-1); used > t.atHandKg+1e-9 && !g.free.Set[lever.Honey] {
		n = append(n, message.New("the design takes {used} of honey, {mass} is at hand, and the honey's lever is held", quantity.Of(quantity.MassG, 1000*used), quantity.Of(quantity.MassG, 1000*t.atHandKg)))
	}
	if !t.lander.HasHoney() && t.character {
		n = append(n, message.New("the design has no honey that could be tasted: add some"))
	} else if !t.lander.HasHoney() && (g.free.Set[lever.Honey] || g.free.Set[lever.Moment]) {
		n = append(n, message.New("the design has no honey to move: add one, even of {mass}", quantity.Of(quantity.MassKg, 0)))
	}
	return n
}
