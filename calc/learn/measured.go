package learn

import (
	"math"
	"slices"
	"strings"
	"time"

	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/taste"
	"skep/calc/water"
)

// Value is a measured quantity with one sd, or nothing.
type Value struct {
	Mean, SD float64
	Known    bool
}

func value(mean, sd float64) Value {
	if math.IsNaN(mean) || math.IsInf(mean, 0) || !(sd >= 0) || math.IsInf(sd, 0) {
		return Value{}
	}
	return Value{mean, sd, true}
}

// Measured is what the readings of one batch come to.
type Measured struct {
	At time.Time // of the pitching, or of the first reading; zero without readings

	// As measured, corrected.
	OriginalGravitySG          Value
	EffectiveOriginalGravitySG Value // all honey that went in counted in
	FinalGravitySG             Value
	StrengthPct                Value
	ApparentAttenuationPct     Value // on the effective original extract
	IntoFermenterL             Value
	HeightHours                Value // after pitching
	PerceivedDryness           Value
	PerceivedBody              Value

	// What a lesson is learnt from.
	EfficiencyPct Value
	SteamLPerH    Value
	RestOffsetC   Value
	StrainPct     Value   // attenuation on the reference wort that the final gravity asks for
	MaltRatio     float64 // points of StrainPct for one point of malt
	LogTime       Value   // natural logarithm of the time to the height over the predicted
	DrynessOffset Value   // perceived less predicted from the gravities as measured
	BodyOffset    Value

	Made      taste.Glass // the beer as its gravities say, to be tasted; with MadeKnown
	MadeKnown bool

	Kit               Kit    // that it was brewed on
	Strain            string // as written
	StrainLow         float64
	StrainHigh        float64
	PredictedDryness  float64 // from the gravities as measured; with DrynessOffset
	PredictedBody     float64
	PlannedEfficiency float64
	PlannedSteamLPerH float64
	Notes             []message.Message
}

// group is the name by which batches of a strain are put together.
func group(strain string) string { return strings.ToLower(strings.Join(strings.Fields(strain), " ")) }

// Kit is what tells one kit from another: its names, the one it had before among
// them, and where one of two has none, how much the vessel holds.
type Kit struct {
	Names   []string // the first is what it is called now
	VesselL float64
}

// kitOf is the kit of a design.
func kitOf(k design.Kit) Kit { return Kit{k.Names(), k.VesselL} }

// Is tells whether two are the same kit: one bears, or bore, the name of the other.
func (k Kit) Is(other Kit) bool {
	if group(k.Names[0]) == "" || group(other.Names[0]) == "" {
		return k.VesselL == other.VesselL
	}
	return k.named(other.Names[0]) || other.named(k.Names[0])
}

func (k Kit) named(name string) bool {
	return slices.ContainsFunc(k.Names, func(n string) bool { return group(n) == group(name) })
}

// batch is one batch while it is measured.
type batch struct {
	Measured
	raw  design.Design
	line measured.Timeline
	d    design.Design // as it was brewed: measured litres, rests, honey
	brew *brewed       // of d
}

// Measure reads a finished batch: a valid design with its readings. It says
// nothing where there is no reading to say it from; the error is of a design
// that can't be brewed.
func Measure(d design.Design) (Measured, error) {
	if err := design.FirstError(d.Validate()); err != nil {
		return Measured{}, err
	}
	b := batch{raw: d, line: measured.NewTimeline(d.Reading, time.Time{}, measured.Instruments{})}
	b.Notes = append(b.Notes, b.line.Notes...)
	b.d = measured.Condition(d, &b.line, usualHeightHours).Design
	brew, err := brewedOf(b.d)
	if err != nil {
		return Measured{}, err
	}
	b.brew = brew
	b.Kit = kitOf(d.Kit)
	b.Strain, b.StrainLow, b.StrainHigh = d.Yeast[0].Name, d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct
	b.PlannedEfficiency, b.PlannedSteamLPerH = d.Kit.MashEfficiencyPct, d.Kit.SteamLPerH
	for i := range b.line.Points {
		if p := &b.line.Points[i]; b.At.IsZero() && p.Used {
			b.At = p.At
		}
	}
	if b.line.Pitched {
		b.At = b.line.PitchedAt
	}
	b.IntoFermenterL = b.last(measured.VolumeFermenter)
	x := b.original()
	b.boilOff(x.GrainKg)
	b.restOffset()
	b.final(x)
	b.speed(x)
	return b.Measured, nil
}

