package canvas

import (
	"math"

	"gonum.org/v1/plot/vg"
)

func Point(x, y float64) vg.Point { return vg.Point{X: vg.Length(x), Y: vg.Length(y)} }

// stroker turns lines into outlines, keeping its slices.
type stroker struct {
	piece       []vg.Point
	left, right []vg.Point
}

// pieces yields the inked pieces of a dashed line.
func (s *stroker) pieces(path []vg.Point, dashes []vg.Length, offset, stretch float64, yield func([]vg.Point)) {
	total := 0.0
	for _, d := range dashes {
		total += float64(d) * stretch
	}
	if len(dashes) == 0 || !(total > 0.1) {
		yield(path)
		return
	}
	i, inked := 0, true
	left := float64(dashes[0]) * stretch
	next := func() {
		i = (i + 1) % len(dashes)
		left, inked = float64(dashes[i])*stretch, !inked
	}
	for skip := math.Mod(offset*stretch, 2*total); skip > 0; {
		if skip < left {
			left -= skip
			break
		}
		skip -= left
		next()
	}
	s.piece = append(s.piece[:0], path[0])
	for j := 1; j < len(path); j++ {
		a, b := path[j-1], path[j]
		long := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		done := 0.0
		for long-done > left {
			done += left
			f := vg.Length(done / long)
			p := vg.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
			if inked {
				s.piece = append(s.piece, p)
				yield(s.piece)
			}
			s.piece = append(s.piece[:0], p)
			next()
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
// own, joined by mitres. Sharp corners are kept from growing spikes. Of a
// closed line the last point joins the first.
func (s *stroker) sides(path []vg.Point, width float64, closed bool) (left, right []vg.Point) {
	s.left, s.right = s.left[:0], s.right[:0]
	n := len(path)
	half := width / 2
	var nx, ny float64 // normal of the piece before
	turn := func(a, b vg.Point) {
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		if long := math.Hypot(dx, dy); long > 0 {
			nx, ny = -dy/long, dx/long
		}
	}
	if closed {
		turn(path[n-1], path[0])
	}
	for i := range path {
		mx, my := nx, ny
		if i+1 < n {
			turn(path[i], path[i+1])
		} else if closed {
			turn(path[i], path[0])
		}
		if i == 0 && !closed {
			mx, my = nx, ny
		}
		bx, by := mx+nx, my+ny
		// Half the sum of two unit normals has the cosine of half the turn as
		// its length; the mitre is its direction, longer by that cosine.
		if square := (bx*bx + by*by) / 4; square > 0.25 {
			bx, by = bx/2/square, by/2/square
		} else {
			bx, by = nx, ny
		}
		x, y := float64(path[i].X), float64(path[i].Y)
		s.left = append(s.left, Point(x+bx*half, y+by*half))
		s.right = append(s.right, Point(x-bx*half, y-by*half))
	}
	return s.left, s.right
}
