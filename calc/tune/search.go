package tune

import (
	"math"
	"slices"
	"strings"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
)

// found is a place that a search ended at.
type found struct {
	x        vec
	flip     bool
	estimate float64 // miss by the middle draw, index points
	moved    int     // levers
	pattern  string  // which levers, which way
	change   float64 // natural steps
	width    float64 // of the strain's range, points; 0 where strains are not free

	setting lever.Setting
	yeast   *design.Yeast // another strain, or nil

	// Checked exactly:
	land    calc.Landed
	miss    float64
	cloud   float64
	reached bool

	odd      bool // takes another strain, or a mash cut short
	needless bool // and comes no nearer by it than a brewer would laugh at
}

// estimateDoubt is what the middle draw may be off by after the bias at the
// present setting is taken out, index points.
const estimateDoubt = 1.0

// How many places are checked exactly, how many of them at the least with the strain
// as it is, how often each is mended, and with which miss (index points) it is left
// alone.
const (
	checked      = 8
	checkedPlain = 3
	mendings     = 2
	goodEnough   = 0.4
)

// search finds the places worth showing, best first.
//
// The honey's moment is tried only where nothing else lands within an index
// point: it moves a beer little on the plane and costs the honey its character.
func (t *Tuner) search(g *seeds, qs []quality) ([]found, error) {
	var begin []found
	if !over(g.axes, &[mostAxes]bool{}) {
		begin = append(begin, t.here(g))
	}
	out, err := t.among(g, g.groups, qs, begin)
	if err != nil {
		return nil, err
	}
	out = choose(out, qs)
	nearest := slices.MinFunc(out, func(a, b found) int { return cmp(a.miss, b.miss) })
	if class(nearest.miss) == 0 {
		return out, nil
	}
	flipped, err := t.among(g, t.flips(g), qs, nil)
	if err != nil {
		return nil, err
	}
	for i := range flipped {
		f := &flipped[i]
		if class(f.miss) < class(nearest.miss) || reached(qs, &f.land) && !nearest.reached {
			return choose(append(out, flipped...), qs), nil
		}
	}
	return out, nil
}

// among adds the most promising places of some groups to those known, each
// checked exactly.
func (t *Tuner) among(g *seeds, groups []group, qs []quality, out []found) ([]found, error) {
	for i := range out {
		out[i].miss = missOf(qs, &out[i].land)
	}
	var all []found
	for i := range groups {
		for _, f := range t.descend(g, &groups[i], qs) {
			if f.pattern == "" {
				continue // where it began
			}
			j := slices.IndexFunc(all, func(o found) bool { return o.pattern == f.pattern })
			if j < 0 {
				all = append(all, f)
			} else if f.likelier(&all[j]) {
				all[j] = f
			}
		}
	}
	slices.SortStableFunc(all, func(a, b found) int {
		switch {
		case a.likelier(&b):
			return -1
		case b.likelier(&a):
			return 1
		}
		return 0
	})
	nearest := 0
	for i := range all {
		if all[i].estimate < all[nearest].estimate {
			nearest = i
		}
	}
	plain := 0
	for i := range all {
		keep := i < checked || i == nearest
		if !all[i].odd && plain < checkedPlain {
			plain++
			keep = true
		}
		if !keep {
			continue
		}
		f, err := t.check(g, qs, all[i])
		if err != nil {
			return nil, err
		}
		out = append(out, f)
	}
	return out, nil
}

// likelier orders places before they are checked: the least miss as far as the
// estimate can tell, then the simplest, then the strain of less doubt, then the
// smallest change.
func (f *found) likelier(o *found) bool {
	a, b := class(max(0, f.estimate-estimateDoubt)), class(max(0, o.estimate-estimateDoubt))
	switch {
	case a != b:
		return a < b
	case f.moved != o.moved:
		return f.moved < o.moved
	case f.width != o.width:
		return f.width < o.width
	case f.change != o.change:
		return f.change < o.change
	}
	return f.estimate < o.estimate
}

