package table

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/stage"
	"skep/calc/design"
)

// Seen at 800x600: the heading of a column that is left out stood under the next one's.
func TestAColumnThatIsLeftOutHasNoHeading(t *testing.T) {
	s := stage.New(t)
	p := &Parts{Host: s, Reveal: func(fyne.CanvasObject) {}, Relayout: func() {}}
	column := func(key string) Column {
		return p.Typed(key, key, 70, func(r *Row) string { return fmt.Sprintf("grain.%d.%s", r.At, key) })
	}
	moisture := column("moisture_pct")
	moisture.Wide = true
	table := p.Table("Grain", "", column("mass_kg"), moisture, column("colour_ebc"))
	table.Which = func(d *design.Design) []int { return []int{0} }
	table.Name = func(*design.Design, int) string { return "malt" }
	d := s.Design()
	table.Sync(&d)
	for _, width := range []float32{700, 180, 700} {
		table.Lay(0, 0, width)
		for i, w := range table.widths(width) {
			if hidden := table.heads[i].Hidden; hidden != (w == 0) || hidden == table.Rows[0].Controls[i].Visible() {
				t.Errorf("at %v: %s is %v wide, its heading hidden: %v", width, table.columns[i].Head, w, hidden)
			}
		}
	}
	if table.widths(180)[1] != 0 {
		t.Fatal("no column is left out: the test tests nothing")
	}
}
