package water

// Input is a brew as far as its liquor goes. Volumes in litres at 20 °C.
type Input struct {
	IntoFermenterL float64 // wort wanted in the fermenter
	AltitudeM      float64 // above the sea
	Grist          Grist
	HopsG          float64 // all of them
	BoilMinutes    float64

	// Honey by when it goes in; Late is at pitching and after.
	BoilHoney, WhirlpoolHoney, LateHoney Liquid

	LiquorLPerKg float64 // mash liquor on grain, without what lies under the bed
	GrainC       float64 // the grain's temperature
	FirstRestC   float64 // where the mash starts

	Kit Kit
}

// Kit is the vessel and what stays behind in it.
type Kit struct {
	VesselL           float64
	HeaterW           float64
	VesselHeatKJPerK  float64 // heat that the vessel itself takes
	MashEfficiencyPct float64 // share of the laboratory's extract that reaches the wort
	UnderTheBedL      float64 // liquor the pump cannot draw
	HeldByGrainLPerKg float64 // wort that stays in the spent grain
	SteamLPerH        float64 // boiled away, as cool water
	LeftWithBreakL    float64
	LeftInChillerL    float64
	FermenterL        float64 // 0: not known
}

// Malt is one line of a grist: its mass, its extract by the laboratory (fine
// grind, % of dry matter), moisture and colour.
type Malt struct {
	MassKg      float64
	ExtractPct  float64
	MoisturePct float64
	ColourEBC   float64
}

// Grist is all of the malt together.
type Grist struct {
	MassKg       float64 // as weighed
	LaboratoryKg float64 // extract the laboratory would get out of it
	MoistureKg   float64
}

// Plus is the grist with one more malt in it.
func (g Grist) Plus(m Malt) Grist {
	return Grist{
		MassKg:       g.MassKg + m.MassKg,
		LaboratoryKg: g.LaboratoryKg + m.MassKg*(1-m.MoisturePct/100)*m.ExtractPct/100,
		MoistureKg:   g.MoistureKg + m.MassKg*m.MoisturePct/100,
	}
}

// GristOf is some malts together.
func GristOf(malts ...Malt) Grist {
	var g Grist
	for _, m := range malts {
		g = g.Plus(m)
	}
	return g
}
