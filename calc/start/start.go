// Package start makes a design from what a brewer has: a kit and its litres, the
// honey in the cupboard, a yeast, and how strong and where on the plane the beer
// should land.
//
// Answers come in, a design comes out, and what there is to say of it. It knows no
// window and no file; the grain is worked out with the engine that predicts the
// design everywhere else, so that the strength that was asked for is the one that
// is shown.
package start

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/tune"
	"skep/calc/water"
)

// Answers are what a person says they have and want.
type Answers struct {
	Title     string
	LitresL   float64 // into the fermenter
	AltitudeM float64
	Kit       design.Kit
	Water     *design.Water
	// Honey is the kind, with what is at hand as its mass; MayBuy says that more
	// of it can be had.
	Honey  design.Honey
	MayBuy bool
	// Yeast are the strains to choose from: the first is brewed with, or, with
	// Find, the one that lands nearest to the taste.
	Yeast []design.Yeast
	Find  bool

	StrengthPct   float64
	Dryness, Body *float64 // nil: wherever the kit and the yeast lead
}

// Larder is what the grist and the hops are made of where nobody has said.
type Larder struct {
	Grain []design.Grain // the masses are shares of the grist
	Hop   design.Hop
}

// Hands are the engine and the design as these hands brew it, with what finished
// batches have taught; nil is the engine and the design as they stand.
type Hands func(d design.Design) (*calc.Engine, design.Design, error)

// Begun is a design made from answers.
type Begun struct {
	Design      design.Design
	Prediction  calc.Prediction   // as these hands brew it
	HoneyLeftKg float64           // at hand and not used
	Reached     bool              // strength, and taste where one was asked for
	Notes       []message.Message // what a person should know before brewing it
}

const (
	// usualHoneyShare is honey's part of the extract where it may be bought and
	// nobody says how much: the honey shows and the beer stays a beer (common
	// practice, no source).
	usualHoneyShare = 0.15
	// mostHoneyShare is the most of the extract that comes from honey: beyond half
	// the wort wants feeding and is no beer (common practice, no source).
	mostHoneyShare = 0.5
	// usualIBU is one quiet hop (common practice, no source).
	usualIBU = 18.0
	// grainStepKg and honeyStepKg are what a kitchen scale shows without fuss.
	grainStepKg = 0.01
	honeyStepKg = 0.01
	// LeastStrengthPct and MostStrengthPct are what may be asked for.
	LeastStrengthPct, MostStrengthPct = 1.0, 12.0
)

// Design makes the design. The masses are such as a scale shows; the strength is
// the wished one to a twentieth of a per cent or the notes say why not. An error
// is a [message.Error], or of a kit or an ingredient that no design can hold.
func Design(e *calc.Engine, a Answers, l Larder, hands Hands) (Begun, error) {
	if hands == nil {
		hands = func(d design.Design) (*calc.Engine, design.Design, error) { return e, d, nil }
	}
	if err := a.check(&l); err != nil {
		return Begun{}, err
	}
	d := a.plain(&l)
	s := solver{hands: hands, want: a.StrengthPct}
	if err := s.brew(&d, &a); err != nil {
		return Begun{}, err
	}
	if a.Dryness != nil || a.Body != nil {
		if err := s.land(&d, &a); err != nil {
			return Begun{}, err
		}
	}
	if err := s.hop(&d); err != nil {
		return Begun{}, err
	}
	if err := s.moment(&d); err != nil {
		return Begun{}, err
	}
	return s.finish(d, &a)
}

// check refuses what can't be brewed, in the order of the card.
func (a *Answers) check(l *Larder) error {
	litres, _ := design.KeyOf("batch.into_fermenter_l")
	switch {
	case !(a.LitresL >= litres.Min && a.LitresL <= litres.Max):
		return message.NewError("a batch is {least} to {most}", quantity.Of(quantity.Volume, litres.Min), quantity.Of(quantity.Volume, litres.Max))
	case !(a.Honey.MassKg >= 0 && a.Honey.MassKg <= 50):
		return message.NewError("honey at hand is {least} to {most}", quantity.Of(quantity.MassKg, 0), quantity.Of(quantity.MassKg, 50))
	case !(a.StrengthPct >= LeastStrengthPct && a.StrengthPct <= MostStrengthPct):
		return message.NewError("a strength is {least} to {most}", quantity.Of(quantity.Strength, LeastStrengthPct), quantity.Of(quantity.Strength, MostStrengthPct))
	case len(a.Yeast) == 0:
		return message.NewError("no yeast is named")
	case len(l.Grain) == 0:
		return message.NewError("no grain is known to make the grist of")
	}
	return nil
}

