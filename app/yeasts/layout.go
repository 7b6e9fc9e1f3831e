package yeasts

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/app/ui/layouts"
)

const rowGap = 2

// divide is the four pictures in a row over the table, which is as high as its strains
// and the free row below them need.
func (t *strainTable) divide(size fyne.Size) []layouts.Strip {
	return []layouts.Strip{{Heights: []float32{0, t.height(size.Height)}}}
}

// height is that of the table's panel: its head and its rows, which draw in on
// a low window.
func (t *strainTable) height(place float32) float32 {
	row := min(max((place*0.47-2*12-tableHead)/mostStrains, 34), 44)
	return tableHead + float32(t.places())*(row+rowGap) + 2*12
}

// places is how many rows there is room for: one more than strains, so that
// the next one has its place; never so few that the pictures grow out of shape.
func (t *strainTable) places() int { return min(max(len(t.y.Shown)+1, 3), mostStrains) }

// tableHead is the title line and the columns' heads.
const tableHead = 34 + 30

// strainLayout is the inside of the table's panel. Heads and rows share one set of
// columns, which Fyne's table keeps to itself.
type strainLayout struct {
	t *strainTable

	wide             bool // room for units in the heads and for words in the rows
	glyphX           float32
	nameX, nameW     float32
	columnX, columnW []float32
	midW             []float32
	actionX          float32
}

func (*strainLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 200) }

// columnShare is how much of the width each outcome takes: a gravity's band is
// the longest text.
var columnShare = []float32{1.16, 1.02, 0.94, 0.88, 1.1, 0.94, 1.06}

// fit works the columns out for a width.
func (l *strainLayout) fit(size fyne.Size) {
	l.wide = size.Width > 1120
	l.glyphX = 22
	l.nameX = l.glyphX + 44 + 10
	action := float32(40)
	if l.wide {
		action = 142
	}
	l.actionX = size.Width - action
	name := float32(176)
	if l.wide {
		name = min(0.19*size.Width, 300)
	}
	l.nameW = name - 10
	total := float32(0)
	for _, s := range columnShare {
		total += s
	}
	room := l.actionX - l.nameX - name
	x := l.nameX + name
	l.columnX, l.columnW, l.midW = l.columnX[:0], l.columnW[:0], l.midW[:0]
	for c := range l.t.columns {
		w := room * columnShare[c] / total
		mid := float32(16)
		for _, r := range l.t.rows {
			if r.Visible() {
				mid = max(mid, r.cells[c].mid.MinSize().Width)
			}
		}
		l.columnX, l.columnW, l.midW = append(l.columnX, x), append(l.columnW, w), append(l.midW, mid)
		x += w
	}
}

func (l *strainLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t := l.t
	wide := l.wide
	l.fit(size)
	if wide != l.wide {
		t.show()
	}
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	x := size.Width
	for _, c := range []*ui.Choice{t.save, t.copy, t.add} {
		m := c.MinSize()
		x -= m.Width
		put(c, x, -2, m.Width, m.Height)
		x -= 10
	}
	title := t.title.MinSize()
	put(t.title, 4, 2, title.Width, title.Height)
	put(t.note, 4+title.Width+14, 4, x-title.Width-28, t.note.MinSize().Height)

	put(t.heads[0], l.nameX-ui.ChoicePad, 34, t.heads[0].MinSize().Width, 28)
	for c := range t.columns {
		put(t.heads[c+1], l.columnX[c]-ui.ChoicePad, 34, t.heads[c+1].MinSize().Width, 28)
	}
	row := (size.Height-tableHead)/float32(t.places()) - rowGap
	for i, r := range t.rows {
		put(r, 0, tableHead+float32(i)*(row+rowGap)+rowGap, size.Width, row)
	}
	free := float32(len(t.y.Shown))
	y := tableHead + free*(row+rowGap) + rowGap
	m := t.empty.MinSize()
	put(t.empty, l.nameX-ui.ChoicePad, y+(row-m.Height)/2, m.Width, m.Height)
	h := t.hint.MinSize().Height
	put(t.hint, l.nameX+m.Width, y+(row-h)/2, size.Width-l.nameX-m.Width, h)
}
