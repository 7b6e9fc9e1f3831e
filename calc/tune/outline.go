package tune

import (
	"math"
	"reflect"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
)

// outlineCache keeps the last outline: it does not change while free levers
// move, only when something else does.
type outlineCache struct {
	free   Levers
	axes   []Axis
	design design.Design
	points []Point
}

// How finely the levers' range is looked through, places on each axis.
var outlineGrid = [lever.Count]int{lever.Grain: 7, lever.Rest: 15, lever.Minutes: 4, lever.Yeast: 7, lever.Honey: 5}

const (
	columns = 96 // of the outline, along its longer side
	// probes are the places along each side where it is landed exactly.
	probes = 8
	// marginPoints is laid around the outline: the mid value of a few hundred
	// draws moves by that much from setting to setting where the middle draw,
	// which the outline is made from, is smooth.
	marginPoints = 0.8
	marginPalate = 0.06 // more of it, of a palate's sd, which is in the draws
)

// margin is what is laid around the outline.
func (t *Tuner) margin() float64 {
	x := t.engine.Doubts()
	return marginPoints + marginPalate*max(x.Dryness.SD, x.Body.SD)
}

// Outline is the closed outline of all landing points that the free levers can
// reach: every setting's mid point lies within. Leave the yeast out of it
// ([Levers.ThisStrain]) for what can be reached with this strain. The grist is
// never moved.
//
// It is kept while free levers move. Nil when no lever is free.
func (t *Tuner) Outline(free Levers) ([]Point, error) {
	axes := t.axes(free, false)
	moment := free.Set[lever.Moment] && t.lander.HasHoney()
	if len(axes) == 0 && !moment {
		return nil, nil
	}
	d := t.neutral(axes, moment)
	for i := range axes {
		axes[i].Now = 0
	}
	c := &t.outline
	if c.points != nil && c.free.Equal(free) && reflect.DeepEqual(c.axes, axes) && c.design.Like(&d) {
		return c.points, nil
	}
	points, err := t.trace(axes, moment)
	if err != nil {
		return nil, err
	}
	*c = outlineCache{free, axes, d, points}
	return points, nil
}

// neutral is the design without what the outline does not depend on.
func (t *Tuner) neutral(axes []Axis, moment bool) design.Design {
	d := t.design
	d.Title, d.Notes, d.Taste, d.Ghost, d.Reading, d.Package = "", "", design.Taste{}, nil, nil, design.Package{}
	d.Yeast = d.Yeast[:1]
	d = d.Clone()
	d.Yeast[0].Name = ""
	// Every lever that moves goes to the same place: of the yeast the width is
	// left, of the grist what it is made of.
	s := t.at().Setting(&d)
	for i := range axes {
		axes[i].Lever.Put(&s, 0)
	}
	s.HoursAfterHeight = 0
	if moment {
		s.Moment = ""
	}
	rest, honey := t.lander.Chosen()
	s.Into(&d, rest, honey)
	return d
}

// node is a landing point on the grid, with its place.
type node struct {
	at   vec
	flip bool
	p    Point
}

// memory is what a trace is made in, used again: while a strain is dragged there
// is one every frame.
type memory struct {
	nodes             []node
	edges             [][2]int
	around            []node
	joins             [][2]int
	u, v, high, low   []float64
	from, to          []int32 // by node: the columns that begin at it, and end
	highNode, lowNode []int
	upper, lower      []Point
	exact             map[int]calc.Landed // by node of the net
	setting           lever.Setting
}

