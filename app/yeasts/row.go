package yeasts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/compare"
	"skep/app/lever"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
)

// strainRow is one strain of the table. It is dragged to another place, takes
// the keyboard, and lights up its line in the pictures.
type strainRow struct {
	widget.BaseWidget
	t  *strainTable
	at int // which strain of the design

	glyph     *glyph
	name, sub *ui.Caption
	cells     []strainCell
	own       *ui.Choice // makes it the brew's own
	more      *ui.Choice

	dragging bool
	shift    bool
}

type strainCell struct {
	mid, difference, band *ui.Caption
	of                    compare.Cell
}

// differenceInk brings out what is real: a difference to be sure of is in full ink
// and bold, one that nobody can be sure of recedes.
func differenceInk(c compare.Cell) ui.Ink {
	if c.Unsure {
		return ui.InkQuiet
	}
	return ui.InkFull
}

func newStrainRow(t *strainTable) *strainRow {
	r := &strainRow{t: t, glyph: newGlyph(t.y.host)}
	r.name = ui.NewCaption("", look.TextSize, true, ui.InkFull)
	r.sub = ui.NewCaption("", look.CaptionSize-1, false, ui.InkQuiet)
	r.name.Yields, r.sub.Yields = true, true
	for range t.columns {
		c := strainCell{
			mid:        ui.NewCaption("", look.CaptionSize+1, true, ui.InkFull),
			difference: ui.NewCaption("", look.CaptionSize, false, ui.InkFull),
			band:       ui.NewCaption("", look.CaptionSize-1, false, ui.InkQuiet),
		}
		c.difference.Yields, c.band.Yields = true, true
		r.cells = append(r.cells, c)
	}
	hint := func(text string) {
		if text != "" { // the pointer is on the choice and so on the row
			r.t.y.point(r.at)
		}
		r.t.y.host.Hint(text)
	}
	r.own = ui.NewChoice(words.T("brew with it"), false, r.makeOwn)
	r.own.OnHint = hint
	r.more = ui.NewChoice("", false, r.menu)
	r.more.Icon, r.more.OnHint, r.more.Name = look.IconMore(), hint, words.T("what to do with this strain")
	r.ExtendBaseWidget(r)
	return r
}

// show fills the row with strain i of the design.
func (r *strainRow) show(i int) {
	y := r.t.y
	s := &y.Shown[i]
	r.at = i
	r.glyph.setSlot(y.looks.slots[i])
	r.name.SetText(ui.OrUnnamed(s.Yeast.Name))
	sub := []string{strainFigures(y.host, &s.Yeast)}
	switch {
	case i == 0 && !r.t.geometry.wide: // no room for the words at the row's end
		sub = append(sub, words.T("the brew's own"))
	case s.Yeast.EatsDextrin:
		sub = append(sub, words.T("eats dextrin"))
	}
	r.sub.SetTexts(strings.Join(sub, ", "), sub[0])
	for c := range r.cells {
		cell := r.t.cell(r.t.columns[c], i)
		r.cells[c].mid.SetText(cell.Mid)
		shown := r.cells[c].difference
		shown.Text, shown.Ink, shown.Bold = cell.Shown(), differenceInk(cell), cell.Sure
		shown.Refresh()
		r.cells[c].of = cell
		band := ""
		if cell.Low != "" {
			band = words.T("{low} to {high}", cell.Low, cell.High)
		}
		r.cells[c].band.SetText(band)
	}
	name := nameOf(s.Yeast)
	r.own.Off = i == 0
	r.own.Text, r.own.Ink = words.T("brew with it"), ui.InkAccent
	r.own.Name = ui.OrUnnamed(s.Yeast.Name)
	r.own.Hint = words.T("Make {name} the brew's own: it goes first, and the Taste place follows it", name)
	if i == 0 {
		r.own.Text = words.T("the brew's own")
		r.own.Hint = words.T("{name} is what is brewed with; the others are set against it", name)
	}
	r.own.Refresh()
	r.more.Name = words.T("what to do with {name}", name)
	r.more.Hint = words.T("Move, change or drop {name}", name)
	r.Refresh()
}

func (r *strainRow) makeOwn() {
	if r.at > 0 {
		r.t.y.move(r.at, 0)
	}
}

// menu is all that can be done with the strain, for who does not drag.
func (r *strainRow) menu() {
	y := r.t.y
	n := len(y.Shown)
	item := func(text string, off bool, do func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(text, do)
		m.Disabled = off
		return m
	}
	sorted := r.t.sortBy != unsorted
	i := r.at
	ui.PopUp(y.host, r.more,
		item(words.T("Brew with it"), i == 0, func() { y.move(i, 0) }),
		item(words.T("Change its figures…"), false, func() { y.OpenForm(i) }),
		fyne.NewMenuItemSeparator(),
		item(words.T("Move up"), sorted || i == 0, func() { y.move(i, i-1) }),
		item(words.T("Move down"), sorted || i == n-1, func() { y.move(i, i+1) }),
		fyne.NewMenuItemSeparator(),
		item(words.T("Keep among your own"), false, func() { y.keepOwn(y.Shown[i].Yeast) }),
		item(words.T("Drop"), n == 1, func() { y.drop(i) }))
}

