package water

import (
	"math"

	"skep/calc/message"
	"skep/calc/quantity"
)

// Trade figures. Each is common practice, no source, unless one is named.
const (
	hopSoakLPerG  = 0.006 // L/g, wort that spent hops keep
	yeastLossPart = 0.05  // share of the beer left on the yeast and in samples
	// grainTakesLPerKg is the room grain takes in a mash. Source: J.-P. Hosom,
	// article 18 (bag mash), 0.619 mL/g.
	grainTakesLPerKg = 0.619
)

// Volumes are the litres of the day, as the package comment defines them.
type Volumes struct {
	MashLiquor    float64
	Sparge        float64
	PreBoil       float64
	PostBoil      float64
	IntoFermenter float64
	Packaged      float64
}

// Plan is the whole day's liquor. Masses in kg, volumes in litres; volumes at
// 20 °C unless called hot.
type Plan struct {
	Volumes

	GrainKg            float64 // the grist, as weighed
	LaboratoryKg       float64 // extract the laboratory would find in it
	GrainExtractKg     float64 // extract that reaches the wort
	BoilingPointC      float64 // at the altitude
	LiquorLPerKg       float64 // in the bed; less than asked where the brew holds no more
	MashLevelL         float64 // hot mash with its grain: must fit the vessel
	GrainHeldL         float64 // liquor in less wort out
	SteamL             float64 // boiled away, as cool water
	CoolL              float64 // in the vessel after the whirlpool, cool: what hops and colour are spread over
	LeftWithBreakL     float64 // stays with hops and break
	LeftInChillerL     float64
	KeptShare          float64 // of the vessel's wort that reaches the fermenter, 0 to 1
	FermenterL         float64 // with honey of pitching and later
	LeftOnYeastL       float64
	PreBoilLiquid      Liquid // what is in it, by mass
	PostBoilLiquid     Liquid
	CoolLiquid         Liquid
	IntoFermenterWort  Liquid
	LateHoney          Liquid  // of pitching and fermenting
	SpentGrainDryKg    float64 // husk and what efficiency left behind
	SpentGrainWaterKg  float64
	PreBoilGravitySG   float64
	PostBoilGravitySG  float64
	StrikeTemperatureC float64 // of the liquor, at most boiling
	SettlesC           float64 // the mash, then: the first rest, or cooler where boiling liquor is not hot enough

	Warnings []Warning
}

// For works the day out backwards from what is wanted in the fermenter, with
// the extract that the kit's mash efficiency gets out of the grist.
func For(in Input) Plan {
	return ForExtract(in, in.Grist.LaboratoryKg*in.Kit.MashEfficiencyPct/100)
}

// ForExtract is [For] when the extract that reaches the wort is known from
// elsewhere (a mash that converts less, a coarse crush, a measured gravity).
func ForExtract(in Input, grainExtractKg float64) Plan {
	p := start(&in, grainExtractKg)
	var w warnings

	// Backwards from the fermenter to a cool vessel.
	p.CoolL = in.IntoFermenterL + p.LeftInChillerL + p.LeftWithBreakL
	extract := p.GrainExtractKg + in.BoilHoney.ExtractKg + in.WhirlpoolHoney.ExtractKg
	cool, ok := fill(p.CoolL, extract)
	if !ok {
		w.add(AtBoil, message.New("There are {mass} of extract for {volume} of wort, a syrup: less grain or honey, or a larger batch", quantity.Of(quantity.MassKg, extract), litres(p.CoolL)), "grain", "honey", "batch.into_fermenter_l")
		p.CoolL = cool.VolumeL()
	}
	p.CoolLiquid = cool

	// To the end of the boil, its beginning, and what the grain gave.
	p.PostBoilLiquid = cool.Minus(in.WhirlpoolHoney)
	p.PreBoilLiquid = p.PostBoilLiquid.Minus(in.BoilHoney).Plus(Liquid{WaterKg: p.SteamL * coolWaterKgPerL()})
	if p.PreBoilLiquid.WaterKg < 0 {
		w.add(AtBoil, message.New("The honey of boil and whirlpool brings more water than the wort may hold: less of it, or a larger batch"), "honey", "batch.into_fermenter_l")
		p.PreBoilLiquid.WaterKg = 0
	}

	// Liquor: the mash first, the rest is sparge.
	liquor := p.PreBoilLiquid.VolumeL() + p.GrainHeldL
	p.MashLiquor = in.LiquorLPerKg*p.GrainKg + in.Kit.UnderTheBedL
	p.Sparge = liquor - p.MashLiquor
	if p.Sparge < 0 {
		p.MashLiquor, p.Sparge = liquor, 0
		if p.GrainKg > 0 {
			p.LiquorLPerKg = max(0, (liquor-in.Kit.UnderTheBedL)/p.GrainKg)
			w.add(AtSparge, message.New("The mash liquor alone is more than the whole brew takes, {volume}, so there is no sparge: set the mash to {litresPerKg} or less, or brew a larger batch", litres(liquor), quantity.Of(quantity.LitresPerKg, math.Floor(10*p.LiquorLPerKg)/10)), "mash.liquor_l_per_kg", "batch.into_fermenter_l")
		}
	}
	p.finish(&in)
	if ok {
		p.IntoFermenter = in.IntoFermenterL // as asked, to the last bit
	}
	p.check(&in, &w)
	p.Warnings = w
	return p
}

