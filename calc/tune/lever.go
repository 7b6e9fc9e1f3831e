package tune

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/yeast"
)

// Lever names one of the levers of taste, by the word that holds it in
// taste.hold.
type Lever string

// The levers. Those of the design file that are missing here (the yeast's
// temperature, the primer) do not move dryness, body or strength.
const (
	Rest    Lever = "mash.rest"
	Minutes Lever = "mash.minutes"
	Yeast   Lever = "yeast"
	Honey   Lever = "honey.mass"
	Moment  Lever = "honey.moment"
	Grain   Lever = "grain"
)

// Levers says what may move. The zero value holds everything.
type Levers struct {
	Rest    bool // temperature of the chosen rest
	Minutes bool // length of the chosen rest
	// Attenuation lets the two handles of the yeast lever move together, the
	// width of the range kept. It is left out of account where Strains are given.
	Attenuation bool
	// Strains are other yeasts that may be brewed with instead of the design's
	// own. Each stands with its own temperature, unless HoldYeastC.
	Strains     []design.Yeast
	HoldYeastC  bool
	HoneyMass   bool
	HoneyMoment bool // between the hot side and the fermenter
	// Grain scales the whole grist, every line by the same share. It moves only
	// when a strength is wished for: otherwise it would buy body with strength
	// that nobody asked for.
	Grain bool
}

// Free are all levers but those held, as [taste] hold names them.
func Free(hold []string) Levers {
	free := func(l Lever) bool { return !slices.Contains(hold, string(l)) }
	return Levers{
		Rest: free(Rest), Minutes: free(Minutes), Attenuation: free(Yeast), HoldYeastC: !free("yeast.temperature"),
		HoneyMass: free(Honey), HoneyMoment: free(Moment), Grain: free(Grain),
	}
}

// ThisStrain is l with the yeast held: what the outline of the landing plane
// is drawn for.
func (l Levers) ThisStrain() Levers {
	l.Attenuation, l.Strains = false, nil
	return l
}

// Where the levers end. A present setting beyond an end moves the end there.
const (
	leastMinutes, mostMinutes = 30.0, 120.0 // shorter does not convert dependably (common practice, no source)
	mostHoneyGPerL            = 80.0        // g per litre into the fermenter; g/L
	leastShare, mostShare     = 0.6, 1.5    // of the present grist
	// The yeast lever's middle: from strains that leave some of the maltose
	// (wine yeast on wort, 60 to 72 %, common practice) to the most that a strain
	// reaches which leaves dextrin alone, or to a diastatic one's end.
	leastAttenuationPct         = 62.0
	mostDiastaticAttenuationPct = 95.0
)

// What a person can set.
const (
	restStepC     = 0.5
	minutesStep   = 5.0
	attenuationPt = 1.0
	honeyStepKg   = 0.005
	grainStepKg   = 0.005
)

// One natural step of each lever: the arrows of the landing plane, and the
// measure by which changes are compared.
const (
	naturalRestC       = 1.0
	naturalMinutes     = 10.0
	naturalAttenuation = 1.0
	naturalHoneyKg     = 0.1 // at 15 L; in proportion elsewhere, to 10 g
	naturalShare       = 0.05
	naturalHours       = 12.0
	momentSteps        = 6.0 // moving the honey between hot side and fermenter counts as so many steps
	strainSteps        = 3.0 // buying another strain counts as so many
)

// Axis is a lever's range and steps, in the unit of its setting: °C, minutes,
// attenuation points of the middle of the range, kg, share of the grist.
type Axis struct {
	Lever     Lever
	Low, High float64
	Step      float64 // what can be set; 0 where only the strains' own values can
	Natural   float64 // the arrow's step
	Now       float64

	strains []strain // of the yeast lever with strains free, by middle
}

// get and put move one lever of a setting.
func (l Lever) get(s *calc.Setting) float64 {
	switch l {
	case Rest:
		return s.RestC
	case Minutes:
		return s.Minutes
	case Yeast:
		return (s.AttenuationLowPct + s.AttenuationHighPct) / 2
	case Honey:
		return s.HoneyKg
	case Grain:
		return s.GrainShare
	}
	return 0
}

func (l Lever) put(s *calc.Setting, x float64) {
	switch l {
	case Rest:
		s.RestC = x
	case Minutes:
		s.Minutes = x
	case Yeast:
		d := x - l.get(s)
		s.AttenuationLowPct += d
		s.AttenuationHighPct += d
	case Honey:
		s.HoneyKg = x
	case Grain:
		s.GrainShare = x
	}
}

