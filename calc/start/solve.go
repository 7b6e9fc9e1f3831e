package start

import (
	"cmp"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/tune"
)

// solver works the amounts out with the engine.
type solver struct {
	hands Hands
	want  float64 // strength, % by volume
	notes []message.Message
}

func (s *solver) predict(d *design.Design) (calc.Prediction, error) {
	e, as, err := s.hands(*d)
	if err != nil {
		return calc.Prediction{}, err
	}
	return e.Predict(as)
}

// brew finds honey and grain.
func (s *solver) brew(d *design.Design, a *Answers) error {
	if len(d.Honey) > 0 && a.MayBuy && a.Honey.MassKg == 0 {
		d.Honey[0].MassKg = 0.03 * a.LitresL // about the usual share at 5 %; what follows makes it so
	}
	for range 6 {
		if err := s.grain(d); err != nil {
			return err
		}
		if len(d.Honey) == 0 {
			return nil
		}
		share, solids := honeyShare(d)
		target := share
		switch {
		case share > mostHoneyShare:
			target = mostHoneyShare
		case a.MayBuy && a.Honey.MassKg == 0:
			target = usualHoneyShare
		}
		if math.Abs(share-target) < 0.005 {
			break
		}
		// At one strength the extract is about the same however it is shared out.
		kg := target * solids / share / (1 - d.Honey[0].MoisturePct/100)
		if target == mostHoneyShare {
			kg = min(kg, d.Honey[0].MassKg)
		}
		d.Honey[0].MassKg = kg
	}
	d.Honey[0].MassKg = math.Floor(d.Honey[0].MassKg/honeyStepKg+1e-9) * honeyStepKg
	return s.grain(d)
}

// honeyShare is honey's part of all extract in the fermenter, and its solids, kg.
func honeyShare(d *design.Design) (share, solidsKg float64) {
	h := d.Honey[0]
	solidsKg = h.MassKg * (1 - h.MoisturePct/100)
	p := recipe.Liquor(*d)
	grain := p.GrainExtractKg * p.KeptShare
	if solidsKg <= 0 {
		return 0, 0
	}
	return solidsKg / (solidsKg + grain), solidsKg
}

// near is how near the strength has to come before the masses are rounded.
const near = 0.002

// grain scales the grist until the strength is the wished one: the strength rises
// with it, nearly in proportion, so that a secant within a bracket finds it in a
// few steps.
func (s *solver) grain(d *design.Design) error {
	shares := 0.0
	for _, g := range d.Grain {
		shares += g.MassKg
	}
	if !(shares > 0) {
		return message.NewError("no grain is known to make the grist of")
	}
	put := func(kg float64) {
		for i := range d.Grain {
			d.Grain[i].MassKg *= kg / shares
		}
		shares = kg
	}
	strength := func(kg float64) (float64, error) {
		put(kg)
		p, err := s.predict(d)
		return p.StrengthPct.Mid, err
	}
	// 45 g a litre and per cent is a middling grist's; more than a kilogram a litre
	// of fermenter no mash holds.
	litres := d.Batch.IntoFermenterL
	low, high := 0.004*litres, 1.2*litres
	atLow, err := strength(low)
	if err != nil {
		return err
	}
	if atLow >= s.want {
		return nil // honey alone is as strong: the caller takes some of it away
	}
	kg := min(0.045*litres*(s.want-atLow)+low, high)
	last, at := low, atLow
	for range 12 {
		now, err := strength(kg)
		if err != nil {
			// So much grain is past what this kit or the model can hold.
			high, kg = kg, (low+kg)/2
			continue
		}
		if math.Abs(now-s.want) < near {
			break
		}
		if now < s.want {
			low = max(low, kg)
		} else {
			high = min(high, kg)
		}
		next := kg + (s.want-now)*(kg-last)/(now-at)
		last, at = kg, now
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		kg = next
	}
	put(kg)
	for i := range d.Grain {
		d.Grain[i].MassKg = math.Max(math.Round(d.Grain[i].MassKg/grainStepKg), 1) * grainStepKg
	}
	return s.even(d)
}

