package learn

import (
	"errors"
	"fmt"
	"math"

	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/taste"
	"skep/calc/water"
	"skep/calc/yeast"
)

// What package calc keeps to itself (a test compares what comes of it with the
// engine): the spread of honey's moisture, points, and how long live honey
// enzymes work, days.
const (
	moisturePoints = 1.0
	trimDays       = 21.0
)

// reference turns attenuation on the reference wort into what a strain takes.
var reference = yeast.NewScale(mash.Reference())

// forward is the engine's mass balance with single inputs in the open: what a
// batch says is read backwards through it.
type forward struct {
	d             design.Design
	yeast         design.Yeast
	plan          water.Plan
	table, warmer *mash.Table // nil: no grain
	restC         float64
	crushCost     float64
}

// tables keeps the last mash, which is what is dear.
type tables struct {
	key           string
	table, warmer *mash.Table
}

// newForward makes a design ready, the mash as far as reachC about its rest.
func newForward(d design.Design, keep *tables, reachC float64) (*forward, error) {
	if len(d.Yeast) == 0 || len(d.Mash.Rest) == 0 {
		return nil, errors.New("the design needs a yeast and a mash rest")
	}
	f := &forward{d: d, yeast: d.Yeast[0], plan: calc.Liquor(d), restC: d.Mash.Rest[0].TemperatureC, crushCost: calc.Crush(d.Crush).EfficiencyPoints()}
	if f.plan.LaboratoryKg <= 0 {
		return f, nil
	}
	if err := keep.of(d, reachC); err != nil {
		return nil, err
	}
	f.table, f.warmer = keep.table, keep.warmer
	return f, nil
}

// stepC: nodes of the mash table; the reach is in whole steps.
const stepC = 0.75

func (k *tables) of(d design.Design, reachC float64) error {
	in := calc.MashInput(d, 0)
	reachC = stepC * math.Ceil(max(reachC, 2*stepC)/stepC)
	low := max(20, in.Rests[0].TemperatureC-reachC)
	high := min(100, in.Rests[0].TemperatureC+reachC)
	key := fmt.Sprint(in, low, high)
	if key == k.key {
		return nil
	}
	table, err := mash.Tabulate(in, 0, low, high, stepC)
	if err != nil {
		return err
	}
	var warmer *mash.Table
	if len(in.Rests) > 1 {
		for i := range in.Rests[1:] {
			in.Rests[i+1].TemperatureC++
		}
		if warmer, err = mash.Tabulate(in, 0, low, high, stepC); err != nil {
			return err
		}
	}
	k.key, k.table, k.warmer = key, table, warmer
	return nil
}

// inputs are the uncertain inputs of one beer.
type inputs struct {
	efficiencyPct float64 // before the crush's cost
	grainKg       float64 // extract of the grain in the fermenter where it is known; else 0
	restErrorC    float64
	malt          mash.Doubt
	strainPct     float64 // apparent, on the reference wort
	moisture      float64 // honey's, points more
	honeyShare    float64 // of honey's solids that ferments
	diastase      float64 // normal score
	tasting       taste.Weights
}

// middle is every input at its middle.
func (f *forward) middle() inputs {
	return inputs{
		efficiencyPct: f.d.Kit.MashEfficiencyPct,
		malt:          mash.Doubt{Response: mash.ResponseQuantile(0.5)},
		strainPct:     (f.yeast.AttenuationLowPct + f.yeast.AttenuationHighPct) / 2,
		honeyShare:    honey.FermentableShareMid,
		tasting:       taste.Mid(),
	}
}

// drawn is one draw of the engine, with its spreads of efficiency and malt,
// and the share of its doubt of sweetness.
func (f *forward) drawn(z *[doubt.Inputs]float64, efficiencySD, maltSD, sweetShare float64) inputs {
	x := f.middle()
	y := f.yeast
	x.efficiencyPct += efficiencySD * z[doubt.Efficiency]
	x.restErrorC = f.d.Kit.RestErrorC * z[doubt.Rest]
	x.malt = mash.Doubt{AttenuationPoints: maltSD * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))}
	x.strainPct += (y.AttenuationHighPct - y.AttenuationLowPct) / (2 * doubt.Z90) * z[doubt.Strain]
	x.moisture = moisturePoints * z[doubt.HoneyMoisture]
	x.honeyShare += honey.FermentableShareSD * z[doubt.HoneySugars]
	x.diastase = z[doubt.Diastase]
	x.tasting = taste.Draw(sweetShare*z[doubt.MaltSweet], sweetShare*z[doubt.SimpleSweet])
	return x
}

// beer is what the inputs come to.
type beer struct {
	grainKg          float64 // extract of the grain in the fermenter
	ogSG, fgSG       float64
	effectivePlato   float64
	abvPct, aaPct    float64
	dryness, body    float64
	grain, hot, cold sugar.Spectrum // kg in the fermenter: cold is of pitching
	coldL            float64        // litres that honey at pitching adds
	take             yeast.Take
}

