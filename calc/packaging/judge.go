package packaging

import "math"

// Verdict is what the numbers say of closing the package. None says that it is
// safe.
type Verdict string

// The verdicts.
const (
	Wait   Verdict = "wait"   // not enough is known, or it is not over
	Within Verdict = "within" // nothing here speaks against it
	Over   Verdict = "over"   // the plan alone is more than the bottle is made for
)

// Reason is why.
type Reason string

// The reasons.
const (
	NoReading Reason = "no-reading" // no warm reading since the last change
	AboveBand Reason = "above-band" // above where it should end, and falling or not known to stand
	Stalled   Reason = "stalled"    // above where it should end, and equal
	UpperEnd  Reason = "upper-end"  // equal in the upper tail of where it should end: done or stalled, and only a forced fermentation tells
	OneOnly   Reason = "one-only"   // nothing to compare the last reading with
	Falling   Reason = "falling"    // more than a mark over the gap
	TooSoon   Reason = "too-soon"   // equal, but not so far apart as this beer needs
	TooRough  Reason = "too-rough"  // far enough apart, but what they can have missed does not fit
	PlanOver  Reason = "plan-over"  // planned volumes exceed the rating
	Equal     Reason = "equal"      // by equal readings
	ByForced  Reason = "forced"     // by a forced fermentation and equal readings
)

// Reading is a gravity of the beer since its last change, by one instrument.
type Reading struct {
	Days float64 // since pitching
	SG   float64
	SD   float64 // of the reading alone, SG; 0 is half a mark
	Warm bool    // the beer was at fermenting temperature
}

// Band is where the gravity is expected to end, SG, 10th and 90th percentile.
type Band struct{ Low, High float64 }

// beyond stretches a band's upper half from its 90th percentile to its 97.5th.
const beyond = 1.96 / 1.2815515655446004

// warmLeastC is the least temperature at which a reading of top-fermented beer
// counts; strains meant for less are warm at two degrees under their own (ours,
// from the rule in the package comment).
const warmLeastC, warmUnderC = 15.0, 2.0

// WarmC is the least temperature of the beer at which a reading counts, for a
// strain fermented at a temperature.
func WarmC(fermentedAtC float64) float64 { return math.Min(warmLeastC, fermentedAtC-warmUnderC) }

// strayMarks: the last reading alone, so many marks at most off those that stood
// still before it, does not undo what they said: a mark, and half a mark of reading
// (ours). A second one does.
const strayMarks = 1.5

// Judgement is what readings say.
type Judgement struct {
	Verdict Verdict
	Reason  Reason
	SG      float64 // the last reading that counts; the mean of those over two days where it stands
	GapDays float64 // between the equal readings; 0 where there are none
	// First and Last are the equal readings' places among those given; -1.
	First, Last  int
	NeedDays     float64 // the gap that was asked for
	LeftPoints   float64 // what may still be to come, as far as equal readings or a forced test bound it
	WorstVolumes float64
	// Stands: equal over two days at least, whatever the level.
	Stands bool
	// Ended: it stands where it should end; where something slow is in the beer, only
	// what is within. In the upper tail of the band no waiting tells the end from a
	// stall, only a forced fermentation.
	Ended bool
}

// Judge holds readings against the plan. Cold readings are left out. The
// readings are in order of time; forced is nil where no such test was made.
func (g *Guard) Judge(readings []Reading, expected Band, forced *Forced) Judgement {
	j := g.read(readings, expected, forced)
	if !j.Stands && j.Last > 0 {
		// The bottle waits for another reading; that the beer stands is not unsaid.
		before := g.read(readings[:j.Last], expected, forced)
		off := math.Abs(readings[j.Last].SG - before.SG)
		if before.Stands && off <= strayMarks*g.MarkPoints/1000+1e-9 {
			before.Verdict = Wait
			if before.Reason == Equal || before.Reason == ByForced {
				before.Reason = Falling
			}
			j = before
		}
	}
	if !g.Keg && g.HeadroomPoints < 0 {
		j.Verdict, j.Reason = Over, PlanOver
	}
	return j
}