// even makes up in the heaviest line for what rounding of all lines has moved.
func (s *solver) even(d *design.Design) error {
	most := 0
	for i := range d.Grain {
		if d.Grain[i].MassKg > d.Grain[most].MassKg {
			most = i
		}
	}
	total := 0.0
	for _, g := range d.Grain {
		total += g.MassKg
	}
	p, err := s.predict(d)
	if err != nil {
		return err
	}
	perKg := p.StrengthPct.Mid / math.Max(total, grainStepKg)
	steps := math.Round((s.want - p.StrengthPct.Mid) / perKg / grainStepKg)
	g := &d.Grain[most].MassKg
	*g = math.Round(math.Max(*g/grainStepKg+steps, 1)) * grainStepKg
	return nil
}

// What a brewer would call an ordinary time in the mash, min (common practice, no
// source). Nobody who has said five things of a beer expects to stand by it longer.
const leastMashMin, mostMashMin = 45, 90

// land moves mash, and with Find the yeast, towards the taste. Where that would take
// longer or shorter than a mash ordinarily does, it is tried again with such a time.
func (s *solver) land(d *design.Design, a *Answers) error {
	free := tune.Levers{Set: lever.SetOf(lever.Rest, lever.Minutes, lever.Grain)}
	if a.Find {
		taught, err := s.strains(d, a.Yeast)
		if err != nil {
			return err
		}
		free.Strains = taught
	}
	w, err := s.way(d, free)
	if err != nil || w == nil {
		return err
	}
	if minutes := w.Mash.Rest[0].Minutes; minutes < leastMashMin || minutes > mostMashMin {
		d.Mash.Rest[0].Minutes = min(max(minutes, leastMashMin), mostMashMin)
		free.Set = free.Without(lever.Minutes)
		if w, err = s.way(d, free); err != nil || w == nil {
			return err
		}
	}
	d.Mash.Rest = slices.Clone(w.Mash.Rest)
	for i := range d.Grain {
		d.Grain[i].MassKg = w.Grain[i].MassKg
	}
	// The strain as it stands in its own words, not as these hands have found it.
	for _, y := range a.Yeast {
		if y.Name == w.Yeast[0].Name {
			d.Yeast[0] = y
			break
		}
	}
	return s.grain(d)
}

// way is the nearest design that some levers lead to; nil: there is none. A strain that
// was asked for is no price, so the nearest counts and not the first.
func (s *solver) way(d *design.Design, free tune.Levers) (*design.Design, error) {
	e, as, err := s.hands(*d)
	if err != nil {
		return nil, err
	}
	t, err := tune.New(e.Fork(), as)
	if err != nil {
		return nil, err
	}
	r, err := t.To(tune.WishesOf(d.Taste), free)
	if err != nil || len(r.Ways) == 0 {
		return nil, err
	}
	nearest := slices.MinFunc(r.Ways, func(a, b tune.Way) int { return cmp.Compare(a.Points, b.Points) })
	return &nearest.Design, nil
}

// strains are those to choose from as they work in these hands.
func (s *solver) strains(d *design.Design, all []design.Yeast) ([]design.Yeast, error) {
	with := d.Clone()
	with.Yeast = slices.Clone(all)
	_, as, err := s.hands(with)
	return as.Yeast, err
}

// hop finds the mass that gives the usual bitterness, in whole grams.
func (s *solver) hop(d *design.Design) error {
	if len(d.Hop) == 0 {
		return nil
	}
	h := &d.Hop[0]
	h.MassG = d.Batch.IntoFermenterL
	for range 3 {
		p, err := s.predict(d)
		if err != nil {
			return err
		}
		if !(p.BitternessIBU.Mid > 0) {
			return nil
		}
		h.MassG *= usualIBU / p.BitternessIBU.Mid
	}
	h.MassG = math.Max(math.Round(h.MassG), 1)
	return nil
}

// moment puts late honey where its window opens, in hours that one can keep to.
func (s *solver) moment(d *design.Design) error {
	if len(d.Honey) == 0 {
		return nil
	}
	p, err := s.predict(d)
	if err != nil {
		return err
	}
	const step = 6.0
	opens, closes := p.HoneyWindowHours[0].Mid-p.HeightHours.Mid, p.HoneyWindowHours[1].Mid-p.HeightHours.Mid
	hours := math.Ceil(opens/step) * step
	if hours > closes && closes > 0 {
		hours = math.Round((opens + closes) / 2)
	}
	k, _ := design.KeyOf("honey.0.hours_after_height")
	if !math.IsNaN(hours) && hours > 0 {
		d.Honey[0].HoursAfterHeight = min(hours, k.Max)
	}
	return nil
}