var (
	_ fyne.Focusable    = (*strainRow)(nil)
	_ fyne.Draggable    = (*strainRow)(nil)
	_ fyne.Tappable     = (*strainRow)(nil)
	_ desktop.Hoverable = (*strainRow)(nil)
	_ desktop.Keyable   = (*strainRow)(nil)
	_ fyne.Accessible   = (*strainRow)(nil)
)

func (r *strainRow) Tapped(*fyne.PointEvent) { r.t.y.focusRow(r.at) }

func (r *strainRow) MouseIn(*desktop.MouseEvent) {
	r.t.y.point(r.at)
	r.t.y.host.Hint(r.hint())
}
func (r *strainRow) MouseMoved(*desktop.MouseEvent) {}
func (r *strainRow) MouseOut() {
	r.t.y.point(-1)
	r.t.y.host.Hint("")
}

func (r *strainRow) hint() string {
	if s := &r.t.y.Shown[r.at]; s.Difference != nil {
		return words.T("{name} beside {own}: {differences}.", nameOf(s.Yeast), nameOf(r.t.y.Shown[0].Yeast), r.t.y.host.Say().Differences(s.Difference.Four()))
	}
	if r.t.sortBy != unsorted {
		return words.T("Enter brews with it, Delete drops it. Rows can be moved in the brew's own order only.")
	}
	return words.T("Drag the row to another place, or use Shift and the arrow keys. Enter brews with it, Delete drops it.")
}

func (r *strainRow) FocusGained() {
	r.t.y.focusOn(r.at)
	r.t.y.host.Hint(r.hint())
	r.Refresh()
}

func (r *strainRow) FocusLost() {
	r.shift = false
	r.t.y.focusOn(-1)
	r.t.y.host.Hint("")
	r.Refresh()
}
func (r *strainRow) TypedRune(rune) {}

// focusedNow says whether the row has the keyboard.
func (r *strainRow) focusedNow() bool {
	return r.t.y.host.Window().Canvas().Focused() == fyne.Focusable(r)
}

func (r *strainRow) TypedKey(k *fyne.KeyEvent) {
	y := r.t.y
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		r.makeOwn()
	case fyne.KeyDelete, fyne.KeyBackspace:
		y.drop(r.at)
	case fyne.KeyUp:
		r.step(-1)
	case fyne.KeyDown:
		r.step(1)
	case fyne.KeyHome:
		r.t.focusPlace(0)
	case fyne.KeyEnd:
		r.t.focusPlace(len(y.Shown) - 1)
	default:
		lever.PassKey(r, k)
	}
}

// KeyDown and KeyUp follow Shift.
func (r *strainRow) KeyDown(k *fyne.KeyEvent) { r.shifts(k, true) }
func (r *strainRow) KeyUp(k *fyne.KeyEvent)   { r.shifts(k, false) }

func (r *strainRow) shifts(k *fyne.KeyEvent, down bool) {
	if k.Name == desktop.KeyShiftLeft || k.Name == desktop.KeyShiftRight {
		r.shift = down
	}
}

// shifted asks the driver too: Shift may have gone down while another row had
// the focus.
func (r *strainRow) shifted() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return r.shift || ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}

// step goes to the next row, or takes this one along with Shift.
func (r *strainRow) step(by int) {
	if r.shifted() {
		r.carry(by)
		return
	}
	for place, other := range r.t.rows {
		if other == r {
			r.t.focusPlace(place + by)
			return
		}
	}
}

// carry moves the strain itself.
func (r *strainRow) carry(by int) {
	if r.t.sortBy != unsorted {
		r.t.y.host.Warn(words.T("The table is sorted: press the column's head until the brew's own order is back, then strains can be moved"))
		return
	}
	r.t.y.move(r.at, r.at+by)
}

// focusPlace gives the keyboard to the row in a place of the table.
func (t *strainTable) focusPlace(place int) {
	if place >= 0 && place < len(t.y.Shown) {
		t.y.host.Window().Canvas().Focus(t.rows[place])
	}
}

func (r *strainRow) Dragged(e *fyne.DragEvent) {
	if r.t.sortBy != unsorted {
		if !r.dragging {
			r.dragging = true
			r.carry(0)
		}
		return
	}
	if !r.dragging {
		r.dragging = true
		r.t.y.point(r.at) // by now the pointer may be on another row
	}
	r.t.dragTo(r.Position().Y + e.Position.Y)
	r.Refresh()
}

func (r *strainRow) DragEnd() {
	if !r.dragging {
		return
	}
	r.dragging = false
	if r.t.sortBy == unsorted {
		r.t.dragEnd(r.at)
	}
	r.Refresh()
}

func (r *strainRow) AccessibilityLabel() string {
	parts := []string{r.name.Text, r.sub.Text}
	for c, cell := range r.cells {
		text := r.t.columns[c].Heading(r.t.y.host.Say().Formatter) + " " + cell.mid.Text
		if cell.band.Text != "" {
			text += " (" + cell.band.Text + ")"
		}
		switch d := cell.of.Difference; {
		case cell.of.Unsure:
			text += ", " + words.T("difference {difference}, none to be sure of", d)
		case d != "":
			text += ", " + words.T("difference {difference}", d)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}
func (r *strainRow) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }
