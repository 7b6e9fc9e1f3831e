package calc_test

import (
	"math"
	"sync"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
)

// The window by the hydrometer is what the course of each draw shows at its own hours of
// the window, and honey that goes in later does not move it.
func TestWindowByTheHydrometer(t *testing.T) {
	t.Parallel()
	with := demotest.Design(t, "middle")
	without := with.Clone()
	without.Honey = nil
	var lock sync.Mutex
	worst := 0.0
	e := calc.NewEngine()
	bare, _, err := e.PredictCourse(without, 0, 24, func(_ int, x *calc.Draw) {
		lock.Lock()
		defer lock.Unlock()
		for k, hours := range x.Window {
			worst = max(worst, math.Abs(x.GravityAt(hours)-x.WindowSG[k]))
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if !(worst < 1e-6) {
		t.Errorf("a draw's course is %.2g SG off its window's gravity", worst)
	}
	honeyed, err := e.Predict(with)
	if err != nil {
		t.Fatal(err)
	}
	for k, b := range honeyed.HoneyWindowSG {
		if math.Abs(b.Mid-bare.HoneyWindowSG[k].Mid) > 1e-4 || !(b.Low < b.Mid && b.Mid < b.High) {
			t.Errorf("with late honey the window's gravity is %v, without %v", b, bare.HoneyWindowSG[k])
		}
	}
	if !(honeyed.HoneyWindowSG[0].Mid > honeyed.HoneyWindowSG[1].Mid+0.003) {
		t.Errorf("the window opens at %.4f and closes at %.4f", honeyed.HoneyWindowSG[0].Mid, honeyed.HoneyWindowSG[1].Mid)
	}
}
