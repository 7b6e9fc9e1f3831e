package follow

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Foam is a coarse honest sight of where the height lies. What was seen at an
// hour t says of a height at H hours:
//
//	0 none          before it starts or after it is over: t < H/3 or t > 2 H,
//	                each blurred as below
//	1 rising        H is still to come
//	2 at its height H is near: within 15 % of H, 6 h at least
//	3 falling       H has passed
//
// "Still to come" and "passed" are blurred by a tenth of H, four hours at least
// (normal), and one sight in twenty is wrong whatever it says. All of these
// numbers are ours: no record of foam against the rate of CO2 was found.
const (
	foamNone, foamRising, foamHeight, foamFalling = 0.0, 1.0, 2.0, 3.0

	foamWrong      = 0.05
	foamBlur       = 0.10
	foamBlurHours  = 4.0
	foamNear       = 0.15
	foamNearHours  = 6.0
	foamNoneBefore = 1.0 / 3
	foamNoneAfter  = 2.0
)

func (o *obs) seen(height float64) float64 {
	t := o.hour
	blur := max(foamBlur*t, foamBlurHours)
	var p float64
	switch o.value {
	case foamRising:
		p = distuv.UnitNormal.CDF((height - t) / blur)
	case foamFalling:
		p = distuv.UnitNormal.CDF((t - height) / blur)
	case foamHeight:
		z := (height - t) / max(foamNear*t, foamNearHours)
		p = math.Exp(-z * z / 2)
	default:
		p = distuv.UnitNormal.CDF((foamNoneBefore*height-t)/blur) + distuv.UnitNormal.CDF((t-foamNoneAfter*height)/blur)
	}
	return foamWrong + (1-2*foamWrong)*min(p, 1)
}

// foam is the likelihood with its slope and curvature over the height, by
// differences.
func (o *obs) foam(height float64) (value, slope, curvature float64) {
	const h = 0.5 // hours
	f := func(x float64) float64 { return -math.Log(o.seen(x)) }
	value = f(height)
	up, down := f(height+h), f(height-h)
	return value, (up - down) / (2 * h), max(0, (up-2*value+down)/(h*h))
}
