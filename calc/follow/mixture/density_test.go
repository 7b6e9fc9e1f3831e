package mixture

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// What a component says of its density is how its draws fall: weighed by the prior
// over the component, they give the prior's own mass, mean and spread.
func TestDrawsFallAsTheDensitySays(t *testing.T) {
	t.Parallel()
	c, ok := Around([]float64{0.3, -0.2, 0.1}, mat.NewSymDense(3, []float64{1.9, 0.4, 0.1, 0.4, 1.2, 0.05, 0.1, 0.05, 1.01}), false)
	if !ok || c.heavy[0] == c.heavy[2] {
		t.Fatalf("expected heavy and normal directions: %v", c.heavy)
	}
	prior := priorComponent(3, 1)
	rng := rand.New(rand.NewPCG(1, 2))
	const n = 400000
	var mass float64
	var mean, square [3]float64
	for range n {
		var x [3]float64
		c.Draw([]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}, x[:])
		w := math.Exp(prior.logDensity(x[:])-c.logDensity(x[:])) / n
		mass += w
		for i, v := range x {
			mean[i] += w * v
			square[i] += w * v * v
		}
	}
	if math.Abs(mass-1) > 0.01 {
		t.Errorf("mass %.4f, expected 1", mass)
	}
	for i := range mean {
		if math.Abs(mean[i]) > 0.02 || math.Abs(square[i]-1) > 0.05 {
			t.Errorf("input %d: mean %.4f, expected 0; mean square %.4f, expected 1", i, mean[i], square[i])
		}
	}
}
