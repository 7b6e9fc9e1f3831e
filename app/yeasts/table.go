package yeasts

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/compare"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
)

// sortByName is the column of the strains' names; unsorted is the brew's own
// order, the only one in which rows can be moved.
const (
	unsorted   = -2
	sortByName = -1
)

// strainTable is the plain numbers: a row for each strain, a column for each
// outcome, sorted as one likes. Rows of Fyne's table can't be dragged, nor hold controls
// that are Tab stops.
type strainTable struct {
	y       *Place
	columns []compare.Column

	title, note *ui.Caption
	add         *ui.Choice
	copy, save  *ui.Choice
	heads       []*ui.Choice // the name's, then the columns'
	rows        []*strainRow
	empty       *ui.Choice
	hint        *ui.Caption
	line        ui.DropLine
	content     *fyne.Container
	geometry    *strainLayout

	sortBy     int
	descending bool
	dropAt     int // where the line stands; -1: nothing is dragged
}

func newStrainTable(y *Place) *strainTable {
	b := y.host
	t := &strainTable{y: y, columns: compare.Columns(), sortBy: unsorted, dropAt: -1}
	t.title = ui.NewCaption(words.T("On the same wort"), look.TitleSize, true, ui.InkFull)
	t.note = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	t.note.Yields = true
	tool := func(text, hint string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.Hint, c.OnHint = ui.InkAccent, hint, b.Hint
		return c
	}
	t.add = tool(words.T("Add a strain…"), words.T("Set a strain of the catalogue, or one of your own, beside these"), y.openPicker)
	t.copy = tool(words.T("Copy as text"), words.T("Copy the table as plain text, in your units"), y.copyText)
	t.save = tool(words.T("Save as CSV…"), words.T("Write every number with its band to a file that a spreadsheet opens"), y.saveCSV)

	head := func(column int) {
		c := ui.NewChoice("", false, func() { t.sort(column) })
		c.OnHint = b.Hint
		t.heads = append(t.heads, c)
	}
	head(sortByName)
	for i := range t.columns {
		head(i)
	}
	for range mostStrains {
		t.rows = append(t.rows, newStrainRow(t))
	}
	t.empty = tool(words.T("Add a strain…"), t.add.Hint, y.openPicker)
	t.empty.Name = words.T("the next row is free")
	t.hint = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	t.hint.Yields = true
	t.line = ui.NewDropLine()

	objects := []fyne.CanvasObject{t.title, t.note, t.add, t.copy, t.save}
	for _, h := range t.heads {
		objects = append(objects, h)
	}
	for _, r := range t.rows {
		objects = append(objects, r)
	}
	objects = append(objects, t.empty, t.hint, t.line.Rectangle)
	t.geometry = &strainLayout{t: t}
	t.content = container.New(t.geometry, objects...)
	t.showHeads()
	return t
}

// update shows which strains there are; their numbers come with show.
func (t *strainTable) update(d *design.Design) {
	n := len(t.y.Shown)
	mashed := t.y.host.Conditioned().Design.Mash.Rest // as measured, where it was
	rest := words.T("mash rest {temperature}", t.y.host.Say().Format(quantity.Temperature, mashed[t.y.host.Rest(d)].TemperatureC))
	note := words.T("{rest}: middle, difference from the brew's own (in brackets: none to be sure of), and 10 to 90 %", rest)
	short := words.T("{rest}: middle, difference, 10 to 90 %", rest)
	if more := len(d.Yeast) - n; more > 0 {
		note = words.N("{count} more in the file, not shown: drop one to see it", "{count} more in the file, not shown: drop one to see it", more)
		short = ""
	}
	t.note.SetTexts(note, short)
	t.add.SetOff(n >= mostStrains)
	t.empty.Hidden = n >= mostStrains
	t.hint.Hidden = t.empty.Hidden
	switch {
	case n == 1:
		t.hint.SetText(words.T("to set beside {name}: the same wort, another yeast", nameOf(d.Yeast[0])))
	default:
		t.hint.SetText(words.N("room for {count} more", "room for {count} more", mostStrains-n))
	}
	t.show()
}

