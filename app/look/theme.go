// Package look is how Skep looks: one quiet palette of our own for light and dark, one
// typeface, sizes, and the few icons that the typeface lacks.
//
// The desktop's variant and the person's choice come in, Fyne's theme and the
// pictures' colours go out. It must not know what is drawn with them.
//
// Contrast is part of the contract and asserted by a test: text 4.5:1, the
// parts of controls and of pictures that carry meaning 3:1 against what they
// stand on (WCAG 2.2, 1.4.3 and 1.4.11). Controls are at least 28 high.
package look

import (
	"image/color"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Mode says whether the desktop decides between light and dark, or the person.
type Mode uint8

// The modes, as the preferences offer them.
const (
	System Mode = iota
	Light
	Dark
)

// ModeFrom reads a mode as [Mode.String] writes it; anything else is System.
func ModeFrom(text string) Mode {
	for _, m := range []Mode{Light, Dark} {
		if text == m.String() {
			return m
		}
	}
	return System
}

// String is the word kept in the preferences.
func (m Mode) String() string {
	switch m {
	case Light:
		return "light"
	case Dark:
		return "dark"
	}
	return "system"
}

// Sizes that Skep's own widgets share with the theme, in Fyne's units.
const (
	TextSize    float32 = 14
	CaptionSize float32 = 12
	TitleSize   float32 = 15 // of a panel
	HeadingSize float32 = 18 // of the window
	Control     float32 = 28 // least height of a control
	Corner      float32 = 5
	PanelCorner float32 = 6
)

const (
	innerPadding float32 = 7
	padding      float32 = 4
)

var (
	regular = fyne.NewStaticResource("LiberationSans-Regular.ttf", liberationsansregular.TTF)
	bold    = fyne.NewStaticResource("LiberationSans-Bold.ttf", liberationsansbold.TTF)
)

// New returns the theme. Set before the application runs, Fyne 2.8 takes it up
// in full (2.7 did not); once more when it runs costs a tenth of the start.
func New(mode Mode) fyne.Theme { return &skep{mode: mode} }

// NewStrong is the theme with more contrast.
func NewStrong(mode Mode) fyne.Theme { return &skep{mode: mode, strong: true} }

type skep struct {
	mode   Mode
	strong bool
}

var _ fyne.Theme = (*skep)(nil)

func (s *skep) palette(v fyne.ThemeVariant) Palette {
	p := PaletteFor(v)
	switch s.mode {
	case Light:
		p = light
	case Dark:
		p = dark
	}
	switch {
	case s.strong && p.Dark:
		return darkStrong
	case s.strong:
		return lightStrong
	}
	return p
}

// overlayTint is of the ink over the pure ground of high contrast, in what stands over
// the window: the toolkit draws it no outline, and ground on ground has no edge.
const overlayTint = 0x1c

// Color gives Fyne's colour names from the palette.
func (s *skep) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := s.palette(v)
	switch name {
	case theme.ColorNameBackground:
		return p.Background
	case theme.ColorNameOverlayBackground, theme.ColorNameMenuBackground, theme.ColorNameHeaderBackground:
		if s.strong {
			return Over(alphaOf(p.Ink, overlayTint), p.Panel)
		}
		return p.Panel
	case theme.ColorNameForeground:
		return p.Ink
	case theme.ColorNamePlaceHolder:
		return p.Quiet
	case theme.ColorNameDisabled:
		return p.Disabled
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.Accent
	case theme.ColorNameForegroundOnPrimary:
		return p.OnAccent
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return p.Background
	case theme.ColorNameButton, theme.ColorNameDisabledButton:
		return p.Button
	case theme.ColorNameFocus:
		return p.FocusFill
	case theme.ColorNameHover:
		return p.Hover
	case theme.ColorNamePressed:
		return p.Pressed
	case theme.ColorNameSelection:
		return p.Selection
	case theme.ColorNameInputBackground:
		return p.Field
	case theme.ColorNameInputBorder:
		return p.FieldBorder
	case theme.ColorNameScrollBar:
		return p.ScrollBar
	case theme.ColorNameScrollBarBackground:
		return color.Transparent
	case theme.ColorNameSeparator, theme.ColorNameInnerWindowBorder, theme.ColorNameInnerWindowBorderInactive:
		return p.PanelBorder
	case theme.ColorNameShadow:
		return p.Shadow
	case theme.ColorNameError:
		return p.Error
	case theme.ColorNameWarning:
		return p.Warning
	case theme.ColorNameSuccess:
		return p.Success
	}
	return theme.DefaultTheme().Color(name, v)
}

// Font is one typeface throughout, the same as in the pictures. Fyne's own
// stands in for what it lacks (symbols, code).
func (s *skep) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace, style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return bold
	}
	return regular
}

// Icon leaves Fyne's icons as they are; ours are the Icon functions.
func (s *skep) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// Size gives the sizes; those not named are Fyne's own.
func (s *skep) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return TextSize
	case theme.SizeNameCaptionText:
		return CaptionSize
	case theme.SizeNameSubHeadingText:
		return TitleSize
	case theme.SizeNameHeadingText:
		return HeadingSize
	case theme.SizeNameInnerPadding:
		return innerPadding
	case theme.SizeNamePadding:
		return padding
	case theme.SizeNameInlineIcon:
		return 18
	case theme.SizeNameInputRadius, theme.SizeNameButtonRadius:
		return Corner
	case theme.SizeNameCardRadius, theme.SizeNameDialogRadius, theme.SizeNamePopupRadius:
		return PanelCorner
	case theme.SizeNameScrollBar:
		return 10
	}
	return theme.DefaultTheme().Size(name)
}
