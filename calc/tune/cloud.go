package tune

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"skep/calc"
)

// Point is a place on the landing plane.
type Point struct {
	Dryness float64 // 0 to 100
	Body    float64 // 0 to 100
}

// Cloud is where a beer lands, with its doubt.
type Cloud struct {
	Mid        Point   // the 50th percentile of each
	Half, Most []Point // closed outlines that hold 50 and 80 % of the draws
}

// The shares of the draws within the two outlines.
const (
	halfShare = 0.5
	mostShare = 0.8
)

const (
	corners   = 48          // of an outline
	turns     = 512         // steps of the kernel's table
	sightDeg  = 30.0        // width of the kernel: how finely the shape follows the draws
	leastSize = 1e-9        // index points; keeps a cloud without doubt from dividing by nothing
	turn      = 2 * math.Pi // radians
)

// kernel is how much a draw counts that lies so far to the side, by steps of turns.
var kernel = func() (k [turns]float64) {
	sharp := 1 / math.Pow(sightDeg*math.Pi/180, 2)
	for i := range k {
		k[i] = math.Exp(sharp * (math.Cos(turn*float64(i)/turns) - 1))
	}
	return k
}()

// cloudOf draws the two outlines around joint draws of dryness and body.
//
// The draws are made round (by the root of their covariance about the middle);
// the reach of the cloud in each direction is the kernel-weighted mean distance
// of the draws that way, so that it may lean and bulge as they do; and it is
// scaled until exactly the wanted share of the draws lies within.
func cloudOf(mid Point, draws []calc.Landed) Cloud {
	c := Cloud{Mid: mid}
	n := len(draws)
	if n == 0 {
		return c
	}
	var xx, xy, yy float64
	for i := range draws {
		x, y := draws[i].Dryness-mid.Dryness, draws[i].Body-mid.Body
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	// A = V sqrt(E): from a round cloud to this one.
	var eigen mat.EigenSym
	eigen.Factorize(mat.NewSymDense(2, []float64{xx / float64(n), xy / float64(n), xy / float64(n), yy / float64(n)}), true)
	value := eigen.Values(nil)
	var axis mat.Dense
	eigen.VectorsTo(&axis)
	var sd [2]float64
	for i := range sd {
		sd[i] = math.Sqrt(math.Max(value[i], 0)) + leastSize
	}
	var usual [3 * calc.Draws]float64
	room := usual[:]
	if 3*n > len(room) {
		room = make([]float64, 3*n)
	}
	angle, far, scale := room[:n], room[n:2*n], room[2*n:3*n]
	for i := range draws {
		x, y := draws[i].Dryness-mid.Dryness, draws[i].Body-mid.Body
		a := (axis.At(0, 0)*x + axis.At(1, 0)*y) / sd[0]
		b := (axis.At(0, 1)*x + axis.At(1, 1)*y) / sd[1]
		far[i], angle[i] = math.Hypot(a, b), math.Mod(math.Atan2(b, a)+turn, turn)
	}
	var reach [corners]float64
	for k := range reach {
		var sum, weight float64
		for i := range far {
			w := kernel[int(math.Abs(angle[i]-turn*float64(k)/corners)/turn*turns+0.5)%turns]
			sum, weight = sum+w*far[i], weight+w
		}
		if weight > 0 {
			reach[k] = sum / weight
		}
	}
	for i := range far {
		// The outline is straight between corners: the reach along the chord.
		q := angle[i] / turn * corners
		k := int(q) % corners
		a, b, u := reach[k], reach[(k+1)%corners], (q-math.Floor(q))*turn/corners
		chord := a * b * math.Sin(turn/corners) / (a*math.Sin(u) + b*math.Sin(turn/corners-u))
		if scale[i] = far[i] / chord; !(chord > 0) {
			scale[i] = 0
		}
	}
	slices.Sort(scale)
	outline := func(share float64) []Point {
		s := scale[min(int(math.Ceil(share*float64(n)))-1, n-1)]
		points := make([]Point, corners)
		for k := range points {
			a := s * reach[k] * math.Cos(turn*float64(k)/corners) * sd[0]
			b := s * reach[k] * math.Sin(turn*float64(k)/corners) * sd[1]
			points[k] = Point{
				Dryness: index(mid.Dryness + axis.At(0, 0)*a + axis.At(0, 1)*b),
				Body:    index(mid.Body + axis.At(1, 0)*a + axis.At(1, 1)*b),
			}
		}
		return points
	}
	c.Half, c.Most = outline(halfShare), outline(mostShare)
	return c
}

// index holds an index on its scale.
func index(x float64) float64 { return min(max(x, 0), 100) }
