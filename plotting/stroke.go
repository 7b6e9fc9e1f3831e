package plotting

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// stroker turns lines into outlines, keeping its slices.
type stroker struct {
	piece       []point
	left, right []point
}

// pieces yields the inked pieces of a dashed line; all of it without a dash.
func (s *stroker) pieces(path []point, dash []float64, yield func([]point)) {
	total := 0.0
	for _, d := range dash {
		total += d
	}
	if len(dash) < 2 || !(total > 0.1) {
		yield(path)
		return
	}
	i, left, inked := 0, dash[0], true
	s.piece = append(s.piece[:0], path[0])
	for j := 1; j < len(path); j++ {
		a, b := path[j-1], path[j]
		long := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		done := 0.0
		for long-done > left {
			done += left
			f := vg.Length(done / long)
			p := point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
			if inked {
				s.piece = append(s.piece, p)
				yield(s.piece)
			}
			s.piece = append(s.piece[:0], p)
			i = (i + 1) % len(dash)
			left, inked = dash[i], !inked
		}
		left -= long - done
		if inked {
			s.piece = append(s.piece, b)
		}
	}
	if inked && len(s.piece) > 1 {
		yield(s.piece)
	}
}

// sides are the two edges of a stroked line, one point each for each of its
// own, joined by mitres. Sharp corners are kept from growing spikes.
func (s *stroker) sides(path []point, width float64) (left, right []point) {
	s.left, s.right = s.left[:0], s.right[:0]
	half := width / 2
	var nx, ny float64 // normal of the piece before
	for i := range path {
		mx, my := nx, ny
		if i+1 < len(path) {
			dx, dy := float64(path[i+1].X-path[i].X), float64(path[i+1].Y-path[i].Y)
			if long := math.Hypot(dx, dy); long > 0 {
				nx, ny = -dy/long, dx/long
			}
			if i == 0 {
				mx, my = nx, ny
			}
		}
		bx, by := mx+nx, my+ny
		if i == len(path)-1 {
			bx, by = 2*nx, 2*ny
		}
		// Half the sum of two unit normals has the cosine of half the turn as
		// its length; the mitre is its direction, longer by that cosine.
		if square := (bx*bx + by*by) / 4; square > 0.25 {
			bx, by = bx/2/square, by/2/square
		} else {
			bx, by = nx, ny
		}
		x, y := float64(path[i].X), float64(path[i].Y)
		s.left = append(s.left, at(x+bx*half, y+by*half))
		s.right = append(s.right, at(x-bx*half, y-by*half))
	}
	return s.left, s.right
}
