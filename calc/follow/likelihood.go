package follow

import (
	"cmp"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/ferment"
	"skep/calc/measured"
)

// The t distribution of gravities, and the model's own error.
const (
	freedom = 5.0
	// groupHours: readings this near count as one.
	groupHours = 6.0
	// heavierSD is the sd of a t of five degrees of freedom over its scale: what is
	// known of the course's own error is an sd, and its tails must not count twice.
	heavierSD = 1.29
)

// obs is one observation: one reading, or several close together.
type obs struct {
	what   string
	points []int // in the timeline
	hour   float64
	value  float64
	sd     float64 // scale, the model's own error in it
	brix   bool    // by refractometer
	left   bool    // out: it is predicted, and tells of nothing
}

// How well the volume is known that a wort's gravity is of, and how far a sample of
// boiled wort is from what is cooled of it, which steams and mixes on: in shares of its
// points (common practice, no source).
const (
	vesselShare = 0.03 // as planned
	steamsShare = 0.01
)

// observed makes the observations of a timeline. fall is the planned gravity
// from and to, where the model's own error is greatest half way.
func observed(t *measured.Timeline, fromSG, toSG float64) []obs {
	var out []obs
	vessel := vesselShare
	for _, v := range t.Used(measured.PreBoilVolume) {
		vessel = v.SD / v.Value
	}
	for _, p := range t.Used(measured.PreBoilGravity, measured.PostBoilGravity, measured.OriginalGravity) {
		o := obs{what: p.What, points: []int{t.Place(p)}, value: p.Value, sd: p.SD, brix: p.Instrument == measured.Refractometer}
		switch p.What {
		case measured.PreBoilGravity:
			o.sd = math.Hypot(o.sd, vessel*(p.Value-1))
		case measured.PostBoilGravity:
			o.sd = math.Hypot(o.sd, steamsShare*(p.Value-1))
		}
		out = append(out, o)
	}
	if !t.Pitched {
		return out
	}
	out = append(out, gravities(t, fromSG, toSG)...)
	for _, p := range t.Used(measured.Foam) {
		out = append(out, obs{what: measured.Foam, points: []int{t.Place(p)}, hour: p.Hours, value: p.Value})
	}
	return out
}

// gravities groups the beer's gravities: of each instrument, those within six
// hours and without honey between are one, by their median.
func gravities(t *measured.Timeline, fromSG, toSG float64) []obs {
	var out []obs
	last := map[string]int{} // by instrument: the open group
	for _, p := range t.Used(measured.Gravity, measured.FinalGravity) {
		if g, ok := last[p.Instrument]; ok && p.What == measured.Gravity && out[g].what == measured.Gravity {
			first := &t.Points[out[g].points[0]]
			if p.Hours-first.Hours <= groupHours && !t.HoneyBetween(first.Hours, p.Hours) {
				out[g].points = append(out[g].points, t.Place(p))
				continue
			}
		}
		last[p.Instrument] = len(out)
		out = append(out, obs{what: p.What, points: []int{t.Place(p)}, brix: p.Instrument == measured.Refractometer})
	}
	for i := range out {
		o := &out[i]
		slices.SortFunc(o.points, func(a, b int) int { return cmp.Compare(t.Points[a].Value, t.Points[b].Value) })
		mid := &t.Points[o.points[len(o.points)/2]]
		// The median's own hour: the course falls while a group is read.
		o.hour, o.value, o.sd = mid.Hours, mid.Value, mid.SD
		slices.Sort(o.points)
	}
	for i := range out {
		o := &out[i]
		if o.what != measured.FinalGravity {
			o.sd = math.Hypot(o.sd, courseSD(o.value, fromSG, toSG)*math.Sqrt(alike(out, i)))
		}
	}
	return out
}

// courseSD is the model's own error of a gravity on its way down, as a scale.
func courseSD(sg, fromSG, toSG float64) float64 {
	fall := fromSG - toSG
	if !(fall > 0) {
		return 0
	}
	return fall * ferment.CourseErrs((fromSG-sg)/fall) / heavierSD
}

// alike is how many observations share the model's error with one of them, itself
// among them. A course that runs ahead of the model does so for days: readings of
// one day tell of its error once, however many they are. Each carries its share of
// what one would, which keeps them independent for all that follows.
func alike(all []obs, i int) float64 {
	n := 0.0
	for j := range all {
		if apart := math.Abs(all[i].hour - all[j].hour); apart < 4*ferment.AlikeHours {
			n += math.Exp(-apart / ferment.AlikeHours)
		}
	}
	return n
}

// predicted is what an observation should have shown in a draw: a gravity with
// the instrument's own error, or the height for foam.
func (m *model) predicted(o *obs, t *theta, l *evaluation) float64 {
	var sg float64
	switch o.what {
	case measured.Foam:
		return l.HeightHours
	case measured.PreBoilGravity:
		kettleKg := 0.0
		if kept := m.brew.Plan().KeptShare; kept > 0 {
			kettleKg = l.GrainKg / kept
		}
		sg = density.QuickSG(density.QuickPlato(1000 * kettleKg / max(m.preBoilL, 1)))
	case measured.PostBoilGravity:
		// The wort that is pitched, before honey of the stand and of pitching.
		plan := m.brew.Plan()
		boiledKg := l.GrainKg + plan.KeptShare*(plan.PostBoilLiquid.ExtractKg-plan.PreBoilLiquid.ExtractKg)
		sg = density.QuickSG(density.QuickPlato(1000 * boiledKg / max(plan.KeptShare*plan.PostBoilLiquid.VolumeL(), 1)))
	case measured.OriginalGravity:
		sg = density.QuickSG(l.OriginalPlato)
	case measured.FinalGravity:
		// Said to be final: the course is over, but for honey's slow enzymes.
		sg = l.EndSG(o.hour)
	default:
		sg = l.GravityAt(o.hour - calc.JustAfter)
	}
	if o.brix {
		if o.ofWort() {
			return sg
		}
		sd := measured.CorrelationSD
		if m.honeyed {
			sd = measured.CorrelationHoneySD
		}
		return sg + sd*t[iRefractometer]
	}
	return sg + spindleSD*t[iSpindle]
}

// ofWort: before there was yeast in it.
func (o *obs) ofWort() bool {
	return o.what == measured.OriginalGravity || o.what == measured.PreBoilGravity || o.what == measured.PostBoilGravity
}

// nll is the negative log likelihood of an observation by what was predicted,
// with its slope and a curvature that is never negative.
func (o *obs) nll(x float64) (value, slope, curvature float64) {
	if o.left {
		return 0, 0, 0
	}
	if o.what == measured.Foam {
		return o.foam(x)
	}
	r := (x - o.value) / o.sd
	value = (freedom + 1) / 2 * math.Log1p(r*r/freedom)
	w := (freedom + 1) / (freedom + r*r)
	return value, w * r / o.sd, w / (o.sd * o.sd)
}
