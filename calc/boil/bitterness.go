package boil

import (
	"math"

	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/water"
)

// What is measured as bitterness and does not come of heat: oxidised alpha,
// polyphenols and the like. Hosom 10: ten minutes at 85 °C gave 77 % of the
// bitterness of ten minutes at the boil, where isomerisation alone would give
// 31 %.
const (
	otherIBUPerGL = 2.3  // IBU per g/L of hops; from those four stands
	otherShare    = 0.70 // at most this share of a ten-minute boil's bitterness
	otherMinutes  = 10.0 // by then it is all extracted
	otherLow      = 1.0  // lower and upper bound of IBU per g/L, ours:
	otherHigh     = 4.2  // the upper is the slope of Hosom 13 beyond saturation
	relativeDoubt = 0.25 // half the 10 to 90 band: alpha's age and analysis, utilisation, gravity
	runOffLPerMin = 2.0  // common practice, no source
)

// Band is a bitterness by its 10th, 50th and 90th percentile, IBU.
type Band struct{ Low, Mid, High float64 }

func (b Band) plus(o Band) Band     { return Band{b.Low + o.Low, b.Mid + o.Mid, b.High + o.High} }
func (b Band) times(k float64) Band { return Band{b.Low * k, b.Mid * k, b.High * k} }

// Steep is one charge of hops in wort.
type Steep struct {
	AlphaPct float64
	MassG    float64
	VolumeL  float64 // cool, that the bitterness is spread over
	WortSG   float64
	// AllAlphaMgL is the alpha acid of all charges together, for saturation;
	// 0 takes this one alone.
	AllAlphaMgL float64
}

// AlphaMgL is the alpha acid the charge brings, mg/L.
func (s Steep) AlphaMgL() float64 {
	if !(s.VolumeL > 0) {
		return 0
	}
	return s.AlphaPct / 100 * s.MassG * 1000 / s.VolumeL
}

// effective is its share of the alpha that counts, mg/L.
func (s Steep) effective() float64 {
	alpha := s.AlphaMgL()
	all := math.Max(s.AllAlphaMgL, alpha)
	if all <= 0 {
		return 0
	}
	return EffectiveAlpha(all) * alpha / all
}

// Boiled is the bitterness of minutes at 100 °C, IBU: the published
// utilisation, with saturation.
func (s Steep) Boiled(minutes float64) float64 {
	return TinsethUtilisation(minutes, s.WortSG) * s.effective()
}

// Stood is the bitterness of a stand, IBU: hops in wort for minutes, which by
// the isomerisation rate were worth boiling minutes (fewer). At the boil both
// are the same and so is the result with [Steep.Boiled]; far below it, what
// does not depend on heat remains.
func (s Steep) Stood(minutes, boilingMinutes float64) float64 {
	return s.stood(minutes, boilingMinutes, otherIBUPerGL)
}

func (s Steep) stood(minutes, boilingMinutes, otherPerGL float64) float64 {
	if !(minutes > 0) || !(s.VolumeL > 0) {
		return 0
	}
	whole := s.Boiled(minutes)
	if !(whole > 0) {
		return 0
	}
	grown := math.Min(1, TinsethUtilisation(minutes, s.WortSG)/TinsethUtilisation(otherMinutes, s.WortSG))
	other := math.Min(otherPerGL*s.MassG/s.VolumeL, otherShare*s.Boiled(otherMinutes)) * grown
	heat := math.Min(1, TinsethUtilisation(boilingMinutes, s.WortSG)/TinsethUtilisation(minutes, s.WortSG))
	return other + (whole-other)*heat
}

// IBU is the bitterness of one charge of hops held at one temperature: the
// boil at 100 °C, below it a stand.
func IBU(s Steep, minutes, temperatureC float64) float64 {
	if temperatureC >= boilC {
		return s.Boiled(minutes)
	}
	return s.Stood(minutes, minutes*RelativeRate(temperatureC))
}

// Charge is one addition of hops.
type Charge struct {
	AlphaPct  float64
	MassG     float64
	Whirlpool bool    // after the boil; otherwise
	Minutes   float64 // boiled, no longer than the boil
}

// Brew is a boil and what follows it, as far as hops go.
type Brew struct {
	Hops      []Charge
	WortSG    float64 // of the wort in the boil
	VolumeL   float64 // all cool wort in the vessel at its end, which shares the bitterness
	VesselL   float64
	AltitudeM float64 // above the sea: a boil on a mountain is cooler

	BoilMinutes      float64
	WhirlpoolMinutes float64
	StandMinutes     float64
	WhirlpoolStartC  float64

	// BeerShare is what the beer keeps of the wort's bitterness in a litre, 0 to
	// 1: less where honey goes in later.
	BeerShare float64
}