// plain is the design before anything is worked out.
func (a *Answers) plain(l *Larder) design.Design {
	d := design.New()
	d.Title, d.Kit = a.Title, a.Kit
	d.Batch.IntoFermenterL, d.Batch.AltitudeM = a.LitresL, a.AltitudeM
	if a.Water != nil {
		w := *a.Water
		d.Water = &w
	}
	rest := design.NewRest()
	d.Mash.Rest = []design.Rest{rest}
	d.Grain = slices.Clone(l.Grain)
	d.Yeast = []design.Yeast{a.Yeast[0]}
	if a.Honey.MassKg > 0 || a.MayBuy {
		h := a.Honey
		h.Moment = design.MomentFermenting
		h.HoursAfterHeight = design.NewHoney().HoursAfterHeight
		d.Honey = []design.Honey{h}
	}
	if l.Hop.Name != "" {
		h := l.Hop
		h.When, h.Minutes = design.HopBoil, d.Boil.Minutes
		d.Hop = []design.Hop{h}
	}
	strength := a.StrengthPct
	d.Taste = design.Taste{StrengthPct: &strength, Dryness: a.Dryness, Body: a.Body}
	if len(d.Honey) > 0 && !a.MayBuy {
		atHand := a.Honey.MassKg
		d.Taste.HoneyAtHandKg = &atHand
	}
	return d
}

// finish predicts the design once more and says what there is to say.
func (s *solver) finish(d design.Design, a *Answers) (Begun, error) {
	if err := design.FirstError(d.Validate()); err != nil {
		return Begun{}, err
	}
	p, err := s.predict(&d)
	if err != nil {
		return Begun{}, err
	}
	b := Begun{Design: d, Prediction: p}
	points, reached := tune.WishesOf(d.Taste).Miss(tune.MidsOf(&p))
	b.Reached = reached || math.IsNaN(points)
	if d.Taste.HoneyAtHandKg != nil && len(d.Honey) > 0 {
		b.HoneyLeftKg = max(*d.Taste.HoneyAtHandKg-d.Honey[0].MassKg, 0)
	}
	if miss := p.StrengthPct.Mid - a.StrengthPct; math.Abs(miss) > tune.ReachedStrengthPct {
		s.notes = append(s.notes, message.New("this kit gives {reached}, not {wanted}", quantity.Of(quantity.Strength, p.StrengthPct.Mid), quantity.Of(quantity.Strength, a.StrengthPct)))
	} else if !b.Reached {
		s.notes = append(s.notes, message.New("with this yeast the mash comes as near as dryness {dryness}, body {body}",
			quantity.Of(quantity.Index, p.Dryness.Mid), quantity.Of(quantity.Index, p.Body.Mid)))
	}
	if b.HoneyLeftKg >= honeyStepKg {
		s.notes = append(s.notes, message.New("{mass} of honey is left over: more of it would leave less than half of the beer to the malt", quantity.Of(quantity.MassG, math.Round(1000*b.HoneyLeftKg))))
	}
	b.Notes = s.notes
	return b, nil
}

// LitresFor is the whole number of litres into the fermenter that a kit brews
// without boiling over or foaming over, at a usual grist and an hour's boil.
func LitresFor(k design.Kit) float64 {
	lim, _ := design.KeyOf("batch.into_fermenter_l")
	litres := math.Floor(min(k.FermenterL*0.8, k.VesselL, lim.Max)) // common practice, no source: a fifth of head for honey in working beer
	for ; litres > lim.Min; litres-- {
		d := design.New()
		d.Kit, d.Batch.IntoFermenterL = k, litres
		d.Mash.Rest = []design.Rest{design.NewRest()}
		g := design.NewGrain()
		g.MassKg = 0.2 * litres
		d.Grain = []design.Grain{g}
		if p := recipe.Liquor(d); p.PreBoil <= water.HotBreakShare*k.VesselL && p.MashLevelL <= k.VesselL {
			break
		}
	}
	return max(litres, lim.Min)
}
