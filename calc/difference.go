package calc

import (
	"math"
	"slices"
	"strings"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Difference is what one beer has more than another, by its 10th, 50th and 90th
// percentile. Both are drawn with the same malt, kit and palate, so that what is
// unknown of both alike cancels: two beers with wide bands may differ surely. Two
// strains are two unknowns, so the doubt of the strain does not cancel between
// them.
type Difference struct {
	FinalGravitySG Band `json:"final_gravity_sg"` // SG, 0.001 is a point
	StrengthPct    Band `json:"strength_pct"`     // % by volume
	Dryness        Band `json:"dryness"`          // index points
	Body           Band `json:"body"`             // index points
	HoneyCharacter Band `json:"honey_character"`  // index points
}

// Four are the four outcomes of a difference.
func (x *Difference) Four() [Outcomes]Band {
	return [Outcomes]Band{FinalGravity: x.FinalGravitySG, Strength: x.StrengthPct, Dryness: x.Dryness, Body: x.Body}
}

// Unsure tells whether the band of a difference holds nought: then nobody can say
// which of the two has more.
func (b Band) Unsure() bool { return b.Low <= 0 && b.High >= 0 }

// Size is how large a difference is, from its small end to its large one.
func (b Band) Size(k quantity.Kind) quantity.Quantity {
	if b.Mid < 0 {
		return quantity.Quantity{Kind: k, Value: -b.Mid, Low: -b.High, High: -b.Low}
	}
	return quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
}

// DifferenceKind is what a difference of an outcome is told in: with a tenth, but for
// many points of an index, where a tenth says nothing.
func (o Outcome) DifferenceKind(by Band) quantity.Kind {
	const manyPoints = 3
	switch {
	case o == FinalGravity:
		return quantity.FinePoints
	case o == Strength:
		return quantity.Strength
	case math.Abs(by.Mid) < manyPoints:
		return quantity.Tenths
	}
	return quantity.Index
}

// Differs says which way a beer differs from another in an outcome and by how much,
// "drier by 8 (3 to 12)"; empty where nobody can be sure which of the two has more
// and where it is too little to be written.
func (o Outcome) Differs(by Band) message.Message {
	least := 0.05
	var less, more message.Message
	switch o {
	case FinalGravity:
		less, more, least = message.New("ends lower by {amount}"), message.New("ends higher by {amount}"), 0.00005
	case Strength:
		less, more = message.New("weaker by {amount}"), message.New("stronger by {amount}")
	case Dryness:
		less, more = message.New("sweeter by {amount}"), message.New("drier by {amount}")
	case Body:
		less, more = message.New("thinner by {amount}"), message.New("fuller by {amount}")
	}
	if by.Unsure() || math.Abs(by.Mid) < least {
		return message.Message{}
	}
	m := more
	if by.Mid < 0 {
		m = less
	}
	m.With = []any{by.Size(o.DifferenceKind(by))}
	return m
}

// Drawn is a beer draw by draw, to take differences from. It keeps nothing that
// its engine may change.
type Drawn struct {
	yeast     design.Yeast
	values    [Outcomes][]float64
	middle    [Outcomes]float64
	stops     [][Outcomes]float64 // where it may stop early
	character []honey.CharacterInput
}

// Values are the draws of one outcome, in the order of the engine's.
func (x *Drawn) Values(o Outcome) []float64 { return slices.Clone(x.values[o]) }

// Drawn draws a design with one of its yeasts, without following a course.
func (e *Engine) Drawn(d design.Design, i int) (*Drawn, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return nil, err
	}
	e.eachDraw(b, unfollowed, nil)
	x := &Drawn{}
	e.drawInto(x, b)
	return x, nil
}

// Difference is what a design with one of its yeasts has more than another beer,
// which this engine has drawn with the draws that it has now.
func (e *Engine) Difference(from *Drawn, d design.Design, i int) (Difference, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Difference{}, err
	}
	e.eachDraw(b, unfollowed, nil)
	return e.difference(from, b)
}

