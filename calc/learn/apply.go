package learn

import (
	"math"

	"skep/calc/design"
	"skep/calc/doubt"
)

// Switches are the lessons that the person leaves out, by key.
type Switches map[string]bool

// Doubts are the spreads of the next prediction that a design file has no key
// for. A zero is the engine's own. It is plain numbers, so that the engine can
// have it without this package.
type Doubts struct {
	EfficiencySD float64       // points; the engine's 2
	MaltSD       float64       // points of limit attenuation; the engine's mash.MaltSDPoints
	Clock        []ClockDoubts // by yeast of the design; nil: the engine's own
	Dryness      TasteDoubts
	Body         TasteDoubts
	// SweetShare: the scores of the sweetness weights (doubt.MaltSweet,
	// doubt.SimpleSweet) shrink to this share where dryness was tasted: how
	// sweet a palate finds which sugar stands, and is in the offset.
	SweetShare float64
	RestShiftC float64 // the mash is warmer than set, K; how sure, is in kit.rest_error_c
}

// ClockDoubts are one strain's speed: all times of the wort's own course, lag
// included, are TimeFactor times the predicted, and the scores of rate and lag
// that the engine draws shrink to Share of themselves.
type ClockDoubts struct {
	TimeFactor float64 // 0: nothing learnt
	Share      float64
}

// TasteDoubts are what a person perceives more than the index says, with the
// sd of that offset and of one tasting. Known is false without any tasting:
// then the index stands alone.
type TasteDoubts struct {
	Offset, SD, TastingSD float64
	Known                 bool
}

// Apply puts the lessons into a design that is about to be predicted: its
// efficiency, boil-off and attenuation ranges are those of this kit and these
// hands, its rest error and ranges narrower; what has no key comes as Doubts.
// Rests stay as set. Lessons are added as a difference from their prior, so
// that a lever still moves. The design is not the one to save: it is what the
// file means in this brewer's hands. Last come the keys of the lessons used.
func (l *Lessons) Apply(d design.Design, off Switches) (design.Design, Doubts, []string) {
	d = d.Clone()
	var out Doubts
	var used []string
	for i := range l.Lessons {
		x := &l.Lessons[i]
		if len(x.Evidence) == 0 || off[x.Key] {
			continue
		}
		if x.ofKit() && !l.kit.Is(kitOf(d.Kit)) {
			continue // learnt on another kit
		}
		shift := x.Posterior.Mean - x.Prior.Mean
		switch x.Key {
		case Efficiency:
			d.Kit.MashEfficiencyPct = within("kit.mash_efficiency_pct", d.Kit.MashEfficiencyPct+shift)
			out.EfficiencySD = x.NextSD
		case BoilOff:
			d.Kit.SteamLPerH = within("kit.steam_l_per_h", d.Kit.SteamLPerH+shift)
		case Thermometer:
			out.RestShiftC = shift
			d.Kit.RestErrorC = within("kit.rest_error_c", x.NextSD)
		case Dryness:
			out.Dryness = TasteDoubts{x.Posterior.Mean, x.Posterior.SD, x.BatchSD, true}
			out.SweetShare = min(x.Posterior.SD/x.Prior.SD, 1)
		case Body:
			out.Body = TasteDoubts{x.Posterior.Mean, x.Posterior.SD, x.BatchSD, true}
		default:
			continue // strains follow
		}
		used = append(used, x.Key)
	}
	out.Clock = make([]ClockDoubts, len(d.Yeast))
	clocked, malt := false, true
	for i := range d.Yeast {
		y := &d.Yeast[i]
		if key := l.attenuates(y, off); key != "" {
			used = append(used, key)
		} else {
			malt = false
		}
		if key := l.hurries(y, &out.Clock[i], off); key != "" {
			clocked = true
			used = append(used, key)
		}
	}
	if !clocked {
		out.Clock = nil
	}
	if malt && len(d.Yeast) > 0 {
		// The strains' ranges hold what stands of the malt; the batch's part is
		// left. With a strain left out the engine's whole doubt stays, for all.
		out.MaltSD = l.attenuation.batch
	}
	return d, out, used
}

// ofKit tells whether a lesson belongs to a kit, and not to a strain or the person.
func (l *Lesson) ofKit() bool { return l.Key == Efficiency || l.Key == BoilOff || l.Key == Thermometer }

// attenuates moves a strain's range; it returns the lesson's key, empty where
// none is used.
func (l *Lessons) attenuates(y *design.Yeast, off Switches) string {
	key := Attenuation + "/" + y.Name
	x, own := l.strains[group(y.Name)]
	if own {
		key = x.Key
	}
	if l.heard[0] == 0 || off[key] {
		return ""
	}
	m := l.attenuation.unseen(strainSD(y.AttenuationLowPct, y.AttenuationHighPct))
	if own {
		m = moments{x.Posterior.Mean - x.Prior.Mean, x.Posterior.SD * x.Posterior.SD}
	}
	mid := (y.AttenuationLowPct+y.AttenuationHighPct)/2 + m.mean
	wide := doubt.Z90 * m.sd()
	k, _ := design.KeyOf("yeast.0.attenuation_low_pct")
	// Held as a whole, so that the range keeps its width at the ends.
	mid = min(max(mid, k.Min+wide), k.Max-wide)
	y.AttenuationLowPct, y.AttenuationHighPct = max(k.Min, mid-wide), min(k.Max, mid+wide)
	return key
}

// hurries is a strain's speed, with the lesson's key as [Lessons.attenuates].
func (l *Lessons) hurries(y *design.Yeast, c *ClockDoubts, off Switches) string {
	key := Speed + "/" + y.Name
	x, own := l.speeds[group(y.Name)]
	if own {
		key = x.Key
	}
	if l.heard[1] == 0 || off[key] {
		return ""
	}
	m := l.speed.unseen(strainTimeSD)
	if own {
		m = moments{x.Posterior.Mean, x.Posterior.SD * x.Posterior.SD}
	}
	*c = ClockDoubts{math.Exp(m.mean), math.Hypot(m.sd(), l.speed.batch) / engineTimeSD}
	return key
}

// within holds a value in the range of a design's key.
func within(path string, v float64) float64 {
	if k, ok := design.KeyOf(path); ok {
		return min(max(v, k.Min), k.Max)
	}
	return v
}
