package app

import (
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/userfile"
	"skep/calc"
	"skep/calc/glasstest"
	"skep/calc/learn"
)

// texts are all that stands in a box, for the eye.
func texts(o fyne.CanvasObject) string {
	switch x := o.(type) {
	case *widget.Label:
		return x.Text + "\n"
	case *ui.Caption:
		return x.Text + "\n"
	case *ui.Button:
		return x.Text + "\n"
	case *ui.Choice:
		return x.Text + "\n"
	case *fyne.Container:
		all := ""
		for _, o := range x.Objects {
			all += texts(o)
		}
		return all
	}
	return ""
}

// A pair is poured in the order that Skep throws, asked without a name on the
// screen, kept in the person's own file, and moves what is predicted; its switch
// takes that back.
func TestAPairOfGlasses(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.OwnFolder = t.TempDir()
	if got := s.Taught().Doubts.MaltSweet; got != (calc.Score{}) {
		t.Fatalf("before any tasting: %+v", got)
	}
	before := s.Taught().Doubts
	for round := range 2 {
		s.ledger.Throw = func(int) int { return round }
		s.ledger.StartTest(false)
		x := s.ledger.Test
		if !strings.Contains(texts(x.Box), "Alcohol") {
			t.Error("no word of the alcohol")
		}
		x.Pour()
		poured := texts(x.Box)
		if x.Glasses[0] != round || !strings.Contains(poured, "Glass 1: ") {
			t.Fatalf("glasses %v\n%s", x.Glasses, poured)
		}
		x.Ask()
		for _, e := range s.ledger.Answer.Entries {
			if asked := texts(x.Box); strings.Contains(asked, e.Title) {
				t.Errorf("the taster reads %q\n%s", e.Title, asked)
			}
		}
		x.Drier, x.Fuller = glasstest.First, glasstest.Alike
		x.Keep()
		if told := texts(x.Box); !strings.Contains(told, "Left was ") || !strings.Contains(told, "Under ten pairs") {
			t.Errorf("afterwards:\n%s", told)
		}
	}
	g, err := userfile.LoadGlasses(s.OwnFolder)
	if err != nil || len(g.Pair) != 2 || g.Pair[0].Drier != "first" || g.Pair[0].Fuller != "alike" || g.Pair[0].First.Name != g.Pair[1].Second.Name {
		t.Fatalf("%+v, %v", g, err)
	}
	if p := s.Palate(); p.Pairs != 2 || p != glasstest.Hear(g.Pairs()) {
		t.Errorf("%+v", p)
	}
	if got := s.Taught().Doubts; got.MaltSweet.SD == 0 || got.MaltSweet == before.MaltSweet {
		t.Errorf("predicted with %+v", got)
	}
	s.UseLesson(learn.GlassTest, false)
	if got := s.Taught().Doubts; got.MaltSweet != (calc.Score{}) {
		t.Errorf("switched off: %+v", got)
	}
}

// Of three glasses the odd one is thrown too, and only whether it was found is kept;
// a bought beer needs its two gravities, and one that can't be is refused.
func TestThreeGlassesAndABoughtBeer(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.OwnFolder = t.TempDir()
	throws := []int{1, 2, 0, 0}
	s.ledger.Throw = func(n int) int {
		v := throws[0]
		throws = throws[1:]
		if v >= n {
			t.Fatalf("%d of %d", v, n)
		}
		return v
	}
	s.ledger.StartTest(true)
	x := s.ledger.Test
	x.Choose(1, "Plain bitter", "1.040", "1.039")
	x.Pour()
	if x.Glasses != nil {
		t.Fatal("a beer that hardly fermented is poured")
	}
	x.Choose(1, "Plain bitter", "1.040", "1.010")
	x.Pour()
	if len(x.Glasses) != 3 || x.Glasses[2] != 1 || x.Glasses[0] != 0 || x.Glasses[1] != 0 {
		t.Fatalf("glasses %v", x.Glasses)
	}
	x.Ask()
	x.Odd(0)
	x.Again()
	x.Ask()
	x.Odd(0)
	g, err := userfile.LoadGlasses(s.OwnFolder)
	if err != nil || len(g.Triangle) != 2 || g.Triangle[0].Right || !g.Triangle[1].Right {
		t.Fatalf("%+v, %v", g, err)
	}
	if src, _ := os.ReadFile(userfile.GlassesIn(s.OwnFolder)); !strings.Contains(string(src), "Plain bitter") {
		t.Errorf("%s", src)
	}
	if all := texts(s.ledger.Lessons.Objects[1].(*ui.Panel).Content); !strings.Contains(all, "in 1 of 2") {
		t.Errorf("the panel says\n%s", all)
	}
}
