package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// yeastsPlace is the second place: up to six strains on the same wort, over
// each other in the four pictures and beside each other in a table. The strains
// are the design's own list, of which the first is the one brewed with.
type yeastsPlace struct {
	b        ui.Host
	worker   *frames.Worker[yeastsAsk, yeastsFrame]
	painter  *plotting.Painter
	pictures [calc.Outcomes]*strainPicture
	table    *strainTable
	content  fyne.CanvasObject

	looks   looks
	strains []design.Yeast // those of the design that are shown
	shown   []strainFrame  // as last computed, in the design's order
	pointed int            // the strain under the pointer; -1: none
	focused int            // the strain whose row has the keyboard; -1: none
	refused string         // why the design is; empty: it is not
}

// mostStrains is how many can be told apart in one picture.
const mostStrains = plotting.Strains

func newYeastsPlace(b ui.Host) *yeastsPlace {
	y := &yeastsPlace{b: b, painter: plotting.NewPainter(), pointed: -1, focused: -1}
	pictures := make([]fyne.CanvasObject, 0, calc.Outcomes)
	for o := range y.pictures {
		y.pictures[o] = newStrainPicture(y, calc.Outcome(o))
		pictures = append(pictures, y.pictures[o])
	}
	y.table = newStrainTable(y)
	y.content = container.New(&yeastsLayout{y.table}, append(pictures, ui.NewPanel(y.table.content, 12))...)
	l := newYeastsLive(y.painter)
	y.worker = frames.New(l.frame, func(_ yeastsAsk, f yeastsFrame) { b.Do(func() { y.show(&f) }) })
	return y
}

// Object is the place's own.
func (y *yeastsPlace) Object() fyne.CanvasObject { return y.content }

// Idle waits for the worker.
func (y *yeastsPlace) Idle() { y.worker.Idle() }

// Close ends it.
func (y *yeastsPlace) Close() { y.worker.Close() }

// Greeting says how the place is used.
func (y *yeastsPlace) Greeting() string {
	return words.T("Point at a line or a row to bring a strain out. Drag in a picture to move the mash rest.")
}

// FocusFirst gives the keyboard to the head of the table. A row would fade the
// other strains' lines before one has seen them.
func (y *yeastsPlace) FocusFirst() {
	if y.table.add.Off {
		ui.Focus(y.b, y.table.copy)
		return
	}
	ui.Focus(y.b, y.table.add)
}

