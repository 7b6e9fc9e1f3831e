package mashcourse

import (
	"testing"

	"gonum.org/v1/plot/vg/draw"

	"skep/app/stage"
)

// The picture of a mash is in the person's language, and nothing in it is cut, in the
// widest and the narrowest window.
func TestThePictureIsInTheLanguage(t *testing.T) {
	stage.InEachLanguage(t, func(t *testing.T) {
		s := stage.New(t)
		c := New(s)
		c.Fill(Of(s.Design(), 0))
		m, p := c.picture(), s.Palette()
		for _, wide := range []float64{330, 400, 1000} {
			stage.CheckTexts(t, wide, courseHigh, 9, "", func(on draw.Canvas) { m.DrawOn(on, &p) })
		}
	})
}
