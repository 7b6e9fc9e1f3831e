package lever

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
)

// iconButton is a small quiet button: Fyne's own is wider than the room beside
// a value box and would be one more Tab stop; its work has a key of the lever.
type iconButton struct {
	widget.BaseWidget
	name    func() string // what it does, for the screen reader and the hint
	tapped  func()
	hint    func(string)
	icon    fyne.Resource
	strong  bool
	hovered bool
	ground  *canvas.Rectangle
	image   *canvas.Image
	drawn   struct { // as the image was last drawn
		icon   fyne.Resource
		colour fyne.ThemeColorName
	}
}

var (
	_ fyne.Tappable     = (*iconButton)(nil)
	_ desktop.Hoverable = (*iconButton)(nil)
	_ fyne.Accessible   = (*iconButton)(nil)
)

const (
	iconWidth = 24 // WCAG 2.2's least target (2.5.8) in the narrow direction
	iconSize  = 16
)

func newIconButton(icon fyne.Resource, name func() string, tapped func(), hint func(string)) *iconButton {
	b := &iconButton{name: name, tapped: tapped, hint: hint,
		ground: canvas.NewRectangle(color.Transparent), image: canvas.NewImageFromResource(nil)}
	b.ground.CornerRadius = look.Corner
	b.image.FillMode = canvas.ImageFillContain
	b.ExtendBaseWidget(b)
	b.set(icon, false)
	return b
}

// set changes the icon; a strong one has the colour of text.
func (b *iconButton) set(icon fyne.Resource, strong bool) {
	if b.icon == icon && b.strong == strong {
		return
	}
	b.icon, b.strong = icon, strong
	b.style()
}

func (b *iconButton) style() {
	colour := theme.ColorNamePlaceHolder // our Quiet
	if b.strong || b.hovered {
		colour = theme.ColorNameForeground
	}
	b.ground.FillColor = color.Transparent
	if b.hovered {
		b.ground.FillColor = look.PaletteOf(b.Theme(), fyne.CurrentApp().Settings().ThemeVariant()).Hover
	}
	b.ground.Refresh()
	if b.drawn.icon != b.icon || b.drawn.colour != colour { // to read a picture anew takes longer than all else here
		b.drawn.icon, b.drawn.colour = b.icon, colour
		b.image.Resource = theme.NewColoredResource(b.icon, colour)
		b.image.Refresh()
	}
}

func (b *iconButton) Tapped(*fyne.PointEvent) { b.tapped() }

func (b *iconButton) MouseIn(*desktop.MouseEvent) {
	b.hovered = true
	b.style()
	b.hint(b.name())
}

func (b *iconButton) MouseMoved(*desktop.MouseEvent) {}

func (b *iconButton) MouseOut() {
	b.hovered = false
	b.style()
	b.hint("")
}

// Hide also lets go of the pointer's hover, or the button would come back lit.
func (b *iconButton) Hide() {
	b.hovered = false
	b.BaseWidget.Hide()
}

func (b *iconButton) AccessibilityLabel() string             { return b.name() }
func (b *iconButton) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (b *iconButton) CreateRenderer() fyne.WidgetRenderer { return &iconRenderer{b} }

type iconRenderer struct{ b *iconButton }

func (r *iconRenderer) Layout(s fyne.Size) {
	r.b.ground.Resize(s)
	r.b.image.Resize(fyne.NewSquareSize(iconSize))
	r.b.image.Move(fyne.NewPos((s.Width-iconSize)/2, (s.Height-iconSize)/2))
}

func (r *iconRenderer) MinSize() fyne.Size { return fyne.NewSize(iconWidth, look.Control) }

// Refresh comes with another theme too.
func (r *iconRenderer) Refresh() {
	r.b.drawn.icon = nil
	r.b.style()
}

func (r *iconRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.ground, r.b.image}
}
func (r *iconRenderer) Destroy() {}
