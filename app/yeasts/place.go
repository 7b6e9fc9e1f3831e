// Package yeasts is the second place: up to six strains on the same wort, over
// each other in the pictures and beside each other in a table.
//
// The design's strains go to a worker of its own; their order, and strains added
// or dropped, come out as edits. It must not know another place.
package yeasts

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
	"skep/plotting/style"
)

// Place is the second place: up to six strains on the same wort, over
// each other in the four pictures and beside each other in a table. The strains
// are the design's own list, of which the first is the one brewed with.
type Place struct {
	host     ui.Host
	worker   *frames.Worker[ask, frame]
	painter  *plotting.Painter
	pictures [calc.Outcomes]*strainPicture
	table    *strainTable
	content  fyne.CanvasObject

	looks   lineStyles
	strains []design.Yeast // those of the design that are shown
	Shown   []strainFrame  // as last computed, in the design's order
	pointed int            // the strain under the pointer; -1: none
	focused int            // the strain whose row has the keyboard; -1: none
	refused string         // why the design is; empty: it is not
}

// mostStrains is how many can be told apart in one picture.
const mostStrains = style.Strains

func New(b ui.Host) *Place {
	y := &Place{host: b, painter: plotting.NewPainter(), pointed: -1, focused: -1}
	pictures := make([]fyne.CanvasObject, 0, calc.Outcomes)
	for o := range y.pictures {
		y.pictures[o] = newStrainPicture(y, calc.Outcome(o))
		pictures = append(pictures, y.pictures[o])
	}
	y.table = newStrainTable(y)
	y.content = container.New(&layouts.Columns{Least: fyne.NewSize(960, 550), Divide: y.table.divide},
		container.New(&layouts.Even{Columns: len(pictures)}, pictures...), ui.NewPanel(y.table.content, 12))
	l := newWorker(y.painter)
	y.worker = frames.New(l.frame, func(_ ask, f frame) { b.Do(func() { y.show(&f) }) })
	return y
}

// Object is the place's own.
func (y *Place) Object() fyne.CanvasObject { return y.content }

// Idle waits for the worker.
func (y *Place) Idle() { y.worker.Idle() }

// Close ends it.
func (y *Place) Close() { y.worker.Close() }

// Greeting says how the place is used.
func (y *Place) Greeting() string {
	return words.T("Point at a line or a row to bring a strain out. Drag in a picture to move the mash rest.")
}

// FocusFirst gives the keyboard to the head of the table. A row would fade the
// other strains' lines before one has seen them.
func (y *Place) FocusFirst() {
	if y.table.add.Off {
		ui.Focus(y.host, y.table.copy)
		return
	}
	ui.Focus(y.host, y.table.add)
}

// Update shows the strains that the design has.
func (y *Place) Update() {
	d := y.host.Design()
	n := min(len(d.Yeast), mostStrains)
	resized := n != len(y.Shown)
	y.looks.fit(d.Yeast[:n])
	y.strains = d.Yeast[:n]
	y.Shown = y.matched(y.Shown)
	y.pointed, y.focused = min(y.pointed, n-1), min(y.focused, n-1)
	y.table.update(&d)
	if resized {
		y.content.Refresh()
	}
	for _, p := range y.pictures {
		p.say()
	}
}

// Post asks the worker for all strains.
func (y *Place) Post() { y.worker.Post(y.ask()) }

// ask is the state as it is now, for the worker.
func (y *Place) ask() ask {
	own := y.host.Design().Yeast
	n := min(len(own), mostStrains)
	y.looks.fit(own[:n])
	ask := ask{
		taught: y.host.Taught(), units: y.host.Say().PlotUnits(), palette: y.host.Palette(),
		slots: slices.Clone(y.looks.slots), lit: min(y.lit(), n-1), own: own[:n], reducedMotion: y.host.ReducedMotion(),
	}
	ask.rest = y.host.Rest(&ask.taught.Design)
	for i, p := range y.pictures {
		ask.sizes[i] = p.Wanted
	}
	return ask
}

// show puts a frame up.
func (y *Place) show(f *frame) {
	if !y.content.Visible() {
		return
	}
	y.refused = ""
	if f.err != nil {
		y.refuse(f.err)
		return
	}
	y.painter.Show()
	// The frame may be of before the last change of the strains.
	y.Shown = y.matched(append(slices.Clone(f.strains), y.Shown...))
	for _, p := range y.pictures {
		p.show()
	}
	y.table.show()
	if f.gliding {
		y.Post()
	}
}

// refuse takes every number away: those of another design must not stand
// beside this one's strains.
func (y *Place) refuse(why error) {
	y.refused = ui.Refused(why)
	y.Shown = y.matched(nil)
	for _, p := range y.pictures {
		p.Clear()
	}
	y.table.show()
	y.table.note.SetText(y.refused)
}