// Forward works the day out from the liquor drawn, the way it will run:
// mashLiquorL and spargeL at 20 °C. The error says where it runs dry.
func Forward(in Input, grainExtractKg, mashLiquorL, spargeL float64) (Plan, error) {
	p := start(&in, grainExtractKg)
	p.MashLiquor, p.Sparge = mashLiquorL, spargeL
	if p.GrainKg > 0 {
		p.LiquorLPerKg = max(0, (mashLiquorL-in.Kit.UnderTheBedL)/p.GrainKg)
	}
	inVessel := mashLiquorL + spargeL - p.GrainHeldL
	if !(inVessel > 0) {
		return p, dry("the grain holds {held}, all of the {liquor} of liquor: draw more, or use less grain", litres(p.GrainHeldL), litres(mashLiquorL+spargeL))
	}
	wort, ok := fill(inVessel, p.GrainExtractKg)
	if !ok {
		return p, dry("{wort} of wort cannot hold {extract} of extract: draw more liquor", litres(inVessel), quantity.Of(quantity.MassKg, p.GrainExtractKg))
	}
	err := p.boilDown(&in, wort)
	return p, err
}

// FromPreBoil works the day out from the wort that is in the vessel before the
// boil, as it was measured: cool litres and gravity. Liquor stays as it was drawn
// for the plan.
func FromPreBoil(in Input, wort Liquid) (Plan, error) {
	plan := For(in)
	p := start(&in, wort.ExtractKg)
	p.MashLiquor, p.Sparge = plan.MashLiquor, plan.Sparge
	err := p.boilDown(&in, wort)
	return p, err
}

// boilDown takes wort through the boil, and fills in all that comes after it.
func (p *Plan) boilDown(in *Input, wort Liquid) error {
	p.PreBoilLiquid = wort
	p.PostBoilLiquid = wort.Plus(in.BoilHoney).Minus(Liquid{WaterKg: p.SteamL * coolWaterKgPerL()})
	if !(p.PostBoilLiquid.WaterKg > 0) || p.PostBoilLiquid.MassFraction() > strongest {
		return dry("the boil takes {steam} of {wort} and leaves a syrup or nothing: shorten boil.minutes, lower kit.steam_l_per_h or start with more liquor", litres(p.SteamL), litres(wort.VolumeL()))
	}
	p.CoolLiquid = p.PostBoilLiquid.Plus(in.WhirlpoolHoney)
	p.CoolL = p.CoolLiquid.VolumeL()
	if p.CoolL <= p.LeftWithBreakL+p.LeftInChillerL {
		return dry("break and chiller keep all of the {wort} of wort: start with more liquor", litres(p.CoolL))
	}
	p.finish(in)
	var w warnings
	p.check(in, &w)
	p.Warnings = w
	return nil
}

// start fills in what holds in both directions.
func start(in *Input, grainExtractKg float64) Plan {
	p := Plan{
		GrainKg:        in.Grist.MassKg,
		LaboratoryKg:   in.Grist.LaboratoryKg,
		GrainExtractKg: max(0, grainExtractKg),
		BoilingPointC:  BoilingPointC(in.AltitudeM),
		LiquorLPerKg:   in.LiquorLPerKg,
		SteamL:         boilOffL(in.Kit.SteamLPerH, in.BoilMinutes),
		LeftInChillerL: in.Kit.LeftInChillerL,
		LateHoney:      in.LateHoney,
	}
	p.GrainHeldL = in.Kit.HeldByGrainLPerKg * p.GrainKg
	// The kit's figure covers ordinary hopping; a large charge soaks up more.
	p.LeftWithBreakL = max(in.Kit.LeftWithBreakL, hopSoakL(in.HopsG))
	return p
}

// finish derives the rest from the liquids and litres that either way sets.
func (p *Plan) finish(in *Input) {
	hot := hotPerCool(p.BoilingPointC)
	p.PreBoil = p.PreBoilLiquid.VolumeL() * hot
	p.PostBoil = p.PostBoilLiquid.VolumeL() * hot
	p.PreBoilGravitySG = p.PreBoilLiquid.GravitySG()
	p.PostBoilGravitySG = p.PostBoilLiquid.GravitySG()

	p.IntoFermenter = p.CoolL - p.LeftInChillerL - p.LeftWithBreakL
	if p.CoolL > 0 {
		p.KeptShare = p.IntoFermenter / p.CoolL
	}
	p.IntoFermenterWort = p.CoolLiquid.Share(p.KeptShare)
	p.FermenterL = p.IntoFermenterWort.Plus(p.LateHoney).VolumeL()
	p.LeftOnYeastL = yeastLossPart * p.FermenterL
	p.Packaged = p.FermenterL - p.LeftOnYeastL

	moisture := in.Grist.MoistureKg
	p.SpentGrainDryKg = p.GrainKg - moisture - p.GrainExtractKg
	p.SpentGrainWaterKg = (p.MashLiquor+p.Sparge)*coolWaterKgPerL() + moisture - p.PreBoilLiquid.WaterKg
	p.MashLevelL = p.MashLiquor*hotPerCool(in.FirstRestC) + grainTakesLPerKg*p.GrainKg
	p.StrikeTemperatureC, p.SettlesC = strikeFor(in, p.MashLiquor, p.BoilingPointC)
}

// hopSoakL is the wort that so many grams of hops alone would keep, L.
func hopSoakL(hopsG float64) float64 { return hopsG * hopSoakLPerG }
