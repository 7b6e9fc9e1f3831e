package ferment

import (
	"testing"

	"skep/calc/doubt"
)

// Sugar that goes slowly ends where all of it ends, and at the end all that is left is
// of it: it falls by half in the time that dextrin's rate has, 69 h at 20 °C.
func TestSlowSugar(t *testing.T) {
	t.Parallel()
	p := Pitched{Fermentable: neutralAle.Fermented(wort12), TemperatureC: 20, LagHours: 8, RateFactor: 1}
	var plain, slow Walk
	plain.Run(p, nil)
	p.Slow = 0.1
	slow.Run(p, nil)
	near(t, "all of it", slow.AllGPerL(), plain.AllGPerL(), 1e-9)
	near(t, "left after two months", slow.At(1500).LeftGPerL, 0, 0.001)
	near(t, "half of it", slow.At(300+69.3).LeftGPerL/slow.At(300).LeftGPerL, 0.5, 0.01)
	if slow.FinishedHours < plain.FinishedHours+24 || slow.Window[1] < plain.Window[1] {
		t.Errorf("finished at %.0f h, the window shuts at %.0f; without %.0f and %.0f", slow.FinishedHours, slow.Window[1], plain.FinishedHours, plain.Window[1])
	}
}

// With little air the yeast grows less, and the same sugar takes longer: pitch and
// oxygen both raise the rate (Boulton & Quain, as design notes 2b have it, second hand).
func TestLittleAir(t *testing.T) {
	t.Parallel()
	p := Pitched{Fermentable: neutralAle.Fermented(wort12), TemperatureC: 20, LagHours: 8, RateFactor: 1}
	var usual, little Walk
	usual.Run(p, nil)
	p.Air = AirFactor(doubt.Z90)
	little.Run(p, nil)
	near(t, "2 mg/L over 8", p.Air, 2/UsualOxygenMgPerL, 1e-9)
	if !(little.FinishedHours > usual.FinishedHours && little.At(80).YeastShare < usual.At(80).YeastShare) {
		t.Errorf("with little air finished at %.0f h, %.1f times the yeast; usually %.0f and %.1f", little.FinishedHours, little.At(80).YeastShare, usual.FinishedHours, usual.At(80).YeastShare)
	}
	near(t, "a plan has the usual air", AirFactor(-doubt.Asked), 1, 0)
	near(t, "and no slow sugar", SlowShare(-doubt.Asked), 0, 0)
	near(t, "in the middle 7 mg/L", AirFactor(0), 7/UsualOxygenMgPerL, 0.01)
}
