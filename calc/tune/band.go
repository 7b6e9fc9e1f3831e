package tune

import "math"

// band is the reach seen along one direction: u along it, v across, by columns.
type band struct {
	angle, area       float64
	first, step       float64   // u of the first column, and from one to the next
	high, low         []float64 // v
	highNode, lowNode []int     // the nodes nearest to what made it
}

// bandOf sees the reach along a direction. The band stands in memory that the next
// one takes.
func (m *memory) bandOf(nodes []node, edges [][2]int, angle float64, n int) band {
	cos, sin := math.Cos(angle), math.Sin(angle)
	m.high, m.low = sized(m.high, n+1), sized(m.low, n+1)
	m.highNode, m.lowNode = sized(m.highNode, n+1), sized(m.lowNode, n+1)
	b := band{angle: angle, high: m.high, low: m.low, highNode: m.highNode, lowNode: m.lowNode}
	m.u, m.v = sized(m.u, len(nodes)), sized(m.v, len(nodes))
	m.from, m.to = sized(m.from, len(nodes)), sized(m.to, len(nodes))
	u, v := m.u, m.v
	first, last := math.Inf(1), math.Inf(-1)
	for i := range nodes {
		u[i] = cos*nodes[i].p.Dryness + sin*nodes[i].p.Body
		v[i] = cos*nodes[i].p.Body - sin*nodes[i].p.Dryness
		first, last = min(first, u[i]), max(last, u[i])
	}
	b.first, b.step = first, max(last-first, leastLength)/float64(n)
	for k := range b.high {
		b.high[k], b.low[k], b.highNode[k], b.lowNode[k] = math.Inf(-1), math.Inf(1), 0, 0
	}
	see := func(k int, v float64, node int) {
		if v > b.high[k] {
			b.high[k], b.highNode[k] = v, node
		}
		if v < b.low[k] {
			b.low[k], b.lowNode[k] = v, node
		}
	}
	// A hair on: the last node makes the last column, whatever its last bit.
	per, most := 1/b.step, float64(n)+1e-9
	for i := range u {
		q := (u[i] - first) * per
		m.to[i], m.from[i] = int32(min(q+1e-9, most)), int32(math.Ceil(q))
	}
	for _, e := range edges {
		i, j := e[0], e[1]
		if u[i] > u[j] {
			i, j = j, i
		}
		for k := int(m.from[i]); k <= int(m.to[j]); k++ {
			x := 0.0
			if u[j] > u[i] {
				x = (first + float64(k)*b.step - u[i]) / (u[j] - u[i])
			}
			near := i
			if x > 0.5 {
				near = j
			}
			see(k, v[i]+x*(v[j]-v[i]), near)
		}
	}
	// No node may stick out between two columns.
	for i := range nodes {
		q := (u[i] - first) / b.step
		k := min(int(q), n-1)
		x := q - float64(k)
		for _, c := range [2]int{k, k + 1} {
			if math.IsInf(b.high[c], 0) {
				see(c, v[i], i)
			}
		}
		if over := v[i] - (b.high[k] + x*(b.high[k+1]-b.high[k])); over > 0 {
			b.high[k] += over
			b.high[k+1] += over
		}
		if under := (b.low[k] + x*(b.low[k+1]-b.low[k])) - v[i]; under > 0 {
			b.low[k] -= under
			b.low[k+1] -= under
		}
	}
	fill(b.high, b.highNode)
	fill(b.low, b.lowNode)
	for k := range n {
		b.area += (b.high[k] - b.low[k] + b.high[k+1] - b.low[k+1]) / 2 * b.step
	}
	return b
}

// fill bridges columns that nothing was seen in: between two pieces that no
// lever joins, and past the last where the band is shorter than it is drawn.
func fill(v []float64, node []int) {
	last := -1
	for k := range v {
		if math.IsInf(v[k], 0) {
			continue
		}
		for j := last + 1; j < k && last >= 0; j++ {
			x := float64(j-last) / float64(k-last)
			v[j], node[j] = v[last]+x*(v[k]-v[last]), node[k]
		}
		last = k
	}
	for j := last + 1; j < len(v) && last >= 0; j++ {
		v[j], node[j] = v[last], node[last]
	}
}

// leastLength of a band, index points: where no lever moves the beer at all.
const leastLength = 0.1

// widened is the band with every point of it grown to a disc, back on the plane
// as a closed outline.
func (b *band) widened(by float64) []Point {
	n := len(b.high) - 1
	reach := int(by/b.step) + 1
	beyond := max(1, min(reach, 8)) // new columns past each end
	at := func(k int) float64 {
		switch {
		case k < 0:
			return b.first + float64(k)*by/float64(beyond)
		case k > n:
			return b.first + float64(n)*b.step + float64(k-n)*by/float64(beyond)
		}
		return b.first + float64(k)*b.step
	}
	cos, sin := math.Cos(b.angle), math.Sin(b.angle)
	place := func(u, v float64) Point { return Point{index(cos*u - sin*v), index(sin*u + cos*v)} }
	columns := n + 2*beyond + 1
	around := make([]Point, 2*columns) // the upper side, and the lower one back
	for k := -beyond; k <= n+beyond; k++ {
		u := at(k)
		high, low := math.Inf(-1), math.Inf(1)
		for j := max(0, min(k, n)-reach); j <= min(n, max(k, 0)+reach); j++ {
			d := u - b.first - float64(j)*b.step
			if math.Abs(d) > by*(1+1e-9) {
				continue
			}
			h := math.Sqrt(math.Max(0, by*by-d*d))
			high, low = max(high, b.high[j]+h), min(low, b.low[j]-h)
		}
		i := k + beyond
		around[i], around[2*columns-1-i] = place(u, high), place(u, low)
	}
	return around
}
