package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// In a table that is too narrow for some of its texts all are set in one size, and all
// that have a shorter form in the same of the two.
func TestATableHasOneSize(t *testing.T) {
	test.NewApp()
	g := &Grid{Columns: 3, Shares: []float32{0.22, 0.33, 0.45}}
	g.Set([][]string{
		{"", "as planned", "now"},
		{"original", "1.039–1.042", "1.041 (1.041–1.042)\t1.041–1.042"},
		{"body", "24–46", "37 (29–44)\t29–44"},
	})
	box := NewColumn(&gridPart{g})
	w := test.NewWindow(box.Object())
	for _, width := range []float32{320, 270, 235, 222, 205} {
		w.Resize(fyne.NewSize(width+40, 300))
		g.Lay(0, 0, width)
		sizes, forms := map[float32]bool{}, map[bool]bool{}
		for i, c := range g.cells[:g.n] {
			drawn := test.WidgetRenderer(c).Objects()[0].(*canvas.Text)
			if drawn.Text != "" {
				sizes[drawn.TextSize] = true
			}
			if c.Short != "" {
				forms[drawn.Text == g.long[i]] = true
			}
		}
		if len(sizes) != 1 || len(forms) != 1 {
			t.Errorf("%v wide: sizes %v, whole or short %v", width, sizes, forms)
		}
	}
}

// gridPart is a table in a column.
type gridPart struct{ *Grid }
