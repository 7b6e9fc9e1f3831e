package tune

import (
	"math"
	"slices"
	"strings"

	"skep/calc"
	"skep/calc/design"
)

// found is a place that a search ended at.
type found struct {
	x        vec
	flip     bool
	estimate float64 // miss by the middle draw, index points
	moved    int     // levers
	pattern  string  // which levers, which way
	change   float64 // natural steps

	// Checked exactly:
	setting calc.Setting
	yeast   *design.Yeast // another strain, or nil
	land    calc.Landed
	miss    float64
	cloud   float64
}

// Misses and clouds are compared in classes of half an index point, which is
// less than a screen shows: a difference nobody sees must not decide before
// the next rule has its say.
const classPoints = 0.5

func class(points float64) float64 { return math.Floor(points / classPoints) }

// estimateDoubt is what the middle draw may be off by after the bias at the
// present setting is taken out, index points.
const estimateDoubt = 1.0

// How many places are checked exactly, and how often each is mended.
const (
	checked     = 8
	mendings    = 2
	wholeStarts = 3
)

// search finds the places worth showing, best first.
func (t *Tuner) search(g *seeds, qs []quality) ([]found, error) {
	byPattern := map[string]int{}
	var all []found
	keep := func(f found) {
		if i, ok := byPattern[f.pattern]; !ok {
			byPattern[f.pattern] = len(all)
			all = append(all, f)
		} else if f.estimate < all[i].estimate {
			all[i] = f
		}
	}
	keep(t.here(g))
	for i := range g.groups {
		gr := &g.groups[i]
		starts := 2
		if i >= len(g.groups)-g.whole {
			starts = wholeStarts
		}
		p := t.problem(g, qs, gr.flip)
		fixed := still(&gr.moves)
		var x vec
		cost := math.Inf(1)
		for _, s := range gr.best(qs, g.axes, starts) {
			if y, c := p.fit(s.at, &fixed, 6); c < cost {
				x, cost = y, c
			}
		}
		x, _ = p.round(x, &fixed)
		keep(t.describe(g, &p, x, gr.flip))
	}
	// Check exactly the most promising: the least miss as far as the estimate
	// can tell, then the simplest, then the smallest change.
	slices.SortStableFunc(all, func(a, b found) int {
		ma, mb := class(max(0, a.estimate-estimateDoubt)), class(max(0, b.estimate-estimateDoubt))
		switch {
		case ma != mb:
			return cmp(ma, mb)
		case a.moved != b.moved:
			return a.moved - b.moved
		}
		return cmp(a.change, b.change)
	})
	nearest := 0
	for i := range all {
		if all[i].estimate < all[nearest].estimate {
			nearest = i
		}
	}
	var out []found
	for i := range all {
		if i >= checked && i != nearest {
			continue
		}
		f, err := t.check(g, qs, all[i])
		if err != nil {
			return nil, err
		}
		out = append(out, f)
	}
	return choose(out), nil
}

func still(moves *[mostAxes]bool) (fixed [mostAxes]bool) {
	for i := range fixed {
		fixed[i] = !moves[i]
	}
	return fixed
}

func (t *Tuner) problem(g *seeds, qs []quality, flip bool) problem {
	p := problem{t: t, qs: qs, axes: g.axes, base: t.start, bias: t.bias}
	if flip {
		p.base.Moment = other(p.base.Moment)
	}
	return p
}

// here is the present place: no lever moved.
func (t *Tuner) here(g *seeds) found {
	var f found
	for i := range g.axes {
		f.x[i] = g.axes[i].Now
	}
	f.estimate = math.Inf(1) // always checked at no cost, see check
	return f
}

// describe says which levers a place moves.
func (t *Tuner) describe(g *seeds, p *problem, x vec, flip bool) found {
	f := found{x: x, flip: flip}
	l := p.land(&x)
	f.estimate = missOf(p.qs, &l)
	var pattern strings.Builder
	for i := range g.axes {
		a := &g.axes[i]
		d := x[i] - a.Now
		if math.Abs(d) < 1e-9 {
			continue
		}
		f.moved++
		f.change += math.Abs(d) / a.Natural
		if a.strains != nil {
			f.change += strainSteps
		}
		pattern.WriteString(string(a.Lever))
		if d > 0 {
			pattern.WriteString("+ ")
		} else {
			pattern.WriteString("- ")
		}
	}
	if flip {
		f.moved++
		f.change += momentSteps
		pattern.WriteString(string(Moment))
	}
	f.pattern = pattern.String()
	return f
}

