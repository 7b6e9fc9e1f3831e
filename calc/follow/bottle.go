package follow

import (
	"math"

	"skep/calc"
	"skep/calc/carbonation"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/says"
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

// Bottle is the check before packaging, from the measured beer.
type Bottle struct {
	Verdict   Verdict
	NowSG     float64        // measured last; the model's, if there is none
	LowestSG  float64        // where the beer may still go
	Package   design.Package // with the warmest that was measured
	Bottled   carbonation.Bottled
	Reasons   []says.Sentence // why not, or what it rests on
	Measured  bool            // NowSG is measured
	LeftGPerL float64         // extract that could still ferment
}

func (b *Batch) bottle() {
	t, d := &b.Timeline, &b.Conditioned.Design
	c := &b.Bottle
	c.Verdict = Wait
	c.Package = d.Package
	steady := b.State.Steady
	why := func(text string, with ...says.Part) { c.Reasons = append(c.Reasons, says.Say(text, with...)) }
	volumes := func(v float64) says.Quantity { return says.Of(says.CO2Volumes, v) }
	number := func(v float64) says.Quantity { return volumes(v).Unitless() }

	c.NowSG = b.After.at(t.NowHours).High
	c.LowestSG = b.After.FinalGravitySG.Low
	if gravities := t.used(Gravity, FinalGravity); len(gravities) > 0 {
		last := gravities[len(gravities)-1]
		if t.honeyBetween(last.Hours, math.Inf(1)) {
			c.NowSG = max(c.NowSG, last.Value)
		} else {
			c.NowSG, c.Measured = last.Value, true
		}
	}
	if steady.Yes && c.Measured {
		// Standing still: what the model has left, or a fall too small to be seen
		// between the two readings. The instrument's error is in both.
		c.LowestSG = c.NowSG - max(b.left.High, equalGravitySG)
	}
	c.LowestSG = min(c.LowestSG, c.NowSG-b.left.High)
	from := 0.0
	if steady.Yes {
		from = t.Points[steady.First].Hours
	}
	warmest := math.Inf(-1)
	for _, p := range t.used(BeerTemperature) {
		if steady.Yes && p.Hours >= from {
			warmest = max(warmest, p.Value)
		}
	}
	if !math.IsInf(warmest, -1) {
		c.Package.WarmestSinceC = rangeOf("package.warmest_since_c", warmest)
	}
	c.LeftGPerL = carbonation.ExtractBetween(density.PlatoFromSG(b.After.EffectiveOriginalGravitySG.Mid), c.NowSG, c.LowestSG)
	c.Bottled = carbonation.Bottle(calc.Carbonation(c.Package), c.LeftGPerL)
	if c.Package.Vessel == "keg" {
		c.Verdict = ByKeg
		why("a keg is judged by its own rating and relief valve")
		return
	}

	wait := true
	switch {
	case !t.Pitched:
		why("nothing is pitched")
	case !c.Measured && steady.Last >= 0:
		why("honey went in after the last gravity: read it again, twice, two days apart or more")
	case !c.Measured:
		why("no gravity of the beer is measured: read it twice, two days apart or more")
	case !steady.Yes:
		why("there are no two equal readings two days apart or more since the last change: read again")
	case b.State.Code == Stuck:
		why("it stands still above what was expected, at {}: it may start again in the bottle", gravity(steady.SG))
	case steady.Refractometer:
		why("the equal readings are by refractometer: confirm the gravity with a hydrometer")
	default:
		wait = false
	}
	for _, i := range b.Conditioned.HoneyLeft {
		if h := d.Honey[i]; h.MassKg > 0 && t.Pitched {
			wait = true
			why("{} of honey is planned and not logged: log it, or take it out of the design", says.Of(says.MassKg, h.MassKg))
		}
	}
	for _, x := range b.Doubts {
		for _, p := range x.Points {
			if p == steady.First || p == steady.Last {
				wait = true
				why("a gravity that this rests on contradicts the other readings: read again")
			}
		}
	}
	rated, worst := c.Bottled.RatedVolumes, c.Bottled.WorstVolumes
	switch over := c.Bottled.Volumes > rated || worst > rated; {
	case over && (c.Bottled.Volumes > rated || !wait):
		c.Verdict = Over
		why("{} of CO2, {} if all that may still ferment does, against {} that the bottle is made for", volumes(c.Bottled.Volumes), number(worst), number(rated))
	case wait && over:
		why("bottled now it could reach {} of CO2, against {} that the bottle is made for", volumes(worst), number(rated))
	case !wait:
		c.Verdict = Within
		why("{} on readings {} apart; {} of CO2, {} at worst, against {} that the bottle is made for", gravity(steady.SG), days(steady.Hours), volumes(c.Bottled.Volumes), number(worst), number(rated))
		why("this is arithmetic: it knows nothing of scratched glass, infection or a wrong scale")
	}
}