// show fills the rows in the order of the sorting.
func (t *strainTable) show() {
	order := t.order()
	for place, r := range t.rows {
		if place >= len(order) {
			r.Hide()
			continue
		}
		r.show(order[place])
		r.Show()
	}
	t.showHeads()
	t.geometry.fit(t.content.Size())
	t.content.Refresh()
}

func (t *strainTable) relit() {
	for _, r := range t.rows {
		r.Refresh()
	}
}

// order is the strains' places in the design, as they are shown.
func (t *strainTable) order() []int {
	shown := t.y.Shown
	order := make([]int, len(shown))
	for i := range order {
		order[i] = i
	}
	if t.sortBy == unsorted {
		return order
	}
	slices.SortStableFunc(order, func(i, j int) int {
		var c int
		if t.sortBy == sortByName {
			c = cmp.Compare(strings.ToLower(shown[i].Yeast.Name), strings.ToLower(shown[j].Yeast.Name))
		} else {
			of := t.columns[t.sortBy].Of
			c = cmp.Compare(of(&shown[i].Prediction).Mid, of(&shown[j].Prediction).Mid)
		}
		if t.descending {
			return -c
		}
		return c
	})
	return order
}

// sort goes from rising to falling and back to the brew's own order.
func (t *strainTable) sort(column int) {
	switch {
	case t.sortBy != column:
		t.sortBy, t.descending = column, false
	case !t.descending:
		t.descending = true
	default:
		t.sortBy, t.descending = unsorted, false
	}
	t.show()
	h := t.heads[column+1]
	t.y.host.Hint(h.Hint)
}

func (t *strainTable) showHeads() {
	for i, h := range t.heads {
		column := i - 1
		name := words.T("strain")
		h.Text = name
		if column >= 0 {
			name = words.Print(t.columns[column].Name)
			h.Text = name
			if t.geometry.wide {
				h.Text = t.columns[column].Heading(t.y.host.Say().Formatter)
			}
		}
		h.Icon, h.Ink, h.Bold = nil, ui.InkQuiet, false
		h.Hint = words.T("Sort by {name}, lowest first", name)
		h.Name = words.T("sort by")
		if t.sortBy == column {
			h.Icon, h.Ink, h.Bold = look.IconUp(), ui.InkFull, true
			h.Hint = words.T("Sorted by {name}; press again for the highest first", name)
			if t.descending {
				h.Icon = look.IconDown()
				h.Hint = words.T("Sorted by {name}; press again for the brew's own order, in which strains can be moved", name)
			}
		}
		h.Refresh()
	}
}

// cell is one outcome of strain i.
func (t *strainTable) cell(c compare.Column, i int) compare.Cell {
	s := &t.y.Shown[i]
	if s.curves.TemperatureC == nil {
		if t.y.refused != "" {
			return compare.Cell{Mid: ui.NoNumber}
		}
		return compare.Cell{Mid: "…"}
	}
	var own *calc.Prediction
	if i > 0 && t.y.Shown[0].curves.TemperatureC != nil {
		own = &t.y.Shown[0].Prediction
	}
	return compare.CellOf(t.y.host.Say().Formatter, c, &s.Prediction, own, s.Difference)
}

// dragTo shows where the dragged row would go: before the row at a height, or
// after the last.
func (t *strainTable) dragTo(y float32) {
	n := len(t.y.Shown)
	top, height := t.rows[0].Position().Y, t.rows[0].Size().Height+rowGap
	at := int((y-top)/height + 0.5)
	t.dropAt = min(max(at, 0), n)
	t.line.Show(0, top+float32(t.dropAt)*height-rowGap/2, t.content.Size().Width, ui.PaletteOf(t.content.Objects[0].(*ui.Caption).Theme()).Accent)
}

// dragEnd puts strain i where the line stood.
func (t *strainTable) dragEnd(i int) {
	at := t.dropAt
	t.dropAt = -1
	t.line.Clear()
	if at > i {
		at-- // the row itself goes away from above
	}
	if at >= 0 {
		t.y.move(i, at)
	}
}
