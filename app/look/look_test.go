package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/font/sfnt"
)

// The ratio itself against published pairs: black on white is 21:1 by the
// definition, #767676 on white is the well-known lightest grey at 4.54:1, and
// Okabe and Ito's blue and vermillion on white are 5.2 and 3.9 (design notes,
// traps.md H4).
func TestContrastRatio(t *testing.T) {
	t.Parallel()
	white := hex(0xFFFFFF)
	for _, c := range []struct {
		rgb  uint32
		want float64
		tol  float64
	}{{0x000000, 21, 1e-9}, {0xFFFFFF, 1, 1e-9}, {0x767676, 4.54, 0.005}, {0x0072B2, 5.2, 0.05}, {0xD55E00, 3.9, 0.05}, {0xE69F00, 2.3, 0.05}} {
		if got := Contrast(hex(c.rgb), white); got < c.want-c.tol || got > c.want+c.tol {
			t.Errorf("#%06X on white: %.3f, want %.2f", c.rgb, got, c.want)
		}
		if Contrast(hex(c.rgb), white) != Contrast(white, hex(c.rgb)) {
			t.Error("the ratio must not depend on the order")
		}
	}
}

// WCAG 2.2: text 4.5:1 (1.4.3), parts of controls and of pictures 3:1 (1.4.11),
// for both variants and both grounds.
func TestPaletteContrast(t *testing.T) {
	t.Parallel()
	for name, p := range map[string]Palette{"light": light, "dark": dark, "light, strong": lightStrong, "dark, strong": darkStrong} {
		least := func(what string, want float64, fore color.NRGBA, grounds ...color.NRGBA) {
			t.Helper()
			for _, g := range grounds {
				if got := Contrast(Over(fore, g), g); got < want {
					t.Errorf("%s: %s on %02X%02X%02X has %.2f:1, needs %.1f:1", name, what, g.R, g.G, g.B, got, want)
				}
			}
		}
		paper := []color.NRGBA{p.Background, p.Panel}
		everywhere := append([]color.NRGBA{p.Field, p.Button}, paper...)
		hovered := []color.NRGBA{Over(p.Hover, p.Panel), Over(p.Hover, p.Background), Over(p.Hover, p.Button), Over(p.Pressed, p.Button)}
		focused := []color.NRGBA{Over(p.FocusFill, p.Panel), Over(p.FocusFill, p.Background), Over(p.FocusFill, p.Button)}

		least("text", 4.5, p.Ink, append(append(everywhere, hovered...), focused...)...)
		least("selected text", 4.5, p.Ink, Over(p.Selection, p.Field), Over(p.Selection, p.Panel))
		least("text in the band", 4.5, p.Ink, Over(p.AccentSoft, p.Panel), p.Reach)
		least("quiet and placeholder text", 4.5, p.Quiet, everywhere...)
		least("disabled text", 4.5, p.Disabled, everywhere...)
		least("accent text", 4.5, p.Accent, paper...)
		least("text on the accent", 4.5, p.OnAccent, p.Accent, Over(p.FocusFill, p.Accent), Over(p.Hover, p.Accent))
		least("warning text", 4.5, p.Warning, append(paper, p.Field)...)
		least("error text", 4.5, p.Error, append(paper, p.Field)...)
		least("success text", 4.5, p.Success, append(paper, p.Field)...)
		least("text on warning", 4.5, p.Background, p.Warning)
		least("text on error", 4.5, p.Background, p.Error)
		least("text on success", 4.5, p.Background, p.Success)
		least("text in the pin's colour", 4.5, p.Pin, p.Panel)

		least("lever track", 3, p.Track, paper...)
		least("lever thumb", 3, p.Accent, paper...)
		least("field border", 3, p.FieldBorder, append(paper, p.Field)...)
		least("focus ring", 3, p.Focus, append(paper, p.Field)...)
		least("focused widget", 3, p.FocusFill, paper...)
		least("scroll bar", 3, p.ScrollBar, paper...)
		least("pin", 3, p.Pin, append(paper, p.Reach, Over(p.AccentSoft, p.Panel))...)
		least("ghost line", 3, p.Ghost, append(paper, Over(p.AccentSoft, p.Panel))...)
		least("edge of the band", 2, p.AccentEdge, p.Panel) // helps the tint; the line itself carries the value
		for i, s := range p.Series {
			least("series "+string(rune('1'+i)), 3, s.Colour, p.Panel)
		}
		if Contrast(Over(p.FocusFill, p.Button), p.Button) < 2.4 {
			t.Errorf("%s: a focused button differs too little from an idle one", name)
		}
	}
}

