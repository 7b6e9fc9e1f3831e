package packaging

import (
	"math"

	"skep/calc/carbonation"
)

// Plan is what is known of a package before any reading.
type Plan struct {
	PlannedVolumes float64 // kept CO2 and primer
	RatedVolumes   float64 // what the bottle is made for
	Keg            bool    // has a relief valve, and can be vented
	MarkPoints     float64 // of the hydrometer; 0 is MarkPoints
	Tails          []Tail  // what is slow in this beer; an ordinary strain needs none
	OriginalPlato  float64 // effective original extract
	EndSG          float64 // where the gravity is going: a forced fermentation's, else the plan's

	HoneyPastWindow     bool // honey went in, or is to go in, after the window closed
	ReadingsContradict  bool
	HoneyUnfermentedGPL float64 // fermentable extract of honey added after the height, g/L of beer
}

// Guard is what follows from a plan.
type Guard struct {
	Plan
	HeadroomPoints float64
	// Slowest is what sets the gap.
	Slowest Tail
	// EqualReadingsDays is how far apart two equal readings must lie: whole days, as
	// they are said everywhere.
	EqualReadingsDays float64
	// WorstVolumes is what such readings can have missed, in the bottle.
	WorstVolumes float64
	// HoneyUnfermentedVolumes is a bottle filled as if the honey were not there;
	// 0 without such honey.
	HoneyUnfermentedVolumes float64
	// Table is what a bottle would reach that was filled too early.
	Table  []Early
	Alarms []Alarm
}

// Early is beer packaged above its end.
type Early struct {
	PackagedSG, Volumes float64
	Over                bool // more than the bottle is made for
}

// earlyPoints are the rows of the table, points above the end.
var earlyPoints = [...]float64{0, 1, 2, 4, 6}

// kegHeadroomPoints is the gas of a keg that is worth waiting for: a volume to
// vent (ours). It does no harm, so no warning hangs on it.
const kegHeadroomPoints = 2.0

// New works the guard out.
func New(p Plan) Guard {
	if !(p.MarkPoints > 0) {
		p.MarkPoints = MarkPoints
	}
	g := Guard{Plan: p, HeadroomPoints: HeadroomPoints(p.RatedVolumes, p.PlannedVolumes)}
	if p.Keg {
		g.HeadroomPoints = kegHeadroomPoints
	}
	g.Slowest = slowest(p.Tails, g.HeadroomPoints)
	g.EqualReadingsDays = WholeDays(GapDays(p.MarkPoints, g.Slowest.HalfLifeDays, g.HeadroomPoints))
	g.WorstVolumes = p.PlannedVolumes + VolumesPerPoint*g.missed(g.EqualReadingsDays)
	if p.HoneyUnfermentedGPL > 0 {
		g.HoneyUnfermentedVolumes = p.PlannedVolumes + carbonation.VolumesFromExtract(p.HoneyUnfermentedGPL)
	}
	if p.EndSG > 0 {
		for _, above := range earlyPoints {
			sg := p.EndSG + above/1000
			v := p.PlannedVolumes + carbonation.VolumesFromExtract(carbonation.ExtractBetween(p.OriginalPlato, sg, p.EndSG))
			g.Table = append(g.Table, Early{sg, v, !p.Keg && v > p.RatedVolumes})
		}
	}
	g.alarms()
	return g
}

// missed is what two equal readings a gap apart leave possible, points: of each
// tail no more than it can take.
func (g *Guard) missed(gapDays float64) float64 {
	most := MissedPoints(g.MarkPoints, gapDays, TailOf(Ordinary).HalfLifeDays)
	for _, t := range g.Tails {
		m := MissedPoints(g.MarkPoints, gapDays, t.HalfLifeDays)
		if t.MostPoints > 0 {
			m = math.Min(m, t.MostPoints)
		}
		most = math.Max(most, m)
	}
	return most
}