// Stand is what happens to wort between flame-out and the chiller: whirlpool,
// stand, and the wait of the average litre for its turn to be run off.
type Stand struct {
	Minutes        float64
	BoilingMinutes float64 // worth this many at 100 °C by the isomerisation rate
	StartC, EndC   float64 // EndC: when the run-off begins
}

// Stand works out what the wort goes through after the boil.
func (b Brew) Stand() Stand {
	k := Kettle{
		VolumeL: b.VolumeL, SurfaceCM2: VesselSurfaceCM2(b.VesselL),
		OpeningPct: 100, RoomC: usualRoomC,
	}
	standingMinutes := b.WhirlpoolMinutes + b.StandMinutes
	s := Stand{
		Minutes: standingMinutes + math.Max(0, b.VolumeL)/runOffLPerMin/2,
		StartC:  math.Min(b.WhirlpoolStartC, water.BoilingPointC(b.AltitudeM)),
	}
	s.EndC = k.Cool(s.StartC, standingMinutes)
	if !(s.Minutes > 0) || !(b.VolumeL > 0) {
		return s
	}
	k.walk(s.StartC, s.Minutes, func(from, to, dt float64) {
		s.BoilingMinutes += dt * RelativeRate((from+to)/2)
	})
	return s
}

// MostIBU is about the bitterness that beer can hold: iso-alpha acids dissolve to
// some 100 to 120 mg/L in beer of pH 4.2 to 4.5, what is more stays on break and
// yeast (from memory; beers that a laboratory found above 120 are rare). What is
// not known of it is a sixth either way (ours).
const (
	MostIBU      = 120.0
	mostDoubtIBU = 20.0
)

// ByCharge gives each charge its bitterness in the beer, in the order of the
// charges, all together [MostIBU] at most; nothing where there is no wort.
func (b Brew) ByCharge() []Band {
	all := b.Undissolved()
	var sum Band
	for _, h := range all {
		sum = sum.plus(h)
	}
	share := func(x, most float64) float64 { return math.Min(1, most/math.Max(x, 1)) }
	low, mid, high := share(sum.Low, MostIBU-mostDoubtIBU), share(sum.Mid, MostIBU), share(sum.High, MostIBU+mostDoubtIBU)
	for i := range all {
		h := &all[i]
		h.Low, h.Mid, h.High = h.Low*low, h.Mid*mid, h.High*high
	}
	return all
}

// Undissolved is [Brew.ByCharge] without a limit to what beer can hold.
func (b Brew) Undissolved() []Band {
	if len(b.Hops) == 0 || !(b.VolumeL > 0) {
		return nil
	}
	all := 0.0
	for _, h := range b.Hops {
		all += Steep{AlphaPct: h.AlphaPct, MassG: h.MassG, VolumeL: b.VolumeL}.AlphaMgL()
	}
	stand := b.Stand()
	slower := RelativeRate(water.BoilingPointC(b.AltitudeM))
	out := make([]Band, len(b.Hops))
	for i, h := range b.Hops {
		s := Steep{AlphaPct: h.AlphaPct, MassG: h.MassG, VolumeL: b.VolumeL, WortSG: b.WortSG, AllAlphaMgL: all}
		boiled := 0.0
		if !h.Whirlpool {
			boiled = math.Min(math.Min(h.Minutes, b.BoilMinutes), MaxTinsethMinutes)
		}
		out[i] = s.boilAndStand(boiled, boiled*slower, stand).times(b.BeerShare)
	}
	return out
}

// Bitterness is what all hops together give the beer.
func (b Brew) Bitterness() Band {
	var sum Band
	for _, h := range b.ByCharge() {
		sum = sum.plus(h)
	}
	return sum
}

// boilAndStand is boil and stand together, with its band: low leaves the stand of
// boiled hops out, both ends take the bounds of what does not depend on heat.
func (s Steep) boilAndStand(boiled, worth float64, stand Stand) Band {
	at := func(other float64) float64 {
		return s.stood(boiled+stand.Minutes, worth+stand.BoilingMinutes, other)
	}
	b := Band{Low: at(otherLow), Mid: at(otherIBUPerGL), High: at(otherHigh)}
	if boiled > 0 {
		b.Low = math.Min(b.Low, s.stood(boiled, worth, otherLow))
	}
	return Band{b.Low * (1 - relativeDoubt), b.Mid, b.High * (1 + relativeDoubt)}
}

// Notes say where more bitterness is asked for than beer can hold.
func (b Brew) Notes() []message.Message {
	asked := 0.0
	for _, h := range b.Undissolved() {
		asked += h.Mid
	}
	if asked <= MostIBU {
		return nil
	}
	return []message.Message{message.New("the hops would give {asked} by the formula, and beer holds about {most} in solution: the rest is wasted, so use less hops",
		quantity.Of(quantity.Bitterness, asked), quantity.Of(quantity.Bitterness, MostIBU))}
}
