package mash

import (
	"math"

	"skep/calc/message"
	"skep/calc/sugar"
)

// What a grain brings of enzymes.
const (
	EnzymesOwn      = "own"      // base malt: converts itself and more
	EnzymesNone     = "none"     // specialty malt or sugar: its extract goes in as it is
	EnzymesBorrowed = "borrowed" // raw grain: needs the base malt's
)

// Where starches gelatinise, °C, middles of the published ranges (read, design
// notes section 2): barley 61 to 62, wheat 52 to 54, maize 70 to 75, rice 68
// to 75. For [Grain.GelatinisationC].
const (
	GelatinisationBarleyC = barleyGelC
	GelatinisationWheatC  = 53.0
	GelatinisationMaizeC  = 72.5
	GelatinisationRiceC   = 71.5
	GelatinisationFlakesC = 40.0 // flaked or torrefied: gelatinised already (common practice, no source)
)

// Grain is one line of the grist.
type Grain struct {
	MassKg      float64 // 0 or more
	ExtractPct  float64 // laboratory extract, fine grind, dry, 0 to 100
	MoisturePct float64 // 0 to 50
	Enzymes     string  // own, none or borrowed; empty is own

	// GelatinisationC is where raw grain's starch gelatinises, 30 to 90 °C; 0
	// is barley's. Base malt is always taken as barley's.
	GelatinisationC float64
	// Brings is what a grain without enzymes brings, as shares of its extract;
	// nil is a middling specialty malt, or table sugar above 95 % extract.
	Brings *sugar.Spectrum
}

// What dissolves ready-made from base malt, as shares of its extract. Fructose
// and sucrose are those of the textbook wort of the design notes, section 2
// (from memory there): the mash neither makes nor takes them. Glucose and
// maltose: common practice, no source.
const (
	maltFructose = 0.015
	maltSucrose  = 0.04
	maltGlucose  = 0.025
	maltMaltose  = 0.01
	maltOther    = 0.09 // protein, minerals, acids, gums
	maltStarch   = 1 - maltFructose - maltSucrose - maltGlucose - maltMaltose - maltOther

	rawSucrose = 0.015 // raw grain (common practice, no source)
	rawOther   = 0.10
	rawStarch  = 1 - rawSucrose - rawOther

	tableSugarPct = 95.0 // no malt yields more: above it, it is sugar
)

// specialty is what a specialty malt brings: stewed and dried, so part sugar,
// part dextrin beyond the reach of yeast. Ours, so that one alone ferments to
// about half (common practice, no source).
var specialty = sugar.Spectrum{Glucose: 0.08, Fructose: 0.04, Sucrose: 0.02, Maltose: 0.22, Maltotriose: 0.08, Dextrin: 0.45, Other: 0.11}

// What hydrolysis gains in mass by taking up water: 1 g of starch (units of
// 162.14 g/mol) becomes so many grams of sugar. Dextrin: a mean of eight units.
const (
	gainGlucose     = 180.156 / 162.141
	gainMaltose     = 342.297 / (2 * 162.141)
	gainMaltotriose = 504.437 / (3 * 162.141)
	gainDextrin     = (8*162.141 + 18.015) / (8 * 162.141)
)

// starch is one class of it in the mash.
type starch struct {
	share  float64 // of all starch
	shiftC float64 // gelatinises hotter than barley's large granules by
}

// grist is the mash before it begins.
type grist struct {
	massKg      float64
	potentialKg float64        // extract of a well-made mash
	ready       sugar.Spectrum // kg, dissolves as it is
	starchKg    float64        // dry, before it takes up water
	enzymes     float64        // base malt's share of the starch: enzymes over their amount in an all-malt mash
	classes     []starch
}

