package yeasts

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"skep/app/look"
	"skep/app/restpicture"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
)

// strainPicture is one of the four with all strains laid over each other.
// Pointing at a line brings its strain out; dragging moves the mash rest, as
// in the Taste place.
type strainPicture struct {
	restpicture.Picture
	y     *Place
	under float64 // the temperature that is pointed at; NaN: none
}

func newStrainPicture(y *Place, o calc.Outcome) *strainPicture {
	p := &strainPicture{y: y, under: math.NaN()}
	p.Init(y.host, y.painter, o, look.CaptionSize+1)
	p.ExtendBaseWidget(p)
	return p
}

// show puts the value of the strain that is brought out, or of the brew's own,
// beside the title.
func (p *strainPicture) show() {
	p.Blank = false
	p.say()
	p.Raster.Refresh()
}

func (p *strainPicture) say() {
	s := p.y.spoken()
	if s == nil {
		if p.Blank {
			return
		}
		p.Value.SetText("")
		return
	}
	say, k := p.y.host.Say(), p.Outcome.Kind()
	if !math.IsNaN(p.under) {
		if v, ok := bandAt(s.curves, p.Outcome, p.under); ok {
			p.Value.SetText(words.T("at {temperature}  {value}", say.Format(quantity.Temperature, p.under), say.Number(k, v.Mid)))
			return
		}
	}
	v := s.Prediction.Four()[p.Outcome]
	p.SetValue(p.y.host.Say().BandNumber(k, v), say.Number(k, v.Mid))
}

// bandAt reads a curve at a temperature.
func bandAt(c calc.Curves, o calc.Outcome, tempC float64) (calc.Band, bool) {
	for i := 1; i < len(c.TemperatureC); i++ {
		t0, t1 := c.TemperatureC[i-1], c.TemperatureC[i]
		if tempC < t0 || tempC > t1 || t0 == t1 {
			continue
		}
		u := (tempC - t0) / (t1 - t0)
		a, b := c.Bands[o][i-1], c.Bands[o][i]
		return calc.Band{
			Low: (1-u)*a.Low + u*b.Low, Mid: (1-u)*a.Mid + u*b.Mid, High: (1-u)*a.High + u*b.High,
		}, true
	}
	return calc.Band{}, false
}

// nearEnough is how close to a line one must point, in pixels at scale 1.
const nearEnough = 16

func (p *strainPicture) MouseIn(e *desktop.MouseEvent)    { p.point(e.Position) }
func (p *strainPicture) MouseMoved(e *desktop.MouseEvent) { p.point(e.Position) }
func (p *strainPicture) MouseOut() {
	p.under = math.NaN()
	p.y.point(-1)
	p.say()
}

// point finds the line under the pointer.
func (p *strainPicture) point(at fyne.Position) {
	l, ok := p.y.painter.Layout(int(p.Outcome))
	if !ok {
		return
	}
	x := float64(at.X-p.Raster.Position().X) * l.Size.Scale
	y := float64(at.Y-p.Raster.Position().Y) * l.Size.Scale
	best, nearest := -1, nearEnough*l.Size.Scale
	p.under = math.NaN()
	if l.Inside(x, y) {
		t := l.TemperatureAt(x)
		for i := range p.y.Shown {
			if v, ok := bandAt(p.y.Shown[i].curves, p.Outcome, t); ok {
				if off := math.Abs(l.PixelY(v.Mid) - y); off < nearest {
					best, nearest = i, off
				}
			}
		}
		if best >= 0 {
			p.under = math.Round(t*2) / 2
		}
	}
	p.y.point(best)
	p.say()
}

var (
	_ fyne.Draggable    = (*strainPicture)(nil)
	_ desktop.Hoverable = (*strainPicture)(nil)
	_ fyne.Accessible   = (*strainPicture)(nil)
)

func (p *strainPicture) AccessibilityLabel() string {
	return words.T("{name} against the mash rest, all strains: {value}", p.Title.Text, p.Value.Text)
}
