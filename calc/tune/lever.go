package tune

import (
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// Levers says what may move. The zero value holds everything.
//
// The grist moves only when a strength is wished for: otherwise it would buy
// body with strength that nobody asked for. The honey's moment moves between
// the hot side and the fermenter.
type Levers struct {
	lever.Set
	// Strains are other yeasts that may be brewed with instead of the design's
	// own; the yeast lever is then left out of account. Each stands with its own
	// temperature where the yeast's temperature may move.
	Strains []design.Yeast
	// Spent are the levers that stay since the beer was brewed with them.
	Spent []string
}

// Free are all levers but those held and those spent, as [taste] hold names them.
func Free(hold []string, spent ...string) Levers {
	return Levers{Set: lever.Free(slices.Concat(hold, spent)), Spent: spent}
}

// stay says why nothing may move.
func (l Levers) stay() message.Message {
	other := slices.ContainsFunc([]lever.Lever{lever.Rest, lever.Minutes, lever.Yeast, lever.Honey}, func(which lever.Lever) bool {
		return !slices.Contains(l.Spent, which.String())
	})
	switch {
	case len(l.Spent) == 0:
		return message.New("every lever is held: let at least one of mash rest, minutes, yeast or honey move")
	case other:
		return message.New("every lever that could still move is held: let one of them go")
	}
	return message.New("no lever is left to move: this beer is brewed, and its mash, yeast and honey are what they were")
}

// Equal tells whether two let the same move.
func (l Levers) Equal(o Levers) bool {
	return l.Set == o.Set && slices.Equal(l.Strains, o.Strains) && slices.Equal(l.Spent, o.Spent)
}

// ThisStrain is l with the yeast held: what the outline of the landing plane
// is drawn for.
func (l Levers) ThisStrain() Levers { return Levers{Set: l.Without(lever.Yeast), Spent: l.Spent} }

// How much moving the honey between hot side and fermenter, and buying another
// strain, count as, in natural steps.
const (
	momentSteps = 6.0
	strainSteps = 3.0
)

// Axis is a lever's range and steps, in the unit of its setting: °C, minutes,
// attenuation points of the middle of the range, kg, share of the grist.
type Axis struct {
	Lever     lever.Lever
	Low, High float64
	Step      float64 // what can be set; 0 where only the strains' own values can
	Natural   float64 // the arrow's step
	Now       float64

	strains []strain // of the yeast lever with strains free, by middle
}

// searched are the levers with a scale in the order in which places are
// rounded: coarse ones first, since the fine ones make up for their rounding.
var searched = [mostAxes]lever.Lever{lever.Yeast, lever.Rest, lever.Minutes, lever.Grain, lever.Honey}

// axes are the levers that may move.
func (t *Tuner) axes(free Levers, strength bool) []Axis {
	if !strength {
		free.Set = free.Without(lever.Grain)
	}
	var axes []Axis
	for _, l := range searched {
		switch {
		case l == lever.Yeast && len(free.Strains) > 0:
			if a := t.strainAxis(free); len(a.strains) > 1 {
				axes = append(axes, a)
			}
			continue
		case !free.Set[l] || !l.Needs(t.lander.HasGrain(), t.lander.HasHoney()):
			continue
		}
		a := Axis{Lever: l, Step: l.Found(), Natural: l.Natural(&t.design), Now: l.Get(&t.start)}
		a.Low, a.High = l.Search(&t.design, t.at())
		if l == lever.Honey {
			// A design may ask for more than there is: then a way brings it down.
			a.High = min(a.High, math.Floor(t.mostHoneyKg()/a.Step+1e-9)*a.Step)
		}
		if a.High-a.Low < 1e-9 && !a.over() {
			continue
		}
		if l == lever.Grain { // a mass of its heaviest line, as a share
			heaviest := 0.0
			for _, g := range t.design.Grain {
				heaviest = max(heaviest, g.MassKg)
			}
			a.Step = min(a.Step/heaviest, a.Natural)
		}
		axes = append(axes, a)
	}
	return axes
}

// over tells whether the lever stands beyond its end and so has to move.
func (a *Axis) over() bool { return a.Now > a.High+1e-9 }

// at is what the levers move.
func (t *Tuner) at() lever.At {
	rest, honey := t.lander.Chosen()
	return lever.At{Rest: rest, Honey: honey}
}

// settable are the values next to x that can be set, below and above; the
// present value is always among what can be set.
func (a *Axis) settable(x float64) (below, above float64) {
	if a.strains != nil {
		i, _ := slices.BinarySearchFunc(a.strains, x, func(s strain, x float64) int { return cmp(s.mid, x) })
		return a.strains[max(i-1, 0)].mid, a.strains[min(i, len(a.strains)-1)].mid
	}
	origin := 0.0
	if a.Lever == lever.Yeast || a.Lever == lever.Grain {
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