// mashAt is the wort (shares of extract) and the conversion. How the other
// rests' error acts is taken as linear in it.
func (f *forward) mashAt(errorC float64, m mash.Doubt) (sugar.Spectrum, float64) {
	s, conversion := f.table.At(f.restC+errorC, m)
	if f.warmer == nil {
		return s, conversion
	}
	s2, conversion2 := f.warmer.At(f.restC+errorC, m)
	mixed := s.Times(1 - errorC).Plus(s2.Times(errorC))
	for _, v := range []*float64{&mixed.Glucose, &mixed.Fructose, &mixed.Sucrose, &mixed.Maltose, &mixed.Maltotriose, &mixed.Dextrin, &mixed.Other} {
		*v = max(*v, 0)
	}
	return mixed.Times(1 / mixed.Total()), max(0, conversion+errorC*(conversion2-conversion))
}

// wortKg is the mass of so many litres of wort at 20 °C holding so much extract.
func wortKg(extractKg, litres float64) float64 {
	plato := density.QuickPlato(1000 * extractKg / litres)
	return litres * density.KgM3FromSG(density.QuickSG(plato)) / 1000
}

// beer works the inputs out.
func (f *forward) beer(x inputs) (b beer) {
	if f.table != nil {
		wort, conversion := f.mashAt(x.restErrorC, x.malt)
		b.grainKg = x.grainKg
		if b.grainKg == 0 {
			b.grainKg = f.plan.LaboratoryKg * min(max(x.efficiencyPct-f.crushCost, 0), 100) / 100 * conversion * f.plan.KeptShare
		}
		b.grain = wort.Times(b.grainKg)
	}
	var late sugar.Spectrum
	coldKg, lateKg, raw := 0.0, 0.0, 0.0
	for i := range f.d.Honey {
		h := &f.d.Honey[i]
		moisture := min(max(h.MoisturePct+x.moisture, honey.MinMoisturePct), honey.MaxMoisturePct)
		kg := honey.Extract(h.MassKg, moisture, honey.Blossom, x.honeyShare)
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			b.hot = b.hot.Plus(kg.Times(f.plan.KeptShare))
			continue
		case design.MomentPitching:
			b.cold = b.cold.Plus(kg)
			coldKg += h.MassKg
			b.coldL += honey.VolumeL(h.MassKg, h.MoisturePct, 20)
		default:
			late = late.Plus(kg)
			lateKg += h.MassKg
		}
		if h.Raw {
			raw += 1000 * h.MassKg / f.plan.FermenterL
		}
	}
	b.take = reference.Take(x.strainPct)

	run := b.grain.Plus(b.hot)
	runKg := wortKg(run.Total(), f.d.Batch.IntoFermenterL)
	b.ogSG = density.QuickSG(100 * (run.Total() + b.cold.Total()) / (runKg + coldKg))
	full := run.Plus(b.cold).Plus(late)
	b.effectivePlato = 100 * full.Total() / (runKg + coldKg + lateKg)

	left := b.grain.Plus(b.take.Fermented(b.grain).Times(-1))
	sweet := sugar.Spectrum{Dextrin: full.Dextrin - b.grain.Dextrin, Other: full.Other - b.grain.Other}
	left = left.Plus(sweet)
	if raw > 0 {
		keeps := 1 - honey.DiastaseTrim(raw, trimDays, f.yeast.TemperatureC).At(x.diastase)
		left.Dextrin *= keeps
		sweet.Dextrin *= keeps
	}
	share := 0.0
	if full.Total() > 0 {
		share = (full.Total() - left.Total()) / full.Total()
	}
	re := alcohol.RealExtractAfter(b.effectivePlato, share)
	ae := alcohol.ApparentExtract(b.effectivePlato, re)
	b.fgSG = density.QuickSG(ae)
	b.abvPct = alcohol.ABV(alcohol.ABW(b.effectivePlato, re), b.fgSG)
	b.aaPct = alcohol.ApparentAttenuation(b.effectivePlato, ae)
	var residue sugar.Spectrum
	honeyGL := 0.0
	if left.Total() > 0 {
		toGL := re / 100 * density.KgM3FromSG(b.fgSG) / left.Total()
		residue, honeyGL = left.Times(toGL), sweet.Total()*toGL
	}
	b.dryness = taste.Dryness(alcohol.RDF(b.effectivePlato, re), taste.SweetnessGL(residue, x.tasting))
	b.body = taste.Body(residue, honeyGL, b.abvPct, x.tasting)
	return b
}

// grainFor is the extract of the grain in the fermenter that shows an original
// gravity, kg, by bisection: it rises with it.
func (f *forward) grainFor(ogSG float64) (kg float64, ok bool) {
	x := f.middle()
	at := func(kg float64) float64 { x.grainKg = kg; return f.beer(x).ogSG }
	lo, hi := 1e-9, 0.4*f.d.Batch.IntoFermenterL
	if f.table == nil || !(at(lo) < ogSG && ogSG < at(hi)) {
		return 0, false
	}
	for range 60 {
		if mid := (lo + hi) / 2; at(mid) < ogSG {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, true
}
