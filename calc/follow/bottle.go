package follow

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/packaging"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// Verdict is what the numbers say of bottling. None says that it is safe.
type Verdict string

// The verdicts.
const (
	Wait   Verdict = "wait"   // not enough is known, or it is not over
	Over   Verdict = "over"   // more than the bottle is made for
	Within Verdict = "within" // nothing here speaks against it: steady, and within the rating
	ByKeg  Verdict = "keg"    // a keg has its own relief and rating
)

// Message says the verdict to a person; none says that a bottle is safe.
func (v Verdict) Message() message.Message {
	switch v {
	case Over:
		return message.New("More than these bottles are made for")
	case Within:
		return message.New("Nothing that was measured speaks against bottling")
	case ByKeg:
		return message.New("Into a keg: go by its own rating and relief valve")
	}
	return message.New("Don't bottle yet")
}

// Bottle is the check before packaging, from the measured beer.
type Bottle struct {
	Verdict  Verdict
	Guard    packaging.Guard
	NowSG    float64        // measured last; the model's, if there is none
	Package  design.Package // with the warmest that was measured
	Bottled  carbonation.Bottled
	Reasons  []message.Message // why not, or what it rests on
	Measured bool              // NowSG is measured since the last honey
	// WorstVolumes is what the readings made so far can have missed, in the
	// bottle; without two equal ones, what the equal readings that are asked for
	// could.
	WorstVolumes float64
}

// warmest puts the warmest that the beer was measured at since it stands into
// the package: what CO2 it kept.
func (b *Batch) warmest() {
	c, steady := &b.Bottle, &b.State.Steady
	if !steady.Yes {
		return
	}
	warmest := math.Inf(-1)
	for _, p := range b.Timeline.Used(measured.BeerTemperature) {
		if p.Hours >= b.Timeline.Points[steady.First].Hours {
			warmest = max(warmest, p.Value)
		}
	}
	if !math.IsInf(warmest, -1) {
		c.Package.WarmestSinceC = measured.RangeOf("package.warmest_since_c", warmest)
	}
}

func (b *Batch) bottle() {
	t, d := &b.Timeline, &b.Conditioned.Design
	c := &b.Bottle
	c.Package = d.Package
	steady, j, g := &b.State.Steady, &b.State.Steady.Judged, &c.Guard
	why := func(text string, with ...any) { c.Reasons = append(c.Reasons, message.New(text, with...)) }
	volumes := func(v float64) quantity.Quantity { return quantity.Of(quantity.CO2Volumes, v) }

	c.NowSG = b.After.At(t.NowHours).High
	if gravities := t.Used(measured.Gravity, measured.FinalGravity); len(gravities) > 0 {
		last := gravities[len(gravities)-1]
		if t.HoneyBetween(last.Hours, math.Inf(1)) {
			c.NowSG = max(c.NowSG, last.Value)
		} else {
			c.NowSG, c.Measured = last.Value, true
		}
	}
	b.warmest()
	c.Bottled = carbonation.Bottle(recipe.Carbonation(c.Package, d.Batch.AltitudeM))
	c.WorstVolumes = g.WorstVolumes
	if !math.IsInf(j.WorstVolumes, 1) {
		c.WorstVolumes = j.WorstVolumes
	}
	if g.Keg {
		c.Verdict = ByKeg
		why("a keg is judged by its own rating and relief valve")
		return
	}

	c.Verdict = Verdict(j.Verdict)
	switch {
	case c.Verdict == Over:
	case !t.Pitched:
		why("nothing is pitched")
	case !c.Measured && steady.Last >= 0:
		why("honey went in after the last gravity: read it again, twice, {gap} days apart or more", g.Gap())
	case !c.Measured:
		why("no gravity of the beer is measured: read it twice, {gap} days apart or more", g.Gap())
	default:
		b.why(why)
	}
	wait := func(text string, with ...any) {
		why(text, with...)
		if c.Verdict == Within {
			c.Verdict = Wait
		}
	}
	if j.Verdict == packaging.Within && steady.Refractometer {
		wait("the equal readings are by refractometer: confirm the gravity with a hydrometer")
	}
	for _, i := range b.Conditioned.HoneyLeft {
		if h := d.Honey[i]; h.MassKg > 0 && t.Pitched {
			wait("{mass} of honey is planned and not logged: log it, or take it out of the design", quantity.Of(quantity.MassKg, h.MassKg))
		}
	}
	for _, x := range b.Doubts {
		for _, p := range x.Points {
			if p == steady.First || p == steady.Last {
				wait("a gravity that this rests on contradicts the other readings: read again")
			}
		}
	}
	for _, a := range g.Alarms {
		if a.Kind == packaging.OverRated || a.Kind == packaging.LittleHeadroom {
			c.Reasons = append(c.Reasons, g.Say(a))
		}
	}
	if c.Verdict == Within {
		why("{volumes} of CO2, {worst} at worst, against {rated} that the bottle is made for", volumes(c.Bottled.Volumes), volumes(c.WorstVolumes).Unitless(), volumes(g.RatedVolumes).Unitless())
		why("this is arithmetic: it knows nothing of scratched glass, infection or a wrong scale")
	}
}

// why puts what the readings say into words.
func (b *Batch) why(why func(text string, with ...any)) {
	steady, g := &b.State.Steady, &b.Bottle.Guard
	j := &steady.Judged
	switch j.Reason {
	case packaging.NoReading:
		why("no gravity was read of warm beer: cold beer stands still without being done; warm it and read twice, {gap} days apart or more", g.Gap())
	case packaging.OneOnly, packaging.Falling:
		why("there are no two equal readings {gap} days apart or more since the last change: read again", g.Gap())
	case packaging.AboveBand:
		why("at {gravity} it is not where it should end: read again", gravity(j.SG))
	case packaging.Stalled:
		why("it has stopped above what was expected, at {gravity}: it may start again in the bottle", gravity(steady.SG))
	case packaging.UpperEnd:
		why("it stands at {gravity}, at the upper end of what was expected: done, or stuck. A forced fermentation of a sample tells in days", gravity(steady.SG))
	case packaging.TooSoon:
		b.Bottle.Reasons = append(b.Bottle.Reasons, message.Counted("equal for {days}, and {needed} are asked for: read again in {count} day, or force a sample",
			"equal for {days}, and {needed} are asked for: read again in {count} days, or force a sample",
			int(packaging.WholeDays(j.NeedDays-j.GapDays)), quantity.Of(quantity.Days, j.GapDays), quantity.Of(quantity.Days, j.NeedDays)))
	case packaging.TooRough:
		why("equal for {days}, but such readings can have missed {missed}, and the bottle takes {headroom}: read on, or force a sample, which tells in days",
			quantity.Of(quantity.Days, j.GapDays), packaging.Points(j.LeftPoints), g.Headroom())
	case packaging.Equal:
		why("{gravity} on readings {days} apart", gravity(steady.SG), days(steady.Hours))
	case packaging.ByForced:
		why("{gravity} on readings {days} apart, and a forced fermentation ended there", gravity(steady.SG), days(steady.Hours))
	}
}
