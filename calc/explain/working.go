package explain

import (
	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/honey"
)

// working is how the middle beer of a design came about, every uncertain input at its
// middle: what is shown beside a formula. The middle beer is near the middle of the
// bands, not on it, since not every doubt is the same to both sides.
type working struct {
	calc.Draw
	brew      *calc.Brew
	in        calc.Inputs
	character []honey.CharacterInput
}

// middleBeer works a design with one of its yeasts out.
func middleBeer(brew *calc.Brew) *working {
	w := &working{brew: brew, in: brew.Middle()}
	brew.Ferment(&w.in, &w.Draw)
	w.character = brew.CharacterInput(&w.Fermentation)
	return w
}

// at works the same beer out with an input at another normal score, all others at 0.
func (w *working) at(input doubt.Input, score float64) *calc.Draw {
	var z [doubt.Inputs]float64
	z[input] = score
	in, x := w.brew.Inputs(&z), new(calc.Draw)
	w.brew.Ferment(&in, x)
	return x
}

// wortGL turns kg in the fermenter into g per litre of wort.
func (w *working) wortGL(kg float64) float64 {
	return kg * 1000 / w.brew.Design().Batch.IntoFermenterL
}