// difference is Difference of a brew that eachDraw has drawn.
func (e *Engine) difference(from *Drawn, b *Brew) (Difference, error) {
	if len(from.values[0]) != len(b.draws) {
		return Difference{}, message.Fault("%d draws to compare with, expected %d", len(from.values[0]), len(b.draws))
	}
	if !sameStrain(&from.yeast, &b.yeast) {
		for k, z := range doubt.AnotherStrain(len(b.draws)) {
			b.draws[k].take = takeAt(&b.yeast, z)
		}
		e.eachDraw(b, unfollowed, nil)
	}
	e.drawInto(&e.compared, b)
	return differ(from, &e.compared, e.scratch[0][0][:len(b.draws)]), nil
}

// sameStrain tells by the name: a strain whose range was changed is still one
// unknown.
func sameStrain(a, b *design.Yeast) bool {
	return strings.EqualFold(strings.TrimSpace(a.Name), strings.TrimSpace(b.Name))
}

// drawInto is a brew that eachDraw has drawn, in the memory of one that nobody needs
// any more.
func (e *Engine) drawInto(x *Drawn, b *Brew) {
	n := len(b.draws)
	if len(x.values[0]) != n {
		all := make([]float64, int(Outcomes)*n)
		for o := range x.values {
			x.values[o], all = all[:n:n], all[n:]
		}
	}
	x.yeast, x.stops, x.character = b.yeast, x.stops[:0], nil
	for i := range n {
		for o, v := range e.beers[i].four() {
			x.values[o][i] = v
		}
	}
	tempC := b.d.Mash.Rest[0].TemperatureC
	var r Beer
	b.at(tempC, &b.middle, &r)
	x.middle = r.four()
	for _, w := range b.stops() {
		b.at(tempC, &w, &r)
		x.stops = append(x.stops, r.four())
	}
	if len(b.d.Honey) > 0 {
		w := &e.work[0]
		b.Ferment(&b.mid, w)
		x.character = b.CharacterInput(&w.Fermentation)
	}
}

// four are the four outcomes of a beer.
func (r *Beer) four() [Outcomes]float64 {
	return [Outcomes]float64{FinalGravity: r.FinalGravitySG, Strength: r.ABVPct, Dryness: r.Dryness, Body: r.Body}
}

// differ is what one drawn beer has more than another, worked out in v.
func differ(from, to *Drawn, v []float64) Difference {
	var bands [Outcomes]Band
	for o := range bands {
		for i := range v {
			v[i] = to.values[o][i] - from.values[o][i]
		}
		bands[o] = BandOf(v)
	}
	// A beer that stops early may do so alone, or both for one reason.
	reach := func(a, b *[Outcomes]float64) {
		for o := range bands {
			bands[o].reach(b[o] - a[o])
		}
	}
	if len(from.stops) == len(to.stops) {
		for k := range to.stops {
			reach(&from.stops[k], &to.stops[k])
		}
	} else {
		for k := range to.stops {
			reach(&from.middle, &to.stops[k])
		}
		for k := range from.stops {
			reach(&from.stops[k], &to.middle)
		}
	}
	return Difference{
		FinalGravitySG: bands[FinalGravity], StrengthPct: bands[Strength], Dryness: bands[Dryness], Body: bands[Body],
		HoneyCharacter: characterDifference(from.character, to.character),
	}
}

// characterDifference is of the honey character, whose two doubts (what is
// retained, how strong the honey is) are the same in both beers: each is taken
// from end to end in both at once, and their distances add in squares as those of
// the index itself.
func characterDifference(from, to []honey.CharacterInput) Band {
	a, b := honey.Character(from...), honey.Character(to...)
	mid := b.Mid - a.Mid
	var up, down float64
	reach := func(d float64) {
		if d > 0 {
			up = math.Hypot(up, d)
		} else {
			down = math.Hypot(down, d)
		}
	}
	aKept, aStrong := honey.CharacterDoubts(from...)
	bKept, bStrong := honey.CharacterDoubts(to...)
	for _, pair := range [...][2]honey.Index{{aKept, bKept}, {aStrong, bStrong}} {
		reach(pair[1].Low - pair[0].Low - mid)
		reach(pair[1].High - pair[0].High - mid)
	}
	return Band{Low: max(mid-down, -100), Mid: mid, High: min(mid+up, 100)}
}
