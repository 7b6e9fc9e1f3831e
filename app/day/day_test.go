package day

import (
	"testing"

	"skep/app/stage"
	"skep/app/ui"
	"skep/calc/design"
)

// A day in the background works nothing out while a lever moves, and once when it
// rests; one that fills the window follows.
func TestAHiddenDayWaitsForALever(t *testing.T) {
	s := stage.New(t)
	d := New(s, NewStore(t.TempDir(), func(err error) { t.Error(err) }))
	s.OnChanged, s.OnPost = d.Update, d.CatchUp
	t.Cleanup(func() { d.Close(); s.Window().Close() })
	still := func() int {
		for {
			d.Idle()
			if s.Q.Drain() == 0 {
				break
			}
		}
		posted, _ := d.worker.Counts()
		return posted
	}
	move := func() {
		for i := range 10 {
			ui.Move(s, "rest temperature", design.LeverRest, func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 60 + float64(i) })
		}
	}
	d.Start()
	d.Leave()
	before := still()
	move()
	if now := still(); now != before {
		t.Errorf("hidden, it was asked %d times while a lever moved", now-before)
	}
	s.EndMove()
	if now := still(); now != before+1 {
		t.Errorf("hidden, it was asked %d times when the lever came to rest, expected once", now-before)
	}
	if got := d.frame.design.Mash.Rest[0].TemperatureC; got != 69 {
		t.Errorf("it shows a rest at %v °C, expected 69", got)
	}
	move()
	d.Enter()
	if now := still(); now <= before+1 {
		t.Error("shown while a lever moves, it still shows what was before")
	}
}