func TestSeriesDifferWithoutColour(t *testing.T) {
	t.Parallel()
	for _, p := range []Palette{light, dark} {
		seen := map[Marker]bool{}
		dashes := map[string]bool{}
		for _, s := range p.Series {
			seen[s.Marker] = true
			key := ""
			for _, d := range s.Dash {
				key += string(rune('a' + int(d)))
			}
			dashes[key] = true
		}
		if len(seen) != 6 || len(dashes) != 6 {
			t.Errorf("%d markers, %d dashes, want 6 of each", len(seen), len(dashes))
		}
	}
}

func TestVariants(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mode    Mode
		variant fyne.ThemeVariant
		dark    bool
	}{
		{System, theme.VariantLight, false}, {System, theme.VariantDark, true}, {System, 2, false}, {System, 99, false},
		{Light, theme.VariantDark, false}, {Dark, theme.VariantLight, true}, {Dark, 2, true},
	} {
		th := New(c.mode)
		if got := PaletteOf(th, c.variant); got.Dark != c.dark {
			t.Errorf("%v with variant %d: dark %v", c.mode, c.variant, got.Dark)
		}
		want := light
		if c.dark {
			want = dark
		}
		if got := th.Color(theme.ColorNameBackground, c.variant); got != want.Background {
			t.Errorf("%v with variant %d: background %v", c.mode, c.variant, got)
		}
		if ModeFrom(c.mode.String()) != c.mode {
			t.Errorf("%v does not survive the preferences", c.mode)
		}
	}
	if ModeFrom("purple") != System {
		t.Error("an unknown mode must be the system's")
	}
	if PaletteOf(theme.DefaultTheme(), theme.VariantDark).Dark != true {
		t.Error("another theme must get the palette of the variant")
	}
}

// No colour that Fyne asks for may fall through to the stock theme, whose
// tracks and warnings fail the contrast.
func TestEveryColourIsOurs(t *testing.T) {
	t.Parallel()
	ours := map[color.Color]bool{color.Transparent: true}
	for _, c := range []color.NRGBA{light.Background, light.Panel, light.Ink, light.Quiet, light.Disabled, light.Accent, light.OnAccent,
		light.Button, light.FocusFill, light.Hover, light.Pressed, light.Selection, light.Field, light.FieldBorder, light.ScrollBar,
		light.PanelBorder, light.Shadow, light.Error, light.Warning, light.Success} {
		ours[c] = true
	}
	for _, name := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameButton, theme.ColorNameDisabledButton,
		theme.ColorNameDisabled, theme.ColorNameError, theme.ColorNameFocus, theme.ColorNameForeground, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning,
		theme.ColorNameHeaderBackground, theme.ColorNameHover, theme.ColorNameHyperlink, theme.ColorNameInnerWindowBorder,
		theme.ColorNameInnerWindowBorderInactive, theme.ColorNameInputBackground, theme.ColorNameInputBorder,
		theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNamePlaceHolder, theme.ColorNamePressed,
		theme.ColorNamePrimary, theme.ColorNameScrollBar, theme.ColorNameScrollBarBackground, theme.ColorNameSelection,
		theme.ColorNameSeparator, theme.ColorNameShadow, theme.ColorNameSuccess, theme.ColorNameWarning} {
		if got := New(Light).Color(name, 2); !ours[got] {
			t.Errorf("%s is %v, none of ours", name, got)
		}
	}
}

func TestTypefaceHasTheTradesSigns(t *testing.T) {
	t.Parallel()
	for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}} {
		f, err := sfnt.Parse(New(System).Font(style).Content())
		if err != nil {
			t.Fatal(err)
		}
		var b sfnt.Buffer
		for _, r := range "°−–—×·•±≤≥²₂µ…“”’→←↑↓ÄÖÜäöüßéèñ\u00a0" {
			if i, err := f.GlyphIndex(&b, r); err != nil || i == 0 {
				t.Errorf("%+v: no glyph for %q", style, r)
			}
		}
	}
}

