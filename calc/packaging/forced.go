package packaging

import "math"

// ForcedSDPoints is how well a forced fermentation at home foretells the end,
// points, one sd (ours): the reference method repeats within 0.24 points in one
// place, and two places differ by up to 1.4 at 12 °P (EBC trial, Hagen and
// Schwarz 1999: r95 0.5 and R95 2.9 % of apparent attenuation).
const ForcedSDPoints = 1.0

// ForcedC is how warm a forced fermentation is kept, °C: 20 or more (MEBAK, limit
// of attenuation); 25 is a warm room (ours).
const ForcedC = 25.0

// Forced is the end of a forced fermentation: a warm, heavily pitched sample run
// to its end in days.
type Forced struct {
	EndSG float64
	// Heated: the sample was heated first, which kills enzymes. It then tells
	// what the yeast can take and nothing of raw honey, hops or a strain that
	// eats dextrin.
	Heated bool
}

// untold are the tails that it does not bound.
func (f Forced) untold(tails []Tail) []Tail {
	if !f.Heated {
		return nil
	}
	var out []Tail
	for _, t := range tails {
		if t.Kind != Ordinary {
			out = append(out, t)
		}
	}
	return out
}

// left is what may still be to come, points, from a gravity.
func (f Forced) left(nowSG float64) float64 {
	return math.Max(ForcedSDPoints, 1000*(nowSG-f.EndSG)+MarkPoints/2)
}