// usualHeightHours places honey that was logged by the hour; gravities don't
// hang on it.
const usualHeightHours = 48.0

// last is the last used reading of a kind.
func (b *batch) last(what string) Value {
	v := Value{}
	for i := range b.line.Points {
		if p := &b.line.Points[i]; p.Used && p.What == what && p.Value > 0 {
			v = value(p.Value, p.SD)
		}
	}
	return v
}

// mean is the mean of all used readings of a kind, 0 included.
func (b *batch) mean(what string, sd float64) Value {
	sum, n := 0.0, 0.0
	for i := range b.line.Points {
		if p := &b.line.Points[i]; p.Used && p.What == what {
			sum += p.Value
			n++
		}
	}
	if n == 0 {
		return Value{}
	}
	return value(sum/n, sd)
}

// original reads the original gravity back: extract of the grain, efficiency.
// The inputs hold it as a fact for what follows.
func (b *batch) original() calc.Inputs {
	x := b.brew.middle()
	b.OriginalGravitySG = b.last(measured.OriginalGravity)
	if !b.OriginalGravitySG.Known {
		return x
	}
	kg, ok := b.brew.grainFor(b.OriginalGravitySG.Mean)
	if !ok {
		if b.brew.HasGrain() {
			b.Notes = append(b.Notes, message.New("the original gravity can't be had from this design's grain and litres: nothing is learnt from it"))
			b.OriginalGravitySG = Value{}
		}
		return x
	}
	planned := b.brew.beer(&x).GrainKg
	x.GrainKg = kg
	effective := b.brew.beer(&x).EffectivePlato
	b.EffectiveOriginalGravitySG = value(density.SGFromPlato(effective), b.OriginalGravitySG.SD)
	if planned <= 0 {
		return x
	}
	litres := unmeasuredVolumeShare
	if b.IntoFermenterL.Known {
		litres = b.IntoFermenterL.SD / b.IntoFermenterL.Mean
	}
	net := b.d.Kit.MashEfficiencyPct - b.brew.CrushCost()
	found := net * kg / planned
	points := b.OriginalGravitySG.SD / (b.OriginalGravitySG.Mean - 1)
	b.EfficiencyPct = value(found+b.brew.CrushCost(), found*math.Hypot(points, litres))
	return x
}