// descend follows the best seeds of a group to where they end, and rounds.
func (t *Tuner) descend(g *seeds, gr *group, qs []quality) []found {
	p := t.problem(g, qs, gr.flip)
	fixed := fixedAxes(&gr.moves)
	var x vec
	cost := math.Inf(1)
	for _, s := range gr.best(qs, g.axes, 2) {
		if y, c := p.fit(s.at, &fixed, 6); c < cost {
			x, cost = y, c
		}
	}
	x, _ = p.round(x, &fixed)
	out := []found{t.describe(g, &p, x, gr.flip)}
	// A strain beside it whose range is narrower lands with less doubt.
	for i := range g.axes {
		a := &g.axes[i]
		if fixed[i] || a.strains == nil {
			continue
		}
		if mid, ok := a.surer(x[i]); ok {
			y := x
			y[i] = mid
			fixed[i] = true
			y, _ = p.fit(y, &fixed, 3)
			y, _ = p.round(y, &fixed)
			out = append(out, t.describe(g, &p, y, gr.flip))
		}
	}
	return out
}

func fixedAxes(moves *[mostAxes]bool) (fixed [mostAxes]bool) {
	for i := range fixed {
		fixed[i] = !moves[i]
	}
	return fixed
}

func (t *Tuner) problem(g *seeds, qs []quality, flip bool) problem {
	p := problem{t: t, qs: qs, axes: g.axes, base: t.start, bias: t.bias}
	if flip {
		p.base.Moment = lever.OtherSide(p.base.Moment)
	}
	return p
}

// here is the present place: no lever moved. It is known exactly.
func (t *Tuner) here(g *seeds) found {
	f := found{setting: t.start, land: t.atNow, cloud: t.width}
	for i := range g.axes {
		f.x[i] = g.axes[i].Now
	}
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
		if j := a.strainAt(x[i]); j >= 0 {
			f.width = a.strains[j].width
		}
		if math.Abs(d) < 1e-9 {
			continue
		}
		f.moved++
		f.change += math.Abs(d) / a.Natural
		if a.strains != nil {
			f.change += strainSteps
		}
		pattern.WriteString(a.Lever.String())
		if d > 0 {
			pattern.WriteString("+ ")
		} else {
			pattern.WriteString("- ")
		}
	}
	if flip {
		f.moved++
		f.change += momentSteps
		pattern.WriteString(lever.Moment.String())
	}
	f.pattern = pattern.String()
	f.setting, f.yeast = t.place(g, p, &x)
	f.odd = f.yeast != nil || t.cutShort(&f.setting)
	return f
}

// place is the setting of a place, with the strain that stands there.
func (t *Tuner) place(g *seeds, p *problem, x *vec) (lever.Setting, *design.Yeast) {
	s := p.setting(x)
	for i := range g.axes {
		a := &g.axes[i]
		if a.strains == nil {
			continue
		}
		j := a.strainAt(x[i])
		if j < 0 || a.strains[j].own {
			s.AttenuationLowPct, s.AttenuationHighPct = t.start.AttenuationLowPct, t.start.AttenuationHighPct
			return s, nil
		}
		y := a.strains[j].yeast
		s.AttenuationLowPct, s.AttenuationHighPct = y.AttenuationLowPct, y.AttenuationHighPct
		if !g.free.Set[lever.YeastC] {
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
	var moves [mostAxes]bool
	for i := range g.axes {
		moves[i] = math.Abs(f.x[i]-g.axes[i].Now) > 1e-9
	}
	fixed := fixedAxes(&moves)
	best := found{miss: math.Inf(1)}
	x := f.x
	for range mendings + 1 {
		at := t.describe(g, &p, x, f.flip)
		land, cloud, err := t.exact(at.setting)
		if err != nil {
			return f, err
		}
		if miss := missOf(qs, &land); miss < best.miss {
			best = at
			best.land, best.miss, best.cloud = land, miss, cloud
		}
		if best.miss < goodEnough {
			break
		}
		p.bias = minus(land, t.quick(at.setting))
		next, _ := p.fit(x, &fixed, 3)
		next, _ = p.round(next, &fixed)
		if next == x {
			break
		}
		x = next
	}
	return best, nil
}