func newGrist(k *Kinetics, grains []Grain) (grist, error) {
	var g grist
	var own, raw float64 // kg of starch
	rawByC := make([]starch, 0, 4)
	for i, gr := range grains {
		if err := gr.check(i); err != nil {
			return grist{}, err
		}
		e := gr.MassKg * (1 - gr.MoisturePct/100) * gr.ExtractPct / 100
		g.massKg += gr.MassKg
		g.potentialKg += e
		switch gr.Enzymes {
		case EnzymesNone:
			g.ready = g.ready.Plus(gr.brings().Times(e))
		case EnzymesBorrowed:
			g.ready.Sucrose += rawSucrose * e
			g.ready.Other += rawOther * e
			s := rawStarch * e / fullYield
			raw += s
			shift := 0.0
			if gr.GelatinisationC != 0 {
				shift = gr.GelatinisationC - barleyGelC
			}
			rawByC = addStarch(rawByC, starch{s, shift})
		default:
			g.ready = g.ready.Plus(sugar.Spectrum{Glucose: maltGlucose, Fructose: maltFructose,
				Sucrose: maltSucrose, Maltose: maltMaltose, Other: maltOther}.Times(e))
			own += maltStarch * e / fullYield
		}
	}
	if !(g.massKg > 0) {
		return grist{}, message.NewError("the mash has no grain: its mass must be above 0 kg")
	}
	if !(g.potentialKg > 0) {
		return grist{}, message.NewError("the grain holds no extract: extract_pct must be above 0 for at least one grain")
	}
	g.starchKg = own + raw
	if g.starchKg > 0 {
		g.enzymes = own / g.starchKg
		g.classes = maltClasses(k, g.enzymes)
		for _, s := range rawByC {
			g.classes = append(g.classes, starch{s.share / g.starchKg, s.shiftC})
		}
	}
	return g, nil
}

// maltClasses are the granules of malt starch that is so much of all starch:
// each class smaller in number and hotter than the one before.
func maltClasses(k *Kinetics, share float64) []starch {
	all := make([]starch, 0, granules+1)
	part := share * (1 - k.GelTail) / (1 - math.Pow(k.GelTail, granules))
	for i := range granules {
		all = append(all, starch{part, float64(i) * k.GelStepC})
		part *= k.GelTail
	}
	return all
}

// addStarch keeps one class for each temperature.
func addStarch(all []starch, s starch) []starch {
	for i := range all {
		if all[i].shiftC == s.shiftC {
			all[i].share += s.share
			return all
		}
	}
	return append(all, s)
}

func (g Grain) brings() sugar.Spectrum {
	switch {
	case g.Brings != nil:
		return g.Brings.Times(1 / g.Brings.Total())
	case g.ExtractPct > tableSugarPct:
		return sugar.Spectrum{Sucrose: 1}
	}
	return specialty
}

func (g Grain) check(i int) error {
	for _, q := range [...]struct {
		key     string
		v, a, b float64
	}{
		{"mass_kg", g.MassKg, 0, 1e5},
		{"extract_pct", g.ExtractPct, 0, 100},
		{"moisture_pct", g.MoisturePct, 0, 50},
	} {
		if !(q.v >= q.a && q.v <= q.b) {
			return message.NewError("grain {number}: {key} = {value} is outside {low} to {high}", i+1, q.key, q.v, q.a, q.b)
		}
	}
	if c := g.GelatinisationC; c != 0 && !(c >= 30 && c <= 90) {
		return message.Fault("grain %d: gelatinisation at %g °C is outside 30 to 90", i+1, c)
	}
	switch g.Enzymes {
	case "", EnzymesOwn, EnzymesNone, EnzymesBorrowed:
	default:
		return message.Fault("grain %d: enzymes = %q is not one of own, none, borrowed", i+1, g.Enzymes)
	}
	if b := g.Brings; b != nil {
		for _, v := range [...]float64{b.Glucose, b.Fructose, b.Sucrose, b.Maltose, b.Maltotriose, b.Dextrin, b.Other} {
			if !(v >= 0) || math.IsInf(v, 1) {
				return message.Fault("grain %d: a share of its extract is %g: shares must be 0 or more", i+1, v)
			}
		}
		if t := b.Total(); !(t > 0) || math.IsInf(t, 1) {
			return message.Fault("grain %d: the shares of its extract sum to %g: they must sum to more than 0", i+1, t)
		}
	}
	return nil
}