// sized is a slice of n, of the same memory where that is enough.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// trace lands the grid and draws the outline around it.
//
// Seen along the direction in which its area is least, what can be reached is a
// band with an upper and a lower side: each is the envelope of the grid's
// edges, laid straight between neighbours. Both sides are then moved by what
// the middle draw is off by, and out by a margin.
func (t *Tuner) trace(axes []Axis, moment bool) ([]Point, error) {
	m := &t.memory
	t.net(axes, moment)
	nodes, edges := m.nodes, m.edges
	best := band{area: math.Inf(1)}
	for k := range 12 {
		b := m.bandOf(nodes, edges, math.Pi*float64(k)/12, columns/4)
		if b.area < best.area {
			best = b
		}
	}
	b := m.bandOf(nodes, edges, best.angle, columns)
	if m.exact == nil {
		m.exact = map[int]calc.Landed{}
	}
	clear(m.exact)
	var err error
	if m.upper, err = t.side(m.upper, &b, nodes, axes, b.high, b.highNode); err != nil {
		return nil, err
	}
	if m.lower, err = t.side(m.lower, &b, nodes, axes, b.low, b.lowNode); err != nil {
		return nil, err
	}
	// The moved sides, seen along the same direction again.
	around, joins := m.around[:0], m.joins[:0]
	for _, side := range [...][]Point{m.upper, m.lower} {
		for i, p := range side {
			if i > 0 {
				joins = append(joins, [2]int{len(around) - 1, len(around)})
			}
			around = append(around, node{p: p})
		}
	}
	joins = append(joins, [2]int{0, len(m.upper)}, [2]int{len(m.upper) - 1, len(around) - 1})
	m.around, m.joins = around, joins
	moved := m.bandOf(around, joins, b.angle, columns)
	return moved.widened(t.margin()), nil
}

// net lands the grid; edges join neighbours along each axis.
func (t *Tuner) net(axes []Axis, moment bool) {
	nodes, edges := t.memory.nodes[:0], t.memory.edges[:0]
	sides := []string{t.start.Moment}
	if moment {
		sides = []string{design.MomentFermenting, design.MomentWhirlpool}
	}
	for s, side := range sides {
		p := problem{t: t, axes: axes, base: t.start}
		p.base.Moment = side
		first := len(nodes)
		var at vec
		var walk func(i int)
		walk = func(i int) {
			if i == len(axes) {
				l := p.land(&at)
				nodes = append(nodes, node{at, s > 0, Point{l.Dryness, l.Body}})
				return
			}
			n := outlineGrid[axes[i].Lever]
			for j := range n {
				at[i] = axes[i].Low + float64(j)/float64(n-1)*(axes[i].High-axes[i].Low)
				walk(i + 1)
			}
		}
		walk(0)
		stride := 1
		for i := len(axes) - 1; i >= 0; i-- {
			n := outlineGrid[axes[i].Lever]
			for k := first; k < len(nodes); k++ {
				if (k-first)/stride%n < n-1 {
					edges = append(edges, [2]int{k, k + stride})
				}
			}
			stride *= n
		}
	}
	t.memory.nodes, t.memory.edges = nodes, edges
}

// side is one side of the band back on the plane, in memory that is used again, moved
// by the bias of the middle draw, which is measured at a few nodes that make it.
func (t *Tuner) side(points []Point, b *band, nodes []node, axes []Axis, v []float64, node []int) ([]Point, error) {
	n := len(v) - 1
	var bias [probes + 1]Point
	for i := range bias {
		k := node[i*n/probes]
		p := problem{t: t, axes: axes, base: t.start}
		if nodes[k].flip {
			p.base.Moment = design.MomentWhirlpool
		} else if lever.Hot(p.base.Moment) && len(nodes) > 0 && nodes[0].flip != nodes[len(nodes)-1].flip {
			p.base.Moment = design.MomentFermenting
		}
		land, known := t.memory.exact[k]
		if !known { // the two sides meet
			var err error
			if land, _, err = t.exact(p.setting(&nodes[k].at)); err != nil {
				return nil, err
			}
			t.memory.exact[k] = land
		}
		bias[i] = Point{land.Dryness - nodes[k].p.Dryness, land.Body - nodes[k].p.Body}
	}
	cos, sin := math.Cos(b.angle), math.Sin(b.angle)
	points = sized(points, n+1)
	for k := range points {
		q := float64(k*probes) / float64(n)
		i := min(int(q), probes-1)
		x := q - float64(i)
		u := b.first + float64(k)*b.step
		points[k] = Point{
			Dryness: cos*u - sin*v[k] + bias[i].Dryness + x*(bias[i+1].Dryness-bias[i].Dryness),
			Body:    sin*u + cos*v[k] + bias[i].Body + x*(bias[i+1].Body-bias[i].Body),
		}
	}
	return points, nil
}
