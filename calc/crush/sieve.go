package crush

import "math"

// Sieves is how many fractions a sieving has: five sieves and what falls
// through.
const Sieves = 6

// sieveMM are the openings of the sieves, mm, coarse to fine; the last is the
// pan. The published grists name 1.28, 1.0, 0.6, 0.25 and 0.15; the plansifter
// is 1.27, 1.01, 0.547, 0.253, 0.152 (from memory): the same sieves.
var sieveMM = [Sieves]float64{1.27, 1.0, 0.6, 0.25, 0.15, 0}

// Grist is one published sieving.
type Grist struct {
	Name string
	Pct  [Sieves]float64
}

// Published are the three grists of the trade, coarse to fine.
func Published() [3]Grist {
	return [3]Grist{
		{"mash tun", [Sieves]float64{53, 14, 16, 6, 3, 8}},
		{"lauter tun", [Sieves]float64{27, 12, 28, 15, 4, 15}},
		{"mash filter", [Sieves]float64{9, 4, 9, 28, 36, 14}},
	}
}

// sizeMM is the particle size taken for each fraction: the geometric middle of
// its sieves. A kernel is about 2.5 mm thick, flour some 0.04 mm.
var sizeMM = [Sieves]float64{
	math.Sqrt(1.27 * 2.5), math.Sqrt(1.0 * 1.27), math.Sqrt(0.6 * 1.0),
	math.Sqrt(0.25 * 0.6), math.Sqrt(0.15 * 0.25), math.Sqrt(0.04 * 0.15),
}

// Sieving is a grist as the sieves saw it.
type Sieving struct {
	Pct     [Sieves]float64 // of the whole, sums to 100
	SumPct  float64         // what was put in summed to
	Scale   float64         // -1 mash tun, 0 lauter tun, +1 mash filter
	HuskPct float64         // on the coarsest sieve: husk and whole kernels
	GritPct float64         // on the next three
	FinePct float64         // on the finest, and through: flour
}

// Sift reads a sieving. ok is false where there are not six fractions of 0 or
// more with something in them.
func Sift(onSievePct []float64) (s Sieving, ok bool) {
	if len(onSievePct) != Sieves {
		return s, false
	}
	for _, p := range onSievePct {
		if !(p >= 0) || math.IsInf(p, 0) {
			return s, false
		}
		s.SumPct += p
	}
	if !(s.SumPct > 0) {
		return s, false
	}
	for i, p := range onSievePct {
		s.Pct[i] = 100 * p / s.SumPct
	}
	s.HuskPct = s.Pct[0]
	s.GritPct = s.Pct[1] + s.Pct[2] + s.Pct[3]
	s.FinePct = s.Pct[4] + s.Pct[5]
	s.Scale = scale(meanLogSize(s.Pct))
	return s, true
}

func meanLogSize(pct [Sieves]float64) float64 {
	sum, all := 0.0, 0.0
	for i, p := range pct {
		sum += p * math.Log(sizeMM[i])
		all += p
	}
	return sum / all
}

// scale stretches a mean log size so that the published grists stand at -1, 0
// and 1. It bends at 0, where nothing hangs on its slope.
func scale(m float64) float64 {
	p := Published()
	tun, lauter, filter := meanLogSize(p[0].Pct), meanLogSize(p[1].Pct), meanLogSize(p[2].Pct)
	if m >= lauter {
		return -(m - lauter) / (tun - lauter)
	}
	return (lauter - m) / (lauter - filter)
}
