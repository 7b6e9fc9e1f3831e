package brew

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"skep/calc"
	"skep/calc/quantity"
)

// beerCell is what stands in the beer's column or line under a name.
func (s *brewScene) beerCell(t *testing.T, name string) *beerCell {
	t.Helper()
	for _, c := range s.brew.beer.cells {
		if c.name.Text == name {
			return c
		}
	}
	t.Fatalf("there is no %s", name)
	return nil
}

// While grain is edited the beer beside it moves, and its numbers are the engine's
// for the design; a refused design has none.
func TestTheBeerMovesWhileGrainIsEdited(t *testing.T) {
	s := brewStage(t)
	strength := s.beerCell(t, "strength")
	before := strength.value.Text
	s.typeInto(s.field(t, "grain.0.mass_kg"), "3.4 kg")
	p, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	say := s.Say()
	if want := say.Format(quantity.Strength, p.StrengthPct.Mid); strength.value.Text == before || strength.value.Text != want {
		t.Errorf("3.4 kg of pale malt: %s, before %s, want %s", strength.value.Text, before, want)
	}
	if want := say.Number(quantity.Strength, p.StrengthPct.Low); !strings.HasPrefix(strength.band.Text, want) {
		t.Errorf("the band is %s, want from %s", strength.band.Text, want)
	}
	if got, want := s.beerCell(t, "bitterness").value.Text, say.Format(quantity.Bitterness, p.BitternessIBU.Mid); got != want {
		t.Errorf("bitterness %s, want %s", got, want)
	}
	if got, want := s.beerCell(t, "dryness").value.Text, p.DrynessWord; !strings.Contains(got, want) {
		t.Errorf("dryness %s, want %s", got, want)
	}
}

// A wide window gives the beer a column with the plane, a narrow one a line in which
// everything that is shown is whole and nothing covers another.
func TestTheBeerHasAColumnOrALine(t *testing.T) {
	s := brewStage(t)
	b := s.brew.beer
	if b.wide || b.plane.Visible() {
		t.Error("1280 wide, and the beer takes a column")
	}
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
		s.Window().Resize(size)
		s.WaitIdle()
		end := float32(0)
		shown := 0
		for _, c := range b.cells {
			if c.value.Hidden {
				continue
			}
			shown++
			if x := c.name.Position().X; x < end {
				t.Errorf("%v: %s begins at %g, before %g", size, c.name.Text, x, end)
			}
			end = c.value.Position().X + c.value.MinSize().Width
		}
		if room := b.object.Size().Width - 20; end > room+1 || shown < 7 {
			t.Errorf("%v: %d numbers end at %g of %g", size, shown, end, room)
		}
	}
	s.Window().Resize(fyne.NewSize(1920, 1080))
	s.WaitIdle()
	if !b.wide || !b.plane.Visible() || b.plane.Size().Width < 250 {
		t.Errorf("1920 wide, and the plane is %v", b.plane.Size())
	}
	steps, column := s.brew.scroll, b.object
	if right := steps.Position().X + steps.Size().Width; right > column.Position().X+16 {
		t.Errorf("the steps end at %g, the beer begins at %g", right, column.Position().X)
	}
}