func (g *Guard) read(readings []Reading, expected Band, forced *Forced) Judgement {
	j := Judgement{Verdict: Wait, Reason: NoReading, First: -1, Last: -1, NeedDays: g.EqualReadingsDays, LeftPoints: math.Inf(1), WorstVolumes: math.Inf(1)}
	warm := make([]int, 0, len(readings))
	for i := range readings {
		if readings[i].Warm {
			warm = append(warm, i)
		}
	}
	if len(warm) == 0 {
		return j
	}
	tails := append([]Tail{TailOf(Ordinary)}, g.Tails...)
	if forced != nil {
		tails = forced.untold(tails)
		j.NeedDays = WholeDays(GapDays(g.MarkPoints, slowest(tails, g.HeadroomPoints).HalfLifeDays, g.HeadroomPoints))
		expected = Band{forced.EndSG - ForcedSDPoints/1000, forced.EndSG + ForcedSDPoints/1000}
	}
	s := stretch{readings, warm}
	j.Last = warm[len(warm)-1]
	short := s.since(leastGapDays)
	j.Stands = short >= 0 && s.fall(short) <= g.MarkPoints+1e-9
	j.SG = readings[j.Last].SG
	if j.Stands {
		j.SG = s.mean(short)
	}
	half := g.MarkPoints / 2000
	middle := (expected.Low + expected.High) / 2
	most := middle + beyond*(expected.High-middle)
	long := s.since(j.NeedDays)
	first := short
	fell := long >= 0 && s.fall(long) > g.MarkPoints+1e-9 // over the gap that was asked for
	if j.Stands && long >= 0 && !fell {
		first = long
	}
	if first >= 0 {
		j.First = warm[first]
		j.GapDays = readings[j.Last].Days - readings[j.First].Days
	}
	switch above := j.SG > most+half; {
	case above && j.Stands:
		j.Reason = Stalled
	case above:
		j.Reason = AboveBand
	case short < 0:
		j.Reason = OneOnly
	case !j.Stands || fell:
		j.Reason = Falling
	case j.SG > expected.High+half && forced == nil:
		j.Reason = UpperEnd
	default:
		j.LeftPoints = g.left(s, first, tails, expected.High+half)
		if forced != nil {
			j.LeftPoints = math.Max(j.LeftPoints, forced.left(j.SG))
		}
		j.WorstVolumes = g.PlannedVolumes + VolumesPerPoint*j.LeftPoints
		fits := j.LeftPoints <= math.Max(g.HeadroomPoints, finestPoints)+1e-9
		switch {
		case long < 0:
			j.Reason = TooSoon
		case !fits:
			j.Reason = TooRough
		case forced != nil:
			j.Verdict, j.Reason = Within, ByForced
		default:
			j.Verdict, j.Reason = Within, Equal
		}
	}
	there := j.SG <= expected.High+half || forced != nil && j.SG <= most+half
	j.Ended = j.Stands && there && (j.Verdict == Within || g.Slowest.Kind == Ordinary)
	return j
}

// left is what the readings from the one at first leave possible, points: of
// each tail no more than it can take. A slow tail is held against all readings
// within the band: a long row shows a slow fall that two hide in their noise.
func (g *Guard) left(s stretch, first int, tails []Tail, upTo float64) float64 {
	most := 0.0
	for _, t := range tails {
		from := first
		for from > 0 && t.Kind != Ordinary && s.at(from-1).SG <= upTo {
			from--
		}
		left := s.bound(from, t.cautiousDays(), t.caution()*g.MarkPoints)
		if t.MostPoints > 0 {
			left = math.Min(left, t.MostPoints)
		}
		most = math.Max(most, left)
	}
	return most
}