// axes are the continuous levers that may move, in a fixed order: coarse ones
// first, since the fine ones make up for their rounding.
func (t *Tuner) axes(free Levers, strength bool) []Axis {
	now := t.start
	var axes []Axis
	add := func(l Lever, low, high, step, natural float64) {
		x := l.get(&now)
		low, high = min(low, x), max(high, x)
		if high-low < 1e-9 {
			return
		}
		axes = append(axes, Axis{Lever: l, Low: low, High: high, Step: step, Natural: natural, Now: x})
	}
	switch {
	case len(free.Strains) > 0:
		if a := t.strainAxis(free); len(a.strains) > 1 {
			axes = append(axes, a)
		}
	case free.Attenuation:
		low, high := t.attenuationRange()
		add(Yeast, low, high, attenuationPt, naturalAttenuation)
	}
	if free.Rest && t.lander.HasGrain() {
		add(Rest, calc.RestLowC, calc.RestHighC, restStepC, naturalRestC)
	}
	if free.Minutes && t.lander.HasGrain() {
		add(Minutes, leastMinutes, mostMinutes, minutesStep, naturalMinutes)
	}
	if free.Grain && strength && t.lander.HasGrain() {
		low, high := t.shareRange()
		heaviest := 0.0
		for _, g := range t.design.Grain {
			heaviest = max(heaviest, g.MassKg)
		}
		add(Grain, low, high, min(grainStepKg/heaviest, naturalShare), naturalShare)
	}
	if free.HoneyMass && t.lander.HasHoney() {
		most := math.Floor(mostHoneyGPerL*t.design.Batch.IntoFermenterL/1000/honeyStepKg) * honeyStepKg
		add(Honey, 0, most, honeyStepKg, t.naturalHoneyKg())
	}
	return axes
}

func (t *Tuner) naturalHoneyKg() float64 {
	return max(0.01, math.Round(naturalHoneyKg*t.design.Batch.IntoFermenterL/15*100)/100)
}

// attenuationRange is where the middle of the yeast lever may stand.
func (t *Tuner) attenuationRange() (low, high float64) {
	y := t.design.Yeast[0]
	half := (y.AttenuationHighPct - y.AttenuationLowPct) / 2
	if y.EatsDextrin {
		high = mostDiastaticAttenuationPct
	} else {
		// The high handle at most where a strain takes all sugars and no dextrin.
		ref := mash.Reference()
		high = math.Floor(yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1}.ApparentAttenuationPct(ref)) - half
	}
	low = max(leastAttenuationPct, 10+half)
	return min(low, high), min(high, 100-half)
}

// shareRange is how far the grist may be scaled and still be mashed in this
// vessel.
func (t *Tuner) shareRange() (low, high float64) {
	d := t.design.Clone()
	fits := func(share float64) bool {
		for i, g := range t.design.Grain {
			d.Grain[i].MassKg = g.MassKg * share
			if d.Grain[i].MassKg > 200 {
				return false
			}
		}
		p, now := calc.Liquor(d), t.plan
		vessel := d.Kit.VesselL
		return p.MashLevelL <= max(vessel, now.MashLevelL) && p.PreBoil <= max(vessel, now.PreBoil) &&
			p.LiquorLPerKg >= min(1.5, now.LiquorLPerKg) && p.SpentGrainWaterKg >= min(0, now.SpentGrainWaterKg)
	}
	if fits(mostShare) {
		return leastShare, mostShare
	}
	low, high = 1, mostShare
	for range 10 {
		if m := (low + high) / 2; fits(m) {
			low = m
		} else {
			high = m
		}
	}
	return leastShare, low
}

// settable are the values next to x that can be set, below and above; the
// present value is always among what can be set.
func (a *Axis) settable(x float64) (below, above float64) {
	if a.strains != nil {
		i, _ := slices.BinarySearchFunc(a.strains, x, func(s strain, x float64) int { return cmp(s.mid, x) })
		return a.strains[max(i-1, 0)].mid, a.strains[min(i, len(a.strains)-1)].mid
	}
	origin := 0.0
	if a.Lever == Yeast || a.Lever == Grain {
		origin = a.Now // whole points from where the handles stand; 5 g of the main malt
	}
	q := (x - origin) / a.Step
	below, above = origin+math.Floor(q)*a.Step, origin+math.Ceil(q)*a.Step
	if d := math.Abs(x - a.Now); d < a.Step/2 {
		if a.Now <= x {
			below = a.Now
		}
		if a.Now >= x {
			above = a.Now
		}
	}
	clean := func(v float64) float64 { return min(max(math.Round(v*1e6)/1e6, a.Low), a.High) }
	return clean(below), clean(above)
}