// Update shows the strains that the design has.
func (y *yeastsPlace) Update() {
	d := y.b.Design()
	n := min(len(d.Yeast), mostStrains)
	resized := n != len(y.shown)
	y.looks.fit(d.Yeast[:n])
	y.strains = d.Yeast[:n]
	y.shown = y.matched(y.shown)
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
func (y *yeastsPlace) Post() { y.worker.Post(y.ask()) }

// ask is the state as it is now, for the worker.
func (y *yeastsPlace) ask() yeastsAsk {
	own := y.b.Design().Yeast
	n := min(len(own), mostStrains)
	y.looks.fit(own[:n])
	ask := yeastsAsk{
		taught: y.b.Taught(), units: y.b.Say().PlotUnits(), palette: y.b.Palette(),
		slots: slices.Clone(y.looks.slots), lit: min(y.lit(), n-1), own: own[:n],
	}
	ask.rest = y.b.Rest(&ask.taught.Design)
	for i, p := range y.pictures {
		ask.sizes[i] = p.wanted
	}
	return ask
}

// show puts a frame up.
func (y *yeastsPlace) show(f *yeastsFrame) {
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
	y.shown = y.matched(append(slices.Clone(f.strains), y.shown...))
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
func (y *yeastsPlace) refuse(why error) {
	y.refused = ui.Refused(why)
	y.b.Warn(y.refused)
	y.shown = y.matched(nil)
	for _, p := range y.pictures {
		p.clear()
	}
	y.table.show()
	y.table.note.SetText(y.refused)
}

// matched gives the strains that the design has now with what is known of them,
// so that another strain's numbers never stand beside a name.
func (y *yeastsPlace) matched(known []strainFrame) []strainFrame {
	matched := make([]strainFrame, len(y.strains))
	for i, strain := range y.strains {
		matched[i] = strainFrame{yeast: strain}
		for k := range known {
			if known[k].yeast == strain {
				matched[i] = known[k]
				break
			}
		}
	}
	return matched
}

// lit is the strain to bring out: the one pointed at, or else the one whose row
// has the keyboard.
func (y *yeastsPlace) lit() int {
	if y.pointed >= 0 {
		return y.pointed
	}
	return y.focused
}

// spoken is the strain whose values stand in the pictures' heads; nil when its
// numbers aren't there yet.
func (y *yeastsPlace) spoken() *strainFrame {
	i := max(y.lit(), 0)
	if i >= len(y.shown) || y.shown[i].curves.TemperatureC == nil {
		return nil
	}
	return &y.shown[i]
}

// point brings a strain out while the pointer is on it; -1: none.
func (y *yeastsPlace) point(i int) {
	if y.pointed == i || y.table.dropAt >= 0 { // what is dragged stays lit
		return
	}
	y.pointed = i
	y.relit()
}

// focusOn is point for the keyboard.
func (y *yeastsPlace) focusOn(i int) {
	if y.focused == i {
		return
	}
	y.focused = i
	y.relit()
}

func (y *yeastsPlace) relit() {
	y.table.relit()
	for _, p := range y.pictures {
		p.say()
	}
	y.b.Post()
}

// focusRow gives the keyboard to the row that shows strain i.
func (y *yeastsPlace) focusRow(i int) {
	for _, r := range y.table.rows {
		if r.Visible() && r.at == i {
			ui.Focus(y.b, r)
			return
		}
	}
}

// add puts a strain beside the others.
func (y *yeastsPlace) add(strain design.Yeast) bool {
	d := y.b.Design()
	if len(d.Yeast) >= mostStrains {
		y.b.Warn(y.fullText())
		return false
	}
	twin := slices.Contains(d.Yeast, strain)
	if !ui.Change(y.b, words.T("add {{.Name}}", nameOf(strain)), func(d *design.Design) { d.Yeast = append(d.Yeast, strain) }) {
		return false
	}
	if twin {
		y.b.Tell(words.T("{{.Name}} stands there twice now: its lines lie on each other until one is changed", nameOf(strain)))
	} else {
		y.b.Tell(words.T("{{.Name}} is set beside the others; the brew's own is still {{.Own}}",
			map[string]any{"Name": ui.OrUnnamed(strain.Name), "Own": ui.OrUnnamed(d.Yeast[0].Name)}))
	}
	return true
}

func (y *yeastsPlace) fullText() string {
	return words.T("Six strains are as many as can be told apart: drop one first")
}

// nameOf fills a text's {{.Name}}.
func nameOf(strain design.Yeast) map[string]any {
	return map[string]any{"Name": ui.OrUnnamed(strain.Name)}
}

// change puts other figures in a strain's place.
func (y *yeastsPlace) change(i int, strain design.Yeast) bool {
	return ui.Change(y.b, words.T("change {{.Name}}", nameOf(strain)), func(d *design.Design) {
		if i < len(d.Yeast) {
			d.Yeast[i] = strain
		}
	})
}

// drop takes a strain out. The last one stays: a brew needs a yeast.
func (y *yeastsPlace) drop(i int) {
	d := y.b.Design()
	if i >= len(d.Yeast) {
		return
	}
	if len(d.Yeast) == 1 {
		y.b.Warn(words.T("A brew needs a yeast: add another one before dropping {{.Name}}", nameOf(d.Yeast[0])))
		return
	}
	gone := d.Yeast[i]
	if !ui.Change(y.b, words.T("drop {{.Name}}", nameOf(gone)), func(d *design.Design) { d.Yeast = slices.Delete(d.Yeast, i, i+1) }) {
		return
	}
	if i == 0 {
		y.b.Tell(words.T("{{.Name}} is dropped; the brew's own is {{.Own}} now",
			map[string]any{"Name": ui.OrUnnamed(gone.Name), "Own": ui.OrUnnamed(d.Yeast[1].Name)}))
	} else {
		y.b.Tell(words.T("{{.Name}} is dropped", nameOf(gone)))
	}
	y.focusRow(min(i, len(d.Yeast)-2))
}

// move puts strain i in place j; what is put first is the brew's own.
func (y *yeastsPlace) move(i, j int) {
	d := y.b.Design()
	if i == j || i < 0 || j < 0 || i >= len(d.Yeast) || j >= min(len(d.Yeast), mostStrains) {
		return
	}
	moved := d.Yeast[i]
	name := words.T("move {{.Name}}", nameOf(moved))
	if j == 0 {
		name = words.T("brew with {{.Name}}", nameOf(moved))
	}
	// Before the edit, so that the frame it asks for brings the right one out.
	pointed, focused := y.pointed, y.focused
	y.pointed = -1
	if focused >= 0 {
		y.focused = j
	}
	if !ui.Change(y.b, name, func(d *design.Design) {
		d.Yeast = slices.Insert(slices.Delete(d.Yeast, i, i+1), j, moved)
	}) {
		y.pointed, y.focused = pointed, focused
		return
	}
	now := y.b.Design()
	if i == 0 || j == 0 {
		y.b.Tell(words.T("The brew's own is {{.Name}} now; the differences are from it", nameOf(now.Yeast[0])))
	}
	if focused >= 0 {
		y.focusRow(j)
	}
}