// place is the setting of a place, with the strain that stands there.
func (t *Tuner) place(g *seeds, p *problem, x *vec) (calc.Setting, *design.Yeast) {
	s := p.setting(x)
	for i := range g.axes {
		a := &g.axes[i]
		if a.strains == nil {
			continue
		}
		j := slices.IndexFunc(a.strains, func(s strain) bool { return s.mid == x[i] })
		if j < 0 || a.strains[j].own {
			s.AttenuationLowPct, s.AttenuationHighPct = t.start.AttenuationLowPct, t.start.AttenuationHighPct
			return s, nil
		}
		y := a.strains[j].yeast
		s.AttenuationLowPct, s.AttenuationHighPct = y.AttenuationLowPct, y.AttenuationHighPct
		if g.free.HoldYeastC {
			y.TemperatureC = s.YeastC
		}
		s.YeastC = y.TemperatureC
		return s, &y
	}
	return s, nil
}

// check lands a place exactly, and mends it: where the middle draw was off,
// the search goes on from there with what it was off by taken out.
func (t *Tuner) check(g *seeds, qs []quality, f found) (found, error) {
	p := t.problem(g, qs, f.flip)
	if f.pattern == "" {
		f.setting, f.land, f.cloud = t.start, t.atNow, t.width
		f.miss = missOf(qs, &f.land)
		return f, nil
	}
	var moves [mostAxes]bool
	for i := range g.axes {
		moves[i] = math.Abs(f.x[i]-g.axes[i].Now) > 1e-9
	}
	fixed := still(&moves)
	best := found{miss: math.Inf(1)}
	x := f.x
	for range mendings + 1 {
		s, y := t.place(g, &p, &x)
		land, cloud, err := t.exact(s)
		if err != nil {
			return f, err
		}
		if miss := missOf(qs, &land); miss < best.miss {
			best = t.describe(g, &p, x, f.flip)
			best.setting, best.yeast, best.land, best.miss, best.cloud = s, y, land, miss, cloud
		}
		if best.miss < classPoints {
			break
		}
		p.bias = minus(land, t.quick(s))
		next, _ := p.fit(x, &fixed, 3)
		next, _ = p.round(next, &fixed)
		if next == x {
			break
		}
		x = next
	}
	return best, nil
}

// before orders by miss, then cloud, then change.
func (f *found) before(o *found) bool {
	switch a, b := class(f.miss), class(o.miss); {
	case a != b:
		return a < b
	case class(f.cloud) != class(o.cloud):
		return f.cloud < o.cloud
	case f.change != o.change:
		return f.change < o.change
	}
	return f.pattern < o.pattern
}

// choose keeps the places that are worth showing beside each other: one of a
// pattern, none that moves more levers than another and gains nothing by it.
func choose(all []found) []found {
	slices.SortStableFunc(all, func(a, b found) int {
		switch {
		case a.before(&b):
			return -1
		case b.before(&a):
			return 1
		}
		return 0
	})
	var out []found
	for i := range all {
		f := &all[i]
		idle := false
		for j := range all {
			o := &all[j]
			if i == j {
				continue
			}
			if o.pattern == f.pattern && j < i {
				idle = true
			}
			if o.pattern != f.pattern && within(o.pattern, f.pattern) &&
				class(o.miss) <= class(f.miss) && o.cloud < f.cloud+classPoints {
				idle = true
			}
		}
		if !idle {
			out = append(out, *f)
		}
	}
	return out
}

// within tells whether every lever of a pattern moves in another one too.
func within(a, b string) bool {
	in := strings.Fields(b)
	for _, w := range strings.Fields(a) {
		if !slices.Contains(in, w) {
			return false
		}
	}
	return true
}
