package app

import (
	"testing"

	"skep/calc"
	"skep/plotting"
)

// What the ledger teaches is true of the state kept beside the design as well.
func TestTheGhostHearsTheLessons(t *testing.T) {
	s := newStage(t, "")
	v := s.taste.ask()
	if v.ghost == nil {
		t.Fatal("the demonstration keeps no earlier state")
	}
	l := newTasteLive(plotting.NewPainter())
	plain := l.frame(v)
	v.taught.Doubts = calc.Doubts{MaltSD: 1}
	taught := l.frame(v)
	if plain.err != nil || taught.err != nil {
		t.Fatal(plain.err, taught.err)
	}
	fresh := newTasteLive(plotting.NewPainter()).frame(v)
	if got, want := taught.ghost.FinalGravitySG, fresh.ghost.FinalGravitySG; got != want {
		t.Errorf("the earlier state ends at %v after the lessons, a new window says %v", got, want)
	}
	if got, was := taught.ghost.FinalGravitySG, plain.ghost.FinalGravitySG; !(got.High-got.Low < was.High-was.Low) {
		t.Errorf("a surer malt left the band of the earlier state at %v, from %v", got, was)
	}
}