// matched gives the strains that the design has now with what is known of them,
// so that another strain's numbers never stand beside a name.
func (y *Place) matched(known []strainFrame) []strainFrame {
	matched := make([]strainFrame, len(y.strains))
	for i, strain := range y.strains {
		matched[i] = strainFrame{Yeast: strain}
		for k := range known {
			if known[k].Yeast == strain {
				matched[i] = known[k]
				break
			}
		}
	}
	return matched
}

// lit is the strain to bring out: the one pointed at, or else the one whose row
// has the keyboard.
func (y *Place) lit() int {
	if y.pointed >= 0 {
		return y.pointed
	}
	return y.focused
}

// spoken is the strain whose values stand in the pictures' heads; nil when its
// numbers aren't there yet.
func (y *Place) spoken() *strainFrame {
	i := max(y.lit(), 0)
	if i >= len(y.Shown) || y.Shown[i].curves.TemperatureC == nil {
		return nil
	}
	return &y.Shown[i]
}

// point brings a strain out while the pointer is on it; -1: none.
func (y *Place) point(i int) {
	if y.pointed == i || y.table.dropAt >= 0 { // what is dragged stays lit
		return
	}
	y.pointed = i
	y.relit()
}

// focusOn is point for the keyboard.
func (y *Place) focusOn(i int) {
	if y.focused == i {
		return
	}
	y.focused = i
	y.relit()
}

func (y *Place) relit() {
	y.table.relit()
	for _, p := range y.pictures {
		p.say()
	}
	y.host.Post()
}

// focusRow gives the keyboard to the row that shows strain i.
func (y *Place) focusRow(i int) {
	for _, r := range y.table.rows {
		if r.Visible() && r.at == i {
			ui.Focus(y.host, r)
			return
		}
	}
}

// add puts a strain beside the others.
func (y *Place) add(strain design.Yeast) bool {
	d := y.host.Design()
	if len(d.Yeast) >= mostStrains {
		y.host.Warn(y.fullText())
		return false
	}
	twin := slices.Contains(d.Yeast, strain)
	if !ui.Change(y.host, words.T("add {name}", nameOf(strain)), func(d *design.Design) { d.Yeast = append(d.Yeast, strain) }) {
		return false
	}
	if twin {
		y.host.ShowMessage(words.T("{name} stands there twice now: its lines lie on each other until one is changed", nameOf(strain)))
	} else {
		y.host.ShowMessage(words.T("{name} is set beside the others; the brew's own is still {own}",
			ui.OrUnnamed(strain.Name), ui.OrUnnamed(d.Yeast[0].Name)))
	}
	return true
}

func (y *Place) fullText() string {
	return words.T("Six strains are as many as can be told apart: drop one first")
}

func nameOf(strain design.Yeast) string { return ui.OrUnnamed(strain.Name) }

// change puts other figures in a strain's place.
func (y *Place) change(i int, strain design.Yeast) bool {
	return ui.Change(y.host, words.T("change {name}", nameOf(strain)), func(d *design.Design) {
		if i < len(d.Yeast) {
			d.Yeast[i] = strain
		}
	})
}

// drop takes a strain out. The last one stays: a brew needs a yeast.
func (y *Place) drop(i int) {
	d := y.host.Design()
	if i >= len(d.Yeast) {
		return
	}
	if len(d.Yeast) == 1 {
		y.host.Warn(words.T("A brew needs a yeast: add another one before dropping {name}", nameOf(d.Yeast[0])))
		return
	}
	gone := d.Yeast[i]
	if !ui.Change(y.host, words.T("drop {name}", nameOf(gone)), func(d *design.Design) { d.Yeast = slices.Delete(d.Yeast, i, i+1) }) {
		return
	}
	if i == 0 {
		y.host.ShowMessage(words.T("{name} is dropped; the brew's own is {own} now",
			ui.OrUnnamed(gone.Name), ui.OrUnnamed(d.Yeast[1].Name)))
	} else {
		y.host.ShowMessage(words.T("{name} is dropped", nameOf(gone)))
	}
	y.focusRow(min(i, len(d.Yeast)-2))
}

// move puts strain i in place j; what is put first is the brew's own.
func (y *Place) move(i, j int) {
	d := y.host.Design()
	if i == j || i < 0 || j < 0 || i >= len(d.Yeast) || j >= min(len(d.Yeast), mostStrains) {
		return
	}
	moved := d.Yeast[i]
	name := words.T("move {name}", nameOf(moved))
	if j == 0 {
		name = words.T("brew with {name}", nameOf(moved))
	}
	// Before the edit, so that the frame it asks for brings the right one out.
	pointed, focused := y.pointed, y.focused
	y.pointed = -1
	if focused >= 0 {
		y.focused = j
	}
	if !ui.Change(y.host, name, func(d *design.Design) {
		d.Yeast = slices.Insert(slices.Delete(d.Yeast, i, i+1), j, moved)
	}) {
		y.pointed, y.focused = pointed, focused
		return
	}
	now := y.host.Design()
	if i == 0 || j == 0 {
		y.host.ShowMessage(words.T("The brew's own is {name} now; the differences are from it", nameOf(now.Yeast[0])))
	}
	if focused >= 0 {
		y.focusRow(j)
	}
}
