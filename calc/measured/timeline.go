package measured

import (
	"cmp"
	"math"
	"slices"
	"time"

	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Timeline is the readings of one fermentation in order of time, corrected.
type Timeline struct {
	Pitched   bool
	PitchedAt time.Time // UTC; zero if not known
	// Guessed: no pitching was logged; the original gravity, or the first
	// reading of the beer, stands for it.
	Guessed  bool
	NowHours float64 // after pitching; 0 if not pitched
	Points   []Point // in order of time
	Notes    []message.Message

	in Instruments
}

// NewTimeline puts raw readings in order and corrects them. Readings after now
// and absurd, doubled or spiked ones stay in it, flagged and unused. A zero now
// is the time of the last reading.
func NewTimeline(readings []design.Reading, now time.Time, in Instruments) Timeline {
	t := Timeline{in: in.filled()}
	for i, r := range readings {
		what, instrument := r.What, r.Instrument
		if instrument == "" {
			instrument = Hydrometer
		}
		p := Point{Index: i, What: what, Instrument: instrument, At: r.At.UTC(), Raw: r.Value, Used: true, Heated: r.Heated}
		p.correct(r.TemperatureC, t.in)
		t.Points = append(t.Points, p)
	}
	t.order()
	if now.IsZero() && len(t.Points) > 0 {
		now = t.Points[len(t.Points)-1].At
	}
	t.pitching()
	t.doubles()
	for i := range t.Points {
		p := &t.Points[i]
		if p.At.After(now) {
			p.drop(Future, "later than now: check the clock or the date")
		}
		if !t.Pitched {
			continue
		}
		p.Hours = p.At.Sub(t.PitchedAt).Hours()
		if p.Hours < 0 {
			t.before(p)
		}
	}
	if t.Pitched {
		t.NowHours = max(0, now.Sub(t.PitchedAt).Hours())
	}
	t.gaps()
	t.foams()
	return t
}

// order sorts by time; what was entered after a later reading is told.
func (t *Timeline) order() {
	var latest time.Time
	for i := range t.Points {
		p := &t.Points[i]
		if p.At.Before(latest) {
			p.flag(OutOfOrder, "entered after a later reading: put in its place by its time")
		} else {
			latest = p.At
		}
	}
	slices.SortStableFunc(t.Points, func(a, b Point) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(rank(a.What), rank(b.What)))
	})
}

// rank orders readings of the same moment: what starts things comes first.
func rank(what string) int {
	switch what {
	case OriginalGravity:
		return 0
	case Pitched:
		return 1
	case Gravity, FinalGravity:
		return 2 // a gravity at the moment of the honey is taken as before it
	case HoneyAdded:
		return 3
	}
	return 4
}

// pitching finds the start. Of several entries the first counts: that is when
// the wort met yeast.
func (t *Timeline) pitching() {
	n := 0
	for _, p := range t.Points {
		if p.What != Pitched {
			continue
		}
		if n++; n == 1 {
			t.Pitched, t.PitchedAt = true, p.At
		}
	}
	if n > 1 {
		t.Notes = append(t.Notes, message.New("pitching is logged {count} times: the first counts", quantity.Of(quantity.Count, float64(n))))
	}
	if t.Pitched {
		return
	}
	for _, p := range t.Points {
		if p.Used && (p.InBeer() || p.What == Foam && p.Value > 0) {
			t.Pitched, t.Guessed, t.PitchedAt = true, true, p.At
			break
		}
	}
	if !t.Pitched {
		return
	}
	for _, p := range t.Points {
		if p.Used && p.What == OriginalGravity && p.At.Before(t.PitchedAt) {
			t.PitchedAt = p.At
		}
	}
	t.Notes = append(t.Notes, message.New("pitching was not logged: its time is taken from the first gravity"))
}

// before judges a reading made before there was yeast in the wort.
func (t *Timeline) before(p *Point) {
	switch p.What {
	case HoneyAdded:
		p.Hours = 0
		p.flag(BeforePitching, "honey logged before pitching: taken as in the wort when it was pitched")
	case Gravity, FinalGravity, Foam:
		p.drop(BeforePitching, "before pitching: nothing was fermenting")
	}
}