// boilOff compares litres and gravity before the boil with what was in the
// fermenter.
func (b *batch) boilOff(grainKg float64) {
	if !b.OriginalGravitySG.Known || b.d.Boil.Minutes < 20 || grainKg == 0 {
		return
	}
	litres := b.IntoFermenterL
	if !litres.Known {
		litres = value(b.d.Batch.IntoFermenterL, unmeasuredVolumeShare*b.d.Batch.IntoFermenterL)
	}
	plan := func(steam, l, kg float64) water.Plan {
		d := b.d
		d.Kit.SteamLPerH, d.Batch.IntoFermenterL = steam, l
		return recipe.LiquorForExtract(d, kg/b.brew.Plan().KeptShare)
	}
	steam, l, kg := b.d.Kit.SteamLPerH, litres.Mean, grainKg
	kgSD := kg * b.OriginalGravitySG.SD / (b.OriginalGravitySG.Mean - 1)
	at, more := plan(steam, l, kg), plan(steam+0.1, l, kg)
	fuller, richer := plan(steam, l+litres.SD, kg*(1+litres.SD/l)), plan(steam, l, kg+kgSD)
	estimate := func(seen Value, of func(water.Plan) float64) (Value, bool) {
		slope := (of(more) - of(at)) / 0.1
		if !seen.Known || slope == 0 {
			return Value{}, false
		}
		var2 := seen.SD*seen.SD + math.Pow(of(fuller)-of(at), 2) + math.Pow(of(richer)-of(at), 2)
		return value(steam+(seen.Mean-of(at))/slope, math.Sqrt(var2)/math.Abs(slope)), true
	}
	before := b.last(measured.PreBoilVolume)
	before.SD = preBoilVolumeShare * before.Mean
	byLitres, ok1 := estimate(before, func(p water.Plan) float64 { return p.PreBoil })
	byGravity, ok2 := estimate(b.last(measured.PreBoilGravity), func(p water.Plan) float64 { return p.PreBoilGravitySG })
	switch {
	case ok1 && ok2:
		b.SteamLPerH = pooled(byLitres, byGravity)
	case ok1:
		b.SteamLPerH = byLitres
	case ok2:
		b.SteamLPerH = byGravity
	}
}

// pooled is two values of the same, weighted by precision.
func pooled(a, b Value) Value {
	wa, wb := 1/(a.SD*a.SD), 1/(b.SD*b.SD)
	return value((wa*a.Mean+wb*b.Mean)/(wa+wb), 1/math.Sqrt(wa+wb))
}

// final reads the final gravity back: strength, attenuation, the strain, and
// what was tasted against it.
func (b *batch) final(x calc.Inputs) {
	late := len(b.d.Honey) > 0
	for i := range b.line.Points {
		p := &b.line.Points[i]
		if !p.Used || p.What != measured.FinalGravity {
			continue
		}
		if p.Instrument == "refractometer" {
			brix := p.Raw
			if brix < 1.2 { // read on its SG scale
				brix = density.PlatoFromSG(brix) * wortFactor
			}
			brix = math.Max(0, density.BrixAt20(brix, b.raw.Reading[p.Index].TemperatureC)) / wortFactor
			b.FinalGravitySG = value(measured.RefractometerSG(b.brew.beer(&x).EffectivePlato, brix, late))
		} else {
			b.FinalGravitySG = value(p.Value, p.SD)
		}
	}
	b.PerceivedDryness, b.PerceivedBody = b.mean("perceived-dryness", tastingSD), b.mean("perceived-body", tastingSD)
	fg := b.FinalGravitySG
	if !fg.Known {
		return
	}
	if b.EffectiveOriginalGravitySG.Known {
		oe, ae := b.brew.beer(&x).EffectivePlato, density.PlatoFromSG(fg.Mean)
		abv := func(oe, ae float64) float64 {
			return alcohol.ABV(alcohol.ABW(oe, alcohol.RealExtract(oe, ae)), density.SGFromPlato(ae))
		}
		perSG := (density.PlatoFromSG(1.051) - density.PlatoFromSG(1.050)) / 0.001
		do, da := perSG*b.OriginalGravitySG.SD, perSG*fg.SD
		b.StrengthPct = value(abv(oe, ae), math.Hypot(abv(oe+do, ae)-abv(oe, ae), abv(oe, ae+da)-abv(oe, ae)))
		b.ApparentAttenuationPct = value(alcohol.ApparentAttenuation(oe, ae), 100*math.Hypot(da, do*ae/oe)/oe)
	}
	found := b.strain(x)
	if b.EffectiveOriginalGravitySG.Known {
		y := x
		y.Take = calc.TakeOf(found)
		b.Made, b.MadeKnown = b.brew.beer(&y).Glass(), true
	}
	if b.PerceivedDryness.Known || b.PerceivedBody.Known {
		// The beer as measured: what the strain left is whatever the gravity says.
		x.Take = calc.TakeOf(found)
		made := b.brew.beer(&x)
		b.PredictedDryness, b.PredictedBody = made.Dryness, made.Body
		if b.PerceivedDryness.Known {
			b.DrynessOffset = value(b.PerceivedDryness.Mean-made.Dryness, indexSD)
		}
		if b.PerceivedBody.Known {
			b.BodyOffset = value(b.PerceivedBody.Mean-made.Body, indexSD)
		}
	}
}

