package tune

import (
	"math"
	"reflect"

	"skep/calc"
)

// group is one choice of levers that move, the others as they are, with a
// coarse grid of where they lead.
type group struct {
	moves [mostAxes]bool
	flip  bool // the honey goes to the other side
	seeds []seed
}

type seed struct {
	at   vec
	land calc.Landed
}

// seeds are the grids for one set of free levers. They know nothing of the
// pin, so they are kept while it moves.
type seeds struct {
	known  bool
	free   Levers
	grain  bool
	axes   []Axis
	groups []group // the last ones are of all levers together
	whole  int     // how many of those
}

// The grids: how many places on each axis, by how many levers move. All levers
// together get a finer look at the rest, which is the only one that does not
// act in one direction throughout.
var gridOf = [...]int{1, 9, 5, 4}

const sparseMost = 3 // levers moving at once in a way made for its simplicity

func (g *seeds) wholeGrid(l Lever) int {
	switch l {
	case Rest:
		return 7
	case Yeast:
		return 5
	case Honey:
		return 4
	}
	return 3
}

// prepare makes the grids for the free levers, unless they are known.
func (t *Tuner) prepare(free Levers, strength bool) *seeds {
	g := &t.seeds
	if g.known && g.grain == strength && reflect.DeepEqual(g.free, free) {
		return g
	}
	*g = seeds{known: true, free: free, grain: strength, axes: t.axes(free, strength)}
	k := len(g.axes)
	honeyAxis := -1
	for i := range g.axes {
		if g.axes[i].Lever == Honey {
			honeyAxis = i
		}
	}
	canFlip := func(moves *[mostAxes]bool) bool {
		return free.HoneyMoment && t.lander.HasHoney() && (t.start.HoneyKg > 0 || honeyAxis >= 0 && moves[honeyAxis])
	}
	add := func(moves [mostAxes]bool, count func(i int) int) {
		n := 0
		for i := range k {
			if moves[i] {
				n++
			}
		}
		if n > 0 {
			g.groups = append(g.groups, t.grid(g.axes, moves, false, count))
		}
		if canFlip(&moves) {
			g.groups = append(g.groups, t.grid(g.axes, moves, true, count))
		}
	}
	for mask := range 1 << k {
		var moves [mostAxes]bool
		n := 0
		for i := range k {
			if mask>>i&1 == 1 {
				moves[i] = true
				n++
			}
		}
		if n <= sparseMost && n < k {
			add(moves, func(int) int { return gridOf[n] })
		}
	}
	sparse := len(g.groups)
	if k > 0 {
		var all [mostAxes]bool
		for i := range k {
			all[i] = true
		}
		add(all, func(i int) int { return g.wholeGrid(g.axes[i].Lever) })
	}
	g.whole = len(g.groups) - sparse
	return g
}

// grid lands a coarse grid of some levers.
func (t *Tuner) grid(axes []Axis, moves [mostAxes]bool, flip bool, count func(i int) int) group {
	g := group{moves: moves, flip: flip}
	base := t.start
	if flip {
		base.Moment = other(base.Moment)
	}
	p := problem{t: t, axes: axes, base: base, bias: t.bias}
	var at vec
	for i := range axes {
		at[i] = axes[i].Now
	}
	var walk func(i int)
	walk = func(i int) {
		if i == len(axes) {
			g.seeds = append(g.seeds, seed{at, p.land(&at)})
			return
		}
		if !moves[i] {
			walk(i + 1)
			return
		}
		n := count(i)
		for j := range n {
			// Places at the middles of equal parts: the ends are for the descent.
			at[i] = axes[i].Low + (float64(j)+0.5)/float64(n)*(axes[i].High-axes[i].Low)
			walk(i + 1)
		}
		at[i] = axes[i].Now
	}
	walk(0)
	return g
}

// best are up to n seeds of a group nearest to the wishes, no two next to each
// other in the temperature of the rest.
func (g *group) best(qs []quality, axes []Axis, n int) []seed {
	rest := -1
	for i := range axes {
		if axes[i].Lever == Rest && g.moves[i] {
			rest = i
		}
	}
	var out []seed
	for range n {
		at, least := -1, math.Inf(1)
		for i := range g.seeds {
			s := &g.seeds[i]
			m := missOf(qs, &s.land)
			if m >= least {
				continue
			}
			near := false
			for j := range out {
				near = near || rest < 0 || math.Abs(out[j].at[rest]-s.at[rest]) < restApart
			}
			if !near {
				at, least = i, m
			}
		}
		if at < 0 {
			break
		}
		out = append(out, g.seeds[at])
	}
	return out
}

const restApart = 3.0 // °C
