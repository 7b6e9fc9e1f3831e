package lever

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"

	"skep/app/look"
	"skep/app/words"
	"skep/calc/quantity"
)

// column is the lever column as the window has it: a panel 284 wide, 18 of
// air on both sides.
func column(p look.Palette) (o fyne.CanvasObject, rest *Lever, yeast *TwoHanded, honey, when *Lever) {
	units := quantity.Units{}
	f, in := quantity.NewFormatter(units, words.Translate), quantity.NewParser(units, words.Translate)
	one := func(name string, k quantity.Kind, s Scale, v float64) *Lever {
		l := New(name, s, v, func(v float64) string { return f.Format(k, v) })
		l.Parse = func(text string) (float64, string, error) {
			r, err := in.Parse(k, text, quantity.Limits{Low: s.Min, High: s.Max})
			return r.Value, r.Echo, err
		}
		return l
	}
	rest = one("Mash rest", quantity.Temperature, Scale{Min: 58, Max: 72, Step: 0.1, Big: 1}, 66.5)
	rest.LowWord, rest.HighWord = "lighter, drier", "fuller, sweeter"
	rest.SetDefault(64)
	minutes := one("Rest time", quantity.Minutes, Scale{Min: 15, Max: 150, Step: 1, Big: 15}, 60)
	minutes.SetDefault(60)
	yeast = NewTwoHanded("Yeast", Scale{Min: 60, Max: 90, Step: 1, Big: 5}, 73, 78, func(low, high float64) string {
		return f.FormatRange(quantity.Percent, low, high)
	})
	yeast.Parse = func(text string) (float64, float64, string, error) {
		r, err := in.ParseRange(quantity.Percent, text, quantity.Limits{Low: 60, High: 90})
		return r.Low, r.High, r.Echo, err
	}
	yeast.LowWord, yeast.HighWord = "sweeter", "drier"
	sub := func(text string) fyne.CanvasObject {
		t := canvas.NewText(text, p.Quiet)
		t.TextSize = look.CaptionSize
		return container.NewGridWrap(fyne.NewSize(110, 20), t)
	}
	yeast.Sub = sub("Clean ale")
	honey = one("Honey", quantity.MassG, Scale{Min: 0, Max: 1300, Step: 10, Big: 100}, 550)
	honey.LowWord, honey.HighWord = "none", "strong, dry"
	honey.Sub = sub("Lime blossom")
	honey.SetDefault(550)
	when = New("Honey goes in", Scale{Min: -60, Max: 96, Step: 1, Big: 12, Stops: moments()}, 12, func(v float64) string {
		return f.FormatSigned(quantity.Hours, v)
	})
	when.Ticks = []Tick{{-58, "boil"}, {-38, "whirl"}, {-16, "pitch"}, {24, "height"}, {94, "+96 h"}}

	box := container.New(layout.NewCustomPaddedVBoxLayout(10), rest, minutes, yeast, honey, when)
	panel := canvas.NewRectangle(p.Panel)
	panel.CornerRadius, panel.StrokeWidth, panel.StrokeColor = look.PanelCorner, 1, p.PanelBorder
	paper := canvas.NewRectangle(p.Background)
	return container.NewStack(paper, container.New(&inset{16}, container.NewStack(panel, container.New(&inset{18}, box)))), rest, yeast, honey, when
}

func moments() []float64 {
	out := []float64{-58, -38, -16}
	for h := -12.0; h <= 96; h++ {
		out = append(out, h)
	}
	return out
}

type inset struct{ by float32 }

func (i *inset) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewSquareOffsetPos(i.by))
		o.Resize(s.SubtractWidthHeight(2*i.by, 2*i.by))
	}
}

func (i *inset) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().AddWidthHeight(2*i.by, 2*i.by)
}

// Goldens for both palettes: the whole column, one lever in focus, one locked,
// one that refused a text.
func TestPictures(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		t.Run(name, func(t *testing.T) {
			app := test.NewTempApp(t)
			app.Settings().SetTheme(look.New(mode))
			p := look.PaletteOf(look.New(mode), 2)
			o, rest, yeast, honey, _ := column(p)
			w := test.NewTempWindow(t, o)
			w.SetPadded(false)
			w.Resize(fyne.NewSize(316, 560))
			rest.Focus()
			honey.SetLocked(true)
			yeast.SetNote("read as 73–78 %", false)
			test.AssertRendersToImage(t, "column-"+name+".png", w.Canvas())
		})
	}
}
