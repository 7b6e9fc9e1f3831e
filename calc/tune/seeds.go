package tune

import (
	"math"
	"math/bits"
	"reflect"

	"skep/calc"
	"skep/calc/lever"
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
	known   bool
	free    Levers
	grain   bool
	axes    []Axis
	groups  []group // the honey's moment as it is; the last is of all levers together
	flipped []group // the honey on the other side; made when they are needed
}

// The grids: how many places on each axis, by how many levers move. All levers
// together get a finer look at the rest, which is the only one that does not
// act in one direction throughout.
var gridOf = [...]int{1, 9, 5, 4} // by how many move

const sparseMost = 3 // levers moving at once in a way made for its simplicity

var wholeGrid = [lever.Count]int{lever.Grain: 3, lever.Rest: 7, lever.Minutes: 3, lever.Yeast: 5, lever.Honey: 4}

// prepare makes the grids for the free levers, unless they are known.
func (t *Tuner) prepare(free Levers, strength bool) *seeds {
	g := &t.seeds
	if g.known && g.grain == strength && reflect.DeepEqual(g.free, free) {
		return g
	}
	*g = seeds{known: true, free: free, grain: strength, axes: t.axes(free, strength)}
	g.groups = t.grids(g, false)
	return g
}

// flips makes the grids with the honey on the other side of the pitching, if
// it may go there.
func (t *Tuner) flips(g *seeds) []group {
	if g.flipped == nil && g.free.Set[lever.Moment] && t.lander.HasHoney() {
		g.flipped = t.grids(g, true)
	}
	return g.flipped
}

// grids are those of few levers at once, then that of all.
func (t *Tuner) grids(g *seeds, flip bool) []group {
	k := len(g.axes)
	var out []group
	for n := range min(sparseMost, k-1) + 1 {
		for mask := range 1 << k {
			if bits.OnesCount(uint(mask)) != n || n == 0 && !flip {
				continue
			}
			var moves [mostAxes]bool
			honey := t.start.HoneyKg > 0
			for i := range k {
				moves[i] = mask>>i&1 == 1
				honey = honey || moves[i] && g.axes[i].Lever == lever.Honey
			}
			if flip && !honey || over(g.axes, &moves) {
				continue
			}
			out = append(out, t.grid(g.axes, moves, flip, func(int) int { return gridOf[n] }))
		}
	}
	if k > 0 || flip && t.start.HoneyKg > 0 {
		var all [mostAxes]bool
		for i := range k {
			all[i] = true
		}
		out = append(out, t.grid(g.axes, all, flip, func(i int) int { return wholeGrid[g.axes[i].Lever] }))
	}
	return out
}

// over tells whether a lever that stands beyond its end is among those that stay.
func over(axes []Axis, moves *[mostAxes]bool) bool {
	for i := range axes {
		if axes[i].over() && !moves[i] {
			return true
		}
	}
	return false
}

// grid lands a coarse grid of some levers.
func (t *Tuner) grid(axes []Axis, moves [mostAxes]bool, flip bool, count func(i int) int) group {
	g := group{moves: moves, flip: flip}
	base := t.start
	if flip {
		base.Moment = lever.OtherSide(base.Moment)
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
		if axes[i].Lever == lever.Rest && g.moves[i] {
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