// wortFactor is package follow's usual one.
const wortFactor = 1.04

// strainReach is how far from the middle of its range a strain is looked for,
// attenuation points.
const strainReach = 20.0

// strain finds the attenuation on the reference wort that the final gravity
// asks for, by bisection: gravity falls with it.
func (b *batch) strain(x calc.Inputs) float64 {
	planned := calc.StrainPct(&b.d.Yeast[0], 0)
	if !b.brew.HasGrain() {
		return planned // honey and water: nothing of the strain shows
	}
	at := func(pct float64) float64 {
		x.Take = calc.TakeOf(pct)
		return b.brew.beer(&x).FinalGravitySG
	}
	lo, hi := max(planned-strainReach, 10), min(planned+strainReach, 100)
	for range 40 {
		if mid := (lo + hi) / 2; at(mid) > b.FinalGravitySG.Mean {
			lo = mid
		} else {
			hi = mid
		}
	}
	found := (lo + hi) / 2
	slope := (at(found-1.5) - at(found+1.5)) / 3 // SG for a point, positive
	if !(slope > 1e-6) {
		b.Notes = append(b.Notes, message.New("whatever the strain takes, this beer's final gravity is the same: nothing is learnt of the strain"))
		return found
	}
	x.Take = calc.TakeOf(found)
	sd, maltSG := b.elsewhere(x)
	b.MaltRatio = min(max(maltSG/slope, 0.2), 3)
	b.StrainPct = value(found, sd/slope)
	return found
}

// elsewhere is what else the final gravity may come from but the strain: the sd
// of it all, and the fall for a point of the malt's limit attenuation, SG.
func (b *batch) elsewhere(x calc.Inputs) (sd, perMaltPoint float64) {
	of := func(y calc.Inputs) float64 { return b.brew.beer(&y).FinalGravitySG }
	// A doubt of the engine's acts as half of what it does from one sd below its
	// middle to one above; what the readings said stays as they said it.
	doubted := func(input doubt.Input) float64 {
		var row [doubt.Inputs]float64
		at := func(z float64) float64 {
			row[input] = z
			y := b.brew.Inputs(&row)
			y.Take, y.GrainKg = x.Take, x.GrainKg
			return of(y)
		}
		return (at(1) - at(-1)) / 2
	}
	warmer := x
	warmer.RestErrorC = b.d.Kit.RestErrorC
	if b.RestOffsetC.Known {
		warmer.RestErrorC = min(warmer.RestErrorC, b.RestOffsetC.SD)
	}
	fg := of(x)
	var2 := b.FinalGravitySG.SD*b.FinalGravitySG.SD + math.Pow(of(warmer)-fg, 2)
	for _, input := range []doubt.Input{doubt.Response, doubt.HoneyMoisture, doubt.HoneySugars, doubt.Diastase} {
		var2 += math.Pow(doubted(input), 2)
	}
	if x.GrainKg == 0 { // no original gravity: by the plan's, and its doubt
		var2 += math.Pow(doubted(doubt.Efficiency), 2)
	} else {
		richer := x
		richer.GrainKg *= 1 + b.OriginalGravitySG.SD/(b.OriginalGravitySG.Mean-1)
		var2 += math.Pow(of(richer)-fg, 2)
	}
	less, more := x, x
	less.Malt.AttenuationPoints -= 2
	more.Malt.AttenuationPoints += 2
	return math.Sqrt(var2), (of(less) - of(more)) / 4
}