// Not parallel: the test application and its theme are global.
func TestControlsAreHighEnough(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(New(Light))
	for name, o := range map[string]fyne.CanvasObject{
		"button": widget.NewButton("Print", nil), "entry": widget.NewEntry(), "select": widget.NewSelect([]string{"a"}, nil),
		"check": widget.NewCheck("a", nil), "icon button": widget.NewButtonWithIcon("", IconUndo(), nil),
	} {
		if h := o.MinSize().Height; h < Control || h > Control+8 {
			t.Errorf("%s is %v high, want %v to %v", name, h, Control, Control+8)
		}
	}
}

func TestPaletteSeenThroughAnOverride(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(New(Light))
	label := widget.NewLabel("x")
	test.NewTempWindow(t, container.NewThemeOverride(label, New(Dark)))
	if !PaletteOf(label.Theme(), app.Settings().ThemeVariant()).Dark {
		t.Error("a part of the window pinned to dark must draw with the dark palette")
	}
}

// Every icon must be drawn, and in the colour asked for: Fyne recolours fills
// only, so an outline made of strokes would stay black on the dark panel.
func TestIconsTakeTheirColour(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(New(Dark))
	icons := map[string]fyne.Resource{"locked": IconLocked(), "unlocked": IconUnlocked(), "reset": IconReset(), "undo": IconUndo(),
		"redo": IconRedo(), "down": IconDown(), "close": IconClose(), "tick": IconTick(), "more": IconMore()}
	row := container.NewHBox()
	for _, name := range []string{"locked", "unlocked", "reset", "undo", "redo", "down", "close", "tick", "more"} {
		img := canvas.NewImageFromResource(icons[name])
		img.SetMinSize(fyne.NewSquareSize(40))
		row.Add(img)
		w := test.NewTempWindow(t, img)
		w.SetPadded(false)
		w.Resize(fyne.NewSquareSize(40))
		shot := w.Canvas().Capture()
		inked := 0
		b := shot.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for x := b.Min.X; x < b.Max.X; x++ {
				c := color.NRGBAModel.Convert(shot.At(x, y)).(color.NRGBA)
				if c == dark.Ink {
					inked++
				}
				if Contrast(c, hex(0)) < 1.05 {
					t.Fatalf("%s: black at %d,%d", name, x, y)
				}
			}
		}
		if share := float64(inked) / float64(b.Dx()*b.Dy()); share < 0.02 || share > 0.6 {
			t.Errorf("%s: %.0f %% of it is ink", name, share*100)
		}
	}
	w := test.NewTempWindow(t, row)
	test.AssertRendersToImage(t, "icons.png", w.Canvas())
}

// The strong palettes: text and lines at 7:1 (WCAG 2.2, 1.4.6), outlines too; each is
// found again from the theme, as the widgets ask for it.
func TestTheStrongPalettes(t *testing.T) {
	t.Parallel()
	for mode, p := range map[Mode]Palette{Light: lightStrong, Dark: darkStrong} {
		over := color.NRGBAModel.Convert(NewStrong(mode).Color(theme.ColorNameOverlayBackground, theme.VariantDark)).(color.NRGBA)
		if edge, text, link := Contrast(over, p.Panel), Contrast(p.Ink, over), Contrast(p.Accent, over); edge < 1.15 || text < 7 || link < 4.5 {
			t.Errorf("mode %v: a dialog has %.2f:1 to the window, its text %.2f:1, its links %.2f:1", mode, edge, text, link)
		}
	}
	for name, p := range map[string]Palette{"light": lightStrong, "dark": darkStrong} {
		for what, c := range map[string]color.NRGBA{"text": p.Ink, "quiet": p.Quiet, "accent": p.Accent, "pin": p.Pin, "field": p.FieldBorder, "panel": p.PanelBorder, "warning": p.Warning, "disabled": p.Disabled} {
			if got := Contrast(c, p.Panel); got < 7 {
				t.Errorf("%s: %s has %.2f:1", name, what, got)
			}
		}
		for i, s := range p.Series {
			if got := Contrast(s.Colour, p.Panel); got < 7 {
				t.Errorf("%s: line %d has %.2f:1", name, i, got)
			}
		}
	}
	for got, want := range map[color.NRGBA]color.NRGBA{
		PaletteOf(NewStrong(Light), theme.VariantDark).Ink: lightStrong.Ink, PaletteOf(NewStrong(Dark), theme.VariantLight).Ink: darkStrong.Ink,
		PaletteOf(New(Light), theme.VariantDark).Ink: light.Ink, PaletteOf(New(Dark), theme.VariantLight).Ink: dark.Ink,
	} {
		if got != want {
			t.Errorf("a theme's ink is %v, found %v", want, got)
		}
	}
}