// doubles drops a reading that says the same of the same moment, and one of
// two originals that differ says so.
func (t *Timeline) doubles() {
	for i := range t.Points {
		p := &t.Points[i]
		for j := i - 1; j >= 0 && p.At.Sub(t.Points[j].At) < time.Second; j-- {
			q := &t.Points[j]
			if q.What == p.What && q.Raw == p.Raw && q.Instrument == p.Instrument && q.Used {
				p.drop(Duplicate, "the same reading again")
				break
			}
		}
	}
}

// gaps marks gravities after days without any.
func (t *Timeline) gaps() {
	last := -1
	for i := range t.Points {
		p := &t.Points[i]
		if !p.Used || !p.InBeer() {
			continue
		}
		if last >= 0 && p.Hours-t.Points[last].Hours > longGapHours {
			p.flag(AfterGap, "{days} without a gravity before it", quantity.Of(quantity.Days, (p.Hours-t.Points[last].Hours)/HoursPerDay))
		}
		last = i
	}
}

// LeaveOut drops a gravity that the others speak against, with what they expect.
func (t *Timeline) LeaveOut(i int, expected quantity.Quantity) {
	p := &t.Points[i]
	p.drop(Spike, "{gravity} does not fit the others, which expect {expected}: gravity does not rise by itself. It is left out; read again, or log honey that went in", ofSG(p.Value), expected)
}

// HoneyBetween tells whether honey went in within some hours, ends included.
func (t *Timeline) HoneyBetween(fromHours, toHours float64) bool {
	for i := range t.Points {
		if p := &t.Points[i]; p.What == HoneyAdded && p.Used && p.Hours >= fromHours && p.Hours <= toHours {
			return true
		}
	}
	return false
}

// foams drops foam that is the honey's.
func (t *Timeline) foams() {
	first := math.Inf(1)
	for i := range t.Points {
		p := &t.Points[i]
		switch {
		case !p.Used:
		case p.What == HoneyAdded && p.Hours > 0:
			first = min(first, p.Hours)
		case p.What == Foam && p.Hours >= first:
			p.drop(AfterHoney, "foam after honey went in tells of the honey")
		}
	}
}

// OriginalPlato says how much extract the beer of some hour is from: it is
// given for the plan or the posterior, with all honey that is in by then.
type OriginalPlato func(hours float64) (plato float64, honey bool)

// Refract finishes the refractometer's readings of beer, and drops gravities
// that are above everything that could be in the beer.
func (t *Timeline) Refract(original OriginalPlato, mostSG float64) {
	for i := range t.Points {
		p := &t.Points[i]
		if p.Used && p.InBeer() && p.Instrument == Refractometer {
			plato, honey := original(p.Hours)
			p.refract(plato, honey, t.in)
		}
		if p.Used && (p.isGravity() || p.What == PostBoilGravity) && p.Value > mostSG {
			p.drop(Absurd, "a gravity of {gravity}: all the extract of this design makes {most} at most", ofSG(p.Value), ofSG(mostSG))
		}
	}
	last := -1
	for i := range t.Points {
		p := &t.Points[i]
		if !p.Used || !p.InBeer() {
			continue
		}
		if last >= 0 {
			q := &t.Points[last]
			if p.Value > q.Value+2*math.Hypot(p.SD, q.SD)+equalGravitySG && !t.HoneyBetween(q.Hours, p.Hours) {
				p.flag(Rising, "{gravity} after {before}, and no honey logged between: one of the two is off, or sugar went in unlogged", ofSG(p.Value), ofSG(q.Value))
			}
		}
		last = i
	}
}

// Used are the used points of a kind, in order of time.
func (t *Timeline) Used(what ...string) []*Point {
	var out []*Point
	for i := range t.Points {
		if p := &t.Points[i]; p.Used && slices.Contains(what, p.What) {
			out = append(out, p)
		}
	}
	return out
}

// Place is where a point stands in the timeline.
func (t *Timeline) Place(p *Point) int {
	for i := range t.Points {
		if &t.Points[i] == p {
			return i
		}
	}
	return -1
}

// Forced is the last forced fermentation that no honey has overtaken; nil: none.
func (t *Timeline) Forced() *Point {
	all := t.Used(ForcedFerment)
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1]
	if t.HoneyBetween(last.Hours+1e-6, math.Inf(1)) {
		return nil
	}
	return last
}
