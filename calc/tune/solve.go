package tune

import (
	"math"

	"skep/calc"
	"skep/calc/lever"
)

// mostAxes is how many levers move at once at most.
const mostAxes = 5

// vec is a place on the axes of a problem, each in its own unit.
type vec [mostAxes]float64

// problem is a search over some of the axes, the other levers as in base.
type problem struct {
	t    *Tuner
	qs   []quality
	axes []Axis
	base lever.Setting
	bias calc.Landed // the mid values less the middle draw, taken as constant
}

// pull weighs the change against the miss: index points for one natural step,
// in squares, so little that it only chooses among settings that land alike.
const pull = 0.05

func (p *problem) setting(x *vec) lever.Setting {
	s := &p.t.memory.setting // a lever's row is a function: one of its own would go on the heap
	*s = p.base
	for i := range p.axes {
		p.axes[i].Lever.Put(s, x[i])
	}
	return *s
}

// land is the estimate of the mid values.
func (p *problem) land(x *vec) calc.Landed {
	l := p.t.quick(p.setting(x))
	return plus(l, p.bias)
}

func plus(a, b calc.Landed) calc.Landed {
	return calc.Landed{
		Dryness: a.Dryness + b.Dryness, Body: a.Body + b.Body,
		StrengthPct: a.StrengthPct + b.StrengthPct, FinalGravitySG: a.FinalGravitySG + b.FinalGravitySG,
		HoneyCharacter: a.HoneyCharacter + b.HoneyCharacter,
	}
}

func minus(a, b calc.Landed) calc.Landed {
	return calc.Landed{
		Dryness: a.Dryness - b.Dryness, Body: a.Body - b.Body,
		StrengthPct: a.StrengthPct - b.StrengthPct, FinalGravitySG: a.FinalGravitySG - b.FinalGravitySG,
		HoneyCharacter: a.HoneyCharacter - b.HoneyCharacter,
	}
}

// residuals are the misses with their signs, index points.
func (p *problem) residuals(x *vec) (r [mostWishes]float64) {
	l := p.land(x)
	for i := range p.qs {
		r[i] = (p.qs[i].of(&l) - p.qs[i].want) * p.qs[i].points
	}
	return r
}

// cost is the squared miss and the pull towards the present.
func (p *problem) cost(r *[mostWishes]float64, x *vec) float64 {
	c := 0.0
	for i := range p.qs {
		c += r[i] * r[i]
	}
	for i := range p.axes {
		d := pull * (x[i] - p.axes[i].Now) / p.axes[i].Natural
		c += d * d
	}
	return c
}

// fit descends from x by damped Gauss-Newton steps within the box (Levenberg
// and Marquardt; levers at an end that want to go on are left out of the
// step). Levers of fixed stay.
func (p *problem) fit(x vec, fixed *[mostAxes]bool, rounds int) (vec, float64) {
	k := len(p.axes)
	r := p.residuals(&x)
	cost := p.cost(&r, &x)
	damp := 1e-3
	for range rounds {
		// Slopes for one natural step.
		var slope [mostAxes][mostWishes]float64
		var grad vec
		for i := range k {
			if fixed[i] {
				continue
			}
			a := &p.axes[i]
			h := 0.2 * a.Natural
			if x[i]+h > a.High {
				h = -h
			}
			y := x
			y[i] += h
			s := p.residuals(&y)
			for q := range p.qs {
				slope[i][q] = (s[q] - r[q]) / h * a.Natural
				grad[i] += slope[i][q] * r[q]
			}
			grad[i] += pull * pull * (x[i] - a.Now) / a.Natural
		}
		moved := false
		for range 4 {
			y := p.step(&x, &grad, &slope, fixed, damp)
			s := p.residuals(&y)
			if c := p.cost(&s, &y); c < cost {
				far := 0.0
				for i := range k {
					far = max(far, math.Abs(y[i]-x[i])/p.axes[i].Natural)
				}
				x, r, cost = y, s, c
				damp = max(damp/10, 1e-6)
				moved = far > 0.01
				break
			}
			damp *= 10
		}
		if !moved {
			break
		}
	}
	return x, cost
}

// step solves the damped normal equations for the levers that can move, and
// stops each at its end.
func (p *problem) step(x, grad *vec, slope *[mostAxes][mostWishes]float64, fixed *[mostAxes]bool, damp float64) vec {
	k := len(p.axes)
	var out [mostAxes]bool
	y := *x
	for i := range k {
		a := &p.axes[i]
		out[i] = fixed[i] || x[i] >= a.High-1e-9 && grad[i] < 0 || x[i] <= a.Low+1e-9 && grad[i] > 0
	}
	for range k {
		var m [mostAxes][mostAxes + 1]float64
		var at [mostAxes]int
		n := 0
		for i := range k {
			if !out[i] {
				at[n] = i
				n++
			}
		}
		for a := range n {
			for b := range n {
				for q := range p.qs {
					m[a][b] += slope[at[a]][q] * slope[at[b]][q]
				}
			}
			m[a][a] += pull*pull + damp*(1+m[a][a])
			m[a][n] = -grad[at[a]]
			// Levers already stopped at an end have moved: count what they did.
			for j := range k {
				if out[j] && y[j] != x[j] {
					d := (y[j] - x[j]) / p.axes[j].Natural
					for q := range p.qs {
						m[a][n] -= slope[at[a]][q] * slope[j][q] * d
					}
				}
			}
		}
		d := eliminate(&m, n)
		hit := false
		for a := range n {
			i := at[a]
			ax := &p.axes[i]
			v := x[i] + d[a]*ax.Natural
			switch {
			case v > ax.High:
				y[i], out[i], hit = ax.High, true, true
			case v < ax.Low:
				y[i], out[i], hit = ax.Low, true, true
			default:
				y[i] = v
			}
		}
		if !hit {
			break
		}
	}
	return y
}

// eliminate solves n equations with a positive definite matrix; the right side
// is the column after it.
func eliminate(m *[mostAxes][mostAxes + 1]float64, n int) (d [mostAxes]float64) {
	for i := range n {
		for j := i + 1; j < n; j++ {
			f := m[j][i] / m[i][i]
			for c := i; c <= n; c++ {
				m[j][c] -= f * m[i][c]
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		v := m[i][n]
		for j := i + 1; j < n; j++ {
			v -= m[i][j] * d[j]
		}
		d[i] = v / m[i][i]
	}
	return d
}

// round brings a fitted place to what can be set: lever by lever, each to the
// better of its two neighbours with the levers after it free to make up.
func (p *problem) round(x vec, fixed *[mostAxes]bool) (vec, float64) {
	done := *fixed
	for i := range p.axes {
		if fixed[i] {
			continue
		}
		below, above := p.axes[i].settable(x[i])
		done[i] = true
		a := x
		a[i] = below
		a, costA := p.fit(a, &done, 2)
		if above != below {
			b := x
			b[i] = above
			b, costB := p.fit(b, &done, 2)
			if costB < costA {
				a = b
			}
		}
		x = a
	}
	r := p.residuals(&x)
	return x, p.cost(&r, &x)
}
