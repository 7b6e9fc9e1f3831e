package learn

import (
	"math"

	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/follow"
	"skep/calc/honey"
)

// course is the predicted fermentation of the wort without late honey, which
// moves neither the height nor what is measured before it.
func (f *forward) course(x inputs) (ferment.Course, error) {
	b := f.beer(x)
	perL := 1000 / f.d.Batch.IntoFermenterL
	in := ferment.Input{Wort: b.grain.Times(perL), Take: b.take, TemperatureC: f.yeast.TemperatureC, PitchBillionPerL: f.yeast.CellsBillionPerL}
	for _, h := range f.d.Honey {
		if h.MassKg <= 0 || h.Moment == design.MomentFermenting {
			continue
		}
		kg := honey.Extract(h.MassKg, h.MoisturePct, honey.Blossom, honey.FermentableShareMid)
		volume := 0.0
		if h.Moment == design.MomentPitching {
			volume = honey.VolumeL(h.MassKg, h.MoisturePct, 20) / f.d.Batch.IntoFermenterL
		} else {
			kg = kg.Times(f.plan.KeptShare)
		}
		in.Additions = append(in.Additions, ferment.Addition{
			Sugars: kg.Times(perL), Fermentable: (kg.Total() - kg.Dextrin - kg.Other) / kg.Total(), VolumeShare: volume,
		})
	}
	return ferment.Run(in)
}

// Gravities between these shares of the fall tell of the speed.
const (
	fallFrom = 0.15
	fallTo   = 0.85
)

// timing is one reading's say on the time factor.
type timing struct{ log, variance float64 }

// speed compares when the beer was so far with when it should have been:
// gravities half way down, foam at its height. One factor on all times, lag
// and rate together.
func (b *batch) speed(x inputs) {
	if !b.line.Pitched || b.line.Guessed {
		return
	}
	var gravities, foams []*follow.Point
	honeyAt := math.Inf(1)
	for i := range b.line.Points {
		p := &b.line.Points[i]
		switch {
		case !p.Used || p.Hours <= 0:
		case p.What == follow.HoneyAdded:
			honeyAt = min(honeyAt, p.Hours)
		case p.What == follow.Gravity && p.Instrument == "hydrometer" && p.Hours < honeyAt:
			gravities = append(gravities, p)
		case p.What == follow.Foam:
			foams = append(foams, p)
		}
	}
	if len(gravities)+len(foams) == 0 {
		return
	}
	if b.StrainPct.Known {
		x.strainPct = b.StrainPct.Mean
	}
	c, err := b.f.course(x)
	if err != nil || !(c.HeightHours > 0) {
		return
	}
	says := b.foamed(foams, c.HeightHours)
	for _, p := range gravities {
		if t, ok := b.passed(p, &c); ok {
			says = append(says, t)
		}
	}
	w, sum := 0.0, 0.0
	for _, t := range says {
		w += 1 / t.variance
		sum += t.log / t.variance
	}
	if w == 0 {
		return
	}
	// The shape of the course errs the same way in all readings of a batch.
	b.LogTime = value(sum/w, math.Hypot(math.Sqrt(1/w), shapeTimeSD))
	hours := c.HeightHours * math.Exp(b.LogTime.Mean)
	b.HeightHours = value(hours, hours*b.LogTime.SD)
}

// passed compares the hour of a gravity with the hour at which the predicted
// course shows it.
func (b *batch) passed(p *follow.Point, c *ferment.Course) (timing, bool) {
	from, to := c.GravitySG[0], c.GravitySG[len(c.GravitySG)-1]
	fall := from - to
	share := func(sg float64) float64 { return (from - sg) / fall }
	if a := share(p.Value); !(fall > 0.005) || a < fallFrom || a > fallTo {
		return timing{}, false
	}
	at := func(sg float64) float64 {
		for i := 1; i < len(c.GravitySG); i++ {
			if a, b := c.GravitySG[i-1], c.GravitySG[i]; b <= sg && a > b {
				return c.Hours[i-1] + (a-sg)/(a-b)*(c.Hours[i]-c.Hours[i-1])
			}
		}
		return c.Hours[len(c.Hours)-1]
	}
	hour := at(p.Value)
	sd := math.Abs(at(p.Value-p.SD)-at(p.Value+p.SD)) / 2
	if !(hour > 0) {
		return timing{}, false
	}
	return timing{math.Log(p.Hours / hour), math.Pow(sd/hour, 2) + 1e-6}, true
}

// foamed reads foam: at its height, or between the last that rose and the
// first that fell.
func (b *batch) foamed(foams []*follow.Point, heightHours float64) (says []timing) {
	rose, fell, seen := 0.0, math.Inf(1), false
	for _, p := range foams {
		switch p.Value {
		case 1:
			rose = max(rose, p.Hours)
		case 2:
			says, seen = append(says, timing{math.Log(p.Hours / heightHours), foamTime * foamTime}), true
		case 3:
			fell = min(fell, p.Hours)
		}
	}
	if !seen && rose > 0 && fell > rose && !math.IsInf(fell, 1) {
		mid := (rose + fell) / 2
		wide := (fell - rose) / mid / math.Sqrt(12)
		says = append(says, timing{math.Log(mid / heightHours), wide*wide + foamTime*foamTime})
	}
	return says
}
