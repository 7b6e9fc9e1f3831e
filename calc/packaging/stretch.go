package packaging

import "math"

// stretch is the warm readings in order.
type stretch struct {
	readings []Reading
	warm     []int
}

func (s stretch) at(k int) *Reading { return &s.readings[s.warm[k]] }

func (s stretch) end() float64 { return s.at(len(s.warm) - 1).Days }

// since is the latest reading at least a gap before the last; -1 if there is
// none.
func (s stretch) since(gapDays float64) int {
	for k := len(s.warm) - 1; k >= 0; k-- {
		if s.end()-s.at(k).Days >= gapDays-1e-9 {
			return k
		}
	}
	return -1
}

// mean is the mean of the readings from first on, SG, each by its own error.
func (s stretch) mean(first int) float64 {
	var w, wy float64
	for k := first; k < len(s.warm); k++ {
		r := s.at(k)
		weight := 1 / (r.sdPoints() * r.sdPoints())
		w, wy = w+weight, wy+weight*r.SG
	}
	return wy / w
}

// line fits points = c + b x to the readings from first on, each by its own
// error, and gives the slope and its sd; x is a reading's abscissa.
func (s stretch) line(first int, x func(days float64) float64) (slope, sd float64) {
	var w, wx, wy float64
	for k := first; k < len(s.warm); k++ {
		r := s.at(k)
		weight := 1 / (r.sdPoints() * r.sdPoints())
		w, wx, wy = w+weight, wx+weight*x(r.Days), wy+weight*1000*r.SG
	}
	var sxx, sxy float64
	for k := first; k < len(s.warm); k++ {
		r := s.at(k)
		weight := 1 / (r.sdPoints() * r.sdPoints())
		d := x(r.Days) - wx/w
		sxx, sxy = sxx+weight*d*d, sxy+weight*d*(1000*r.SG-wy/w)
	}
	return sxy / sxx, 1 / math.Sqrt(sxx)
}

func (r *Reading) sdPoints() float64 {
	if !(r.SD > 0) {
		return MarkPoints / 2
	}
	return 1000 * r.SD
}

// fall is how far the gravity fell from the reading at first to the last, by the
// straight line through all between, points.
func (s stretch) fall(first int) float64 {
	slope, _ := s.line(first, func(days float64) float64 { return days })
	return -slope * (s.end() - s.at(first).Days)
}

// bound is how much may still be to come, points, of a tail of a half-life: what
// the fall since first foretells, and for its noise as many sd as make two equal
// readings of half a mark come to [MissedPoints] exactly.
func (s stretch) bound(first int, halfLifeDays, markPoints float64) float64 {
	slope, sd := s.line(first, func(days float64) float64 { return math.Exp2((s.end() - days) / halfLifeDays) })
	return math.Max(0, slope) + markPoints*math.Sqrt2*sd
}
