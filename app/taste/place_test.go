package taste

import (
	"testing"

	"skep/app/stage"
	"skep/calc"
	"skep/plotting"
)

// What the ledger teaches is true of the state kept beside the design as well.
func TestTheGhostHearsTheLessons(t *testing.T) {
	s := tasteStage(t)
	v := s.taste.ask()
	if v.ghost == nil {
		t.Fatal("the demonstration keeps no earlier state")
	}
	l := newWorker(plotting.NewPainter())
	plain := l.frame(v)
	v.taught.Doubts = calc.Doubts{MaltSD: 1}
	taught := l.frame(v)
	if plain.err != nil || taught.err != nil {
		t.Fatal(plain.err, taught.err)
	}
	fresh := newWorker(plotting.NewPainter()).frame(v)
	if got, want := taught.Ghost.FinalGravitySG, fresh.Ghost.FinalGravitySG; got != want {
		t.Errorf("the earlier state ends at %v after the lessons, a new window says %v", got, want)
	}
	if got, was := taught.Ghost.FinalGravitySG, plain.Ghost.FinalGravitySG; !(got.High-got.Low < was.High-was.Low) {
		t.Errorf("a surer malt left the band of the earlier state at %v, from %v", got, was)
	}
}

// tasteScene is the Taste place on a stage.
type tasteScene struct {
	*stage.Stage
	taste *Place
}

func tasteStage(t testing.TB) *tasteScene {
	t.Helper()
	s := &tasteScene{Stage: stage.New(t)}
	s.taste = New(s)
	s.Put(t, s.taste)
	return s
}
