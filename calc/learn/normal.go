package learn

import "math"

// datum is what one batch says of a lesson: y, its variance of measurement s2,
// and k, how much of the batch's own scatter acts on it (1 unless said).
type datum struct {
	group int
	y     float64
	s2    float64
	k     float64
}

func (x *datum) variance(sigma float64) float64 { return x.k*x.k*sigma*sigma + x.s2 }

// hierarchy is the model of a lesson; see the package comment.
type hierarchy struct {
	m0, tm float64
	tu     []float64 // by group; 0: the group is the kit itself
	sigma  float64
	scales scales
}

// moments are a mean and a variance.
type moments struct{ mean, variance float64 }

func (m moments) sd() float64 { return math.Sqrt(math.Max(0, m.variance)) }

// posterior is the mixture's moments.
type posterior struct {
	kit   moments   // m
	group []moments // m + u
	a2    float64   // mean of a²
	batch float64   // root of the mean of σ²
	cells []cell
}

// cell is the posterior with both scales given.
type cell struct {
	a, b, weight float64
	kit          moments
	group        []moments
}

// learn is the posterior of some data, which must be in a fixed order for the
// same last digit.
func (h *hierarchy) learn(data []datum) posterior {
	var p posterior
	logs := []float64{}
	for _, a := range h.scales.a {
		for _, b := range h.scales.b {
			c, log := h.given(data, a.times, b.times)
			p.cells = append(p.cells, c)
			logs = append(logs, log+math.Log(a.weight*b.weight))
		}
	}
	most := math.Inf(-1)
	for _, l := range logs {
		most = math.Max(most, l)
	}
	total := 0.0
	for i := range p.cells {
		p.cells[i].weight = math.Exp(logs[i] - most)
		total += p.cells[i].weight
	}
	s2 := 0.0
	for i := range p.cells {
		c := &p.cells[i]
		c.weight /= total
		s2 += c.weight * c.b * c.b
		p.a2 += c.weight * c.a * c.a
	}
	p.batch = h.sigma * math.Sqrt(s2)
	p.kit = mix(p.cells, func(c *cell) moments { return c.kit })
	for g := range h.tu {
		p.group = append(p.group, mix(p.cells, func(c *cell) moments { return c.group[g] }))
	}
	return p
}

// unseen is a group without batches: the kit's m, and a strain's spread.
func (p *posterior) unseen(tu float64) moments {
	return moments{p.kit.mean, p.kit.variance + p.a2*tu*tu}
}

// mix is the mean and variance of a mixture of normals.
func mix(cells []cell, of func(*cell) moments) (m moments) {
	for i := range cells {
		m.mean += cells[i].weight * of(&cells[i]).mean
	}
	for i := range cells {
		x := of(&cells[i])
		d := x.mean - m.mean
		m.variance += cells[i].weight * (x.variance + d*d)
	}
	return m
}

// given is the posterior with both scales given, and the logarithm of the
// marginal likelihood.
func (h *hierarchy) given(data []datum, a, b float64) (cell, float64) {
	sigma := b * h.sigma
	c := cell{a: a, b: b, group: make([]moments, len(h.tu))}
	log := 0.0
	// All batches of a group come to one normal about m + u: its mean weighted
	// by precision.
	sum, wsum := make([]float64, len(h.tu)), make([]float64, len(h.tu))
	for i := range data {
		w := 1 / data[i].variance(sigma)
		sum[data[i].group] += w * data[i].y
		wsum[data[i].group] += w
	}
	for i := range data {
		x := &data[i]
		v := x.variance(sigma)
		d := x.y - sum[x.group]/wsum[x.group]
		log -= 0.5 * (math.Log(2*math.Pi*v) + d*d/v)
	}
	prior := moments{h.m0, a * a * h.tm * h.tm}
	kit := prior
	for g, w := range wsum {
		if w <= 0 {
			continue
		}
		log += 0.5 * math.Log(2*math.Pi/w)
		tu := a * h.tu[g]
		var l float64
		kit, l = kit.see(sum[g]/w, 1/w+tu*tu)
		log += l
	}
	c.kit = kit
	for g, w := range wsum {
		tu2 := a * a * h.tu[g] * h.tu[g]
		switch {
		case w <= 0:
			c.group[g] = moments{kit.mean, kit.variance + tu2}
		case tu2 == 0:
			c.group[g] = kit
		default:
			keep := tu2 / (tu2 + 1/w) // of the group's own mean, m given
			c.group[g] = moments{keep*sum[g]/w + (1-keep)*kit.mean, tu2*(1-keep) + (1-keep)*(1-keep)*kit.variance}
		}
	}
	return c, log
}

// see is a normal after one observation y of variance v, and the logarithm of
// how likely that was.
func (m moments) see(y, v float64) (moments, float64) {
	total := m.variance + v
	d := y - m.mean
	log := -0.5 * (math.Log(2*math.Pi*total) + d*d/total)
	if m.variance == 0 {
		return m, log
	}
	gain := m.variance / total
	return moments{m.mean + gain*d, m.variance * (1 - gain)}, log
}
