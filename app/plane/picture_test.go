package plane

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"skep/app/look"
)

func f(v float64) *float64 { return &v }

// ellipse stands in for a contour of the cloud.
func ellipse(mid Point, a, b, turn float64) []Point {
	var out []Point
	for i := range 64 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 64)
		x, y := a*cos, b*sin
		out = append(out, pt(mid.Dryness+x*math.Cos(turn)-y*math.Sin(turn), mid.Body+x*math.Sin(turn)+y*math.Cos(turn)))
	}
	return out
}

// gateField is a landing of our own, of the size that the engine's have.
func gateField() Data {
	here := pt(58, 35)
	return Data{
		Here: here,
		Half: [][]Point{ellipse(here, 7.5, 2.6, -0.28)},
		Most: [][]Point{ellipse(here, 12, 4.4, -0.28)},
		Reach: [][]Point{{pt(71, 31), pt(66, 30), pt(57, 28.5), pt(53, 30), pt(47, 34), pt(38, 43), pt(31, 54), pt(36, 57), pt(44, 57),
			pt(50, 52), pt(58, 44), pt(65, 38), pt(70, 34)}},
		Arrows: []Arrow{
			{"mash.rest", "hotter", "1 °C", pt(56.2, 36.2), nil},
			{"mash.minutes", "longer rest", "10 min", pt(58.3, 34.9), nil},
			{"yeast", "less attenuating", "1 point", pt(56.1, 35.4), nil},
			{"honey.mass", "more honey", "100 g", pt(58.9, 35.4), nil},
		},
		Ghost: &Ghost{pt(50, 40), "As first drawn", nil},
	}
}

type padded struct{ by float32 }

func (i *padded) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewSquareOffsetPos(i.by))
		o.Resize(s.SubtractWidthHeight(2*i.by, 2*i.by))
	}
}

func (i *padded) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().AddWidthHeight(2*i.by, 2*i.by)
}

func onPanel(c look.Palette, o fyne.CanvasObject) fyne.CanvasObject {
	ground := canvas.NewRectangle(c.Panel)
	return container.NewStack(ground, container.New(&padded{18}, o))
}

// each runs a picture in both palettes.
func each(t *testing.T, name string, size fyne.Size, make func() fyne.CanvasObject, then func()) {
	t.Helper()
	for variant, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		app := test.NewTempApp(t)
		app.Settings().SetTheme(look.New(mode))
		w := test.NewTempWindow(t, onPanel(look.PaletteOf(look.New(mode), 2), make()))
		w.SetPadded(false)
		w.Resize(size)
		if then != nil {
			then()
		}
		test.AssertRendersToImage(t, name+"-"+variant+".png", w.Canvas())
	}
}

func TestPicturePlane(t *testing.T) {
	var p *Plane
	each(t, "plane", fyne.NewSize(288, 352), func() fyne.CanvasObject {
		p = New()
		p.Set(gateField())
		p.SetPin(Wish{f(64), f(34)})
		p.SetWays([]Point{pt(63.6, 34.2), pt(62, 36)})
		return p
	}, nil)
}

// The whole plane, in focus, a wish for dryness only and a chosen arrow.
func TestPictureWhole(t *testing.T) {
	var p *Plane
	each(t, "whole", fyne.NewSize(288, 352), func() fyne.CanvasObject {
		p = New()
		p.SetWhole(true)
		p.Set(gateField())
		p.SetPin(Wish{Dryness: f(64)})
		return p
	}, func() {
		p.focus()
		p.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	})
}

func TestPictureEmpty(t *testing.T) {
	each(t, "empty", fyne.NewSize(288, 300), func() fyne.CanvasObject {
		p := New()
		p.Set(Data{Note: "No grain and no honey yet: put some in, and the beer lands here"})
		return p
	}, nil)
}

func numbers() *WishRow {
	r := NewWishRow(
		func(_ string, v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) },
		func(_, text string) (float64, string, error) {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				return 0, "", errors.New("“" + text + "” is no number")
			}
			return v, "read as " + strconv.FormatFloat(v, 'f', -1, 64), nil
		})
	return r
}

// The third column as the window has it.
func TestPictureColumn(t *testing.T) {
	var p *Plane
	each(t, "column", fyne.NewSize(288, 600), func() fyne.CanvasObject {
		p = New()
		d := gateField()
		d.Ghost = nil
		p.Set(d)
		p.SetPin(Wish{f(64), f(34)})
		p.SetWays([]Point{pt(63.6, 34.2), pt(62, 36)})
		r := numbers()
		r.Set(DrynessKey, f(64))
		r.Set(BodyKey, f(34))
		l := NewWayList()
		l.Set([]Card{
			{Number: 1, Title: "2.5 °C cooler, same yeast", Detail: "lands within 1; 0.3 % stronger"},
			{Number: 2, Title: "Dry wine yeast", Detail: "lands within 1; a wider cloud"},
			{Number: 3, Title: "150 g more honey, 1 °C hotter, 10 min shorter", Detail: "lands within 2; 0.6 % stronger"},
		})
		return container.New(&Column{}, p, r, l)
	}, nil)
}

// Narrow, and what can't be reached.
func TestPictureNarrow(t *testing.T) {
	var p *Plane
	each(t, "narrow", fyne.NewSize(226, 520), func() fyne.CanvasObject {
		p = New()
		p.Set(gateField())
		p.SetPin(Wish{f(85), f(60)})
		r := numbers()
		r.Set(DrynessKey, f(85))
		r.Set(BodyKey, f(60))
		l := NewWayList()
		l.Set([]Card{{Kind: Unreachable, Title: "Out of reach: dryness 60, body 42 is nearest",
			Detail: "25 too sweet, 18 too light; the mash rest is at its hottest", Use: "go there"}, {Kind: Searching}})
		return container.New(&Column{}, p, r, l)
	}, nil)
}
