// Package watertest works a kit's numbers out from an hour with plain water: how
// fast it heats, what it boils away, what stays behind where, and how far its
// thermometer is off in melting ice and in boiling water.
//
// What was measured comes in; out comes each number of the kit with the arithmetic
// that led to it. It knows no design, no file and no window.
package watertest

import (
	"math"

	"skep/calc/cautions"
	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/water"
)

// Kit is what of the kit the test needs beside its own measurements.
type Kit struct {
	VesselHeatKJPerK float64 // heat that the vessel itself takes
	HeaterW          float64 // as the kit has it; 0: not told
	LeftWithBreakL   float64
	AltitudeM        float64
}

// Test is what was measured. What is NaN was not; [New] has measured nothing.
type Test struct {
	HeatL, HeatFromC, HeatToC, HeatMinutes                        float64
	BoilBeforeL, BoilBeforeC, BoilAfterL, BoilAfterC, BoilMinutes float64
	BedInL, BedOutL, TapInL, TapOutL, ChillerInL, ChillerOutL     float64
	IceC, BoilingC                                                float64
}

// New is a test in which nothing was measured yet.
func New() Test {
	var t Test
	for _, p := range Parts() {
		for _, in := range p.Inputs {
			*in.Of(&t) = math.NaN()
		}
	}
	return t
}

// Input is one measurement of a part.
type Input struct {
	Name      string // as a command has it
	Label     message.Message
	Kind      quantity.Kind
	Low, High float64
	Optional  bool
	Of        func(*Test) *float64
}

// Part is one of the things that are done with the water.
type Part struct {
	Title    message.Message
	Do       message.Message // how it is done
	Cautions []message.Message
	Inputs   []Input
	work     func(*Test, Kit) (Result, error)
}

// Result is one number of the kit.
type Result struct {
	Key        string // in the design, such as kit.steam_l_per_h
	Value      float64
	Kind       quantity.Kind
	Arithmetic message.Message
	Note       message.Message // what to think of it; may be empty
}

// Parts are the test in its order: cold water first.
func Parts() []Part {
	litres := func(name string, label message.Message, of func(*Test) *float64) Input {
		return Input{name, label, quantity.Volume, 0, 400, false, of}
	}
	celsius := func(name string, label message.Message, low, high float64, of func(*Test) *float64) Input {
		return Input{name, label, quantity.Temperature, low, high, false, of}
	}
	optional := func(in Input) Input { in.Optional = true; return in }
	minutes := func(name string, of func(*Test) *float64) Input {
		return Input{name, message.New("minutes"), quantity.Minutes, 1, 600, false, of}
	}
	return []Part{
		{
			Title: message.New("What the pump can't draw"),
			Do:    message.New("Grain basket in, a measured volume poured over it; pump out what comes, and measure that."),
			Inputs: []Input{
				litres("bed_in_l", message.New("poured in"), func(t *Test) *float64 { return &t.BedInL }),
				litres("bed_out_l", message.New("pumped out"), func(t *Test) *float64 { return &t.BedOutL }),
			},
			work: func(t *Test, _ Kit) (Result, error) { return behind("kit.under_the_bed_l", t.BedInL, t.BedOutL) },
		},
		{
			Title: message.New("What stays in the chiller"),
			Do:    message.New("A measured volume through the empty chiller and its hoses, as on a brewing day; measure what comes out."),
			Inputs: []Input{
				litres("chiller_in_l", message.New("run in"), func(t *Test) *float64 { return &t.ChillerInL }),
				litres("chiller_out_l", message.New("came out"), func(t *Test) *float64 { return &t.ChillerOutL }),
			},
			work: func(t *Test, _ Kit) (Result, error) {
				return behind("kit.left_in_chiller_l", t.ChillerInL, t.ChillerOutL)
			},
		},
		{
			Title: message.New("How fast it heats"),
			Do:    message.New("A measured volume of cold water, lid on, pump running, heater full; the minutes from one temperature to another, both below 80 °C."),
			Inputs: []Input{
				litres("heat_l", message.New("water"), func(t *Test) *float64 { return &t.HeatL }),
				minutes("heat_minutes", func(t *Test) *float64 { return &t.HeatMinutes }),
				celsius("heat_from_c", message.New("from"), 0, 95, func(t *Test) *float64 { return &t.HeatFromC }),
				celsius("heat_to_c", message.New("to"), 0, 95, func(t *Test) *float64 { return &t.HeatToC }),
			},
			Cautions: []message.Message{cautions.Mains()},
			work:     heating,
		},
		{
			Title: message.New("What it boils away"),
			Do:    message.New("Boil as you would wort, lid off, from the first roll on; measure before and after, each with its temperature: hot water is up to 4 % larger."),
			Inputs: []Input{
				litres("boil_before_l", message.New("before"), func(t *Test) *float64 { return &t.BoilBeforeL }),
				optional(celsius("boil_before_c", message.New("at (20 °C if left out)"), 0, 100, func(t *Test) *float64 { return &t.BoilBeforeC })),
				litres("boil_after_l", message.New("after"), func(t *Test) *float64 { return &t.BoilAfterL }),
				optional(celsius("boil_after_c", message.New("at (20 °C if left out)"), 0, 100, func(t *Test) *float64 { return &t.BoilAfterC })),
				minutes("boil_minutes", func(t *Test) *float64 { return &t.BoilMinutes }),
			},
			Cautions: []message.Message{cautions.Scald()},
			work:     boiling,
		},
		{
			Title: message.New("What the tap leaves"),
			Do:    message.New("When it has cooled: a measured volume in the vessel, run off through the tap; measure what came."),
			Inputs: []Input{
				litres("tap_in_l", message.New("in the vessel"), func(t *Test) *float64 { return &t.TapInL }),
				litres("tap_out_l", message.New("run off"), func(t *Test) *float64 { return &t.TapOutL }),
			},
			work: tap,
		},
		{
			Title: message.New("The thermometer"),
			Do:    message.New("Its probe in crushed ice with a little water, stirred, until it is steady; then in water at a rolling boil. One of the two will do, both are better."),
			Inputs: []Input{
				optional(celsius("ice_c", message.New("in melting ice"), -20, 20, func(t *Test) *float64 { return &t.IceC })),
				optional(celsius("boiling_c", message.New("in boiling water"), 60, 120, func(t *Test) *float64 { return &t.BoilingC })),
			},
			Cautions: []message.Message{cautions.Scald()},
			work:     thermometer,
		},
	}
}

// Work is what a part comes to; ok is false where nothing of it was measured. An
// error is a [message.Error], and names what is missing or can't be.
func (p *Part) Work(t *Test, kit Kit) (r Result, ok bool, err error) {
	var missing *Input
	for i := range p.Inputs {
		in := &p.Inputs[i]
		v := *in.Of(t)
		switch {
		case !math.IsNaN(v) && !(v >= in.Low && v <= in.High):
			return r, true, message.NewError("{what}: {value} is not between {low} and {high}", in.Label, quantity.Of(in.Kind, v), quantity.Of(in.Kind, in.Low), quantity.Of(in.Kind, in.High))
		case !math.IsNaN(v):
			ok = true
		case !in.Optional && missing == nil:
			missing = in
		}
	}
	if !ok {
		return r, false, nil
	}
	if missing != nil {
		return r, true, message.NewError("“{what}” is missing yet", missing.Label)
	}
	r, err = p.work(t, kit)
	return r, true, err
}

// behind is what went in and did not come out.
func behind(key string, in, out float64) (Result, error) {
	if out > in {
		return Result{}, message.NewError("more came out ({out}) than went in ({in})", litre(out), litre(in))
	}
	left := in - out
	return Result{Key: key, Value: round(left, 0.05), Kind: quantity.Volume,
		Arithmetic: message.New("{in} − {out} = {left} stays behind", litre(in), litre(out), litre(left))}, nil
}

// tap is what the run-off leaves of water. Hops and break hold more, so that the
// kit's own number is only ever raised.
func tap(t *Test, kit Kit) (Result, error) {
	r, err := behind("kit.left_with_break_l", t.TapInL, t.TapOutL)
	if err == nil && r.Value < kit.LeftWithBreakL {
		r.Value = kit.LeftWithBreakL
		r.Note = message.New("Hops and break hold more than water does: the {left} of the kit stay until a brew says otherwise", litre(kit.LeftWithBreakL))
	}
	return r, err
}

// heating is the power that goes into water and vessel; what is lost to the room
// on the way is left out of it, as on a brewing day.
//
//	P = (m c + C) (to - from) / t
func heating(t *Test, kit Kit) (Result, error) {
	rise := t.HeatToC - t.HeatFromC
	if rise < leastRiseK {
		return Result{}, message.NewError("from {from} to {to} is too little to measure by: {least} at least", celsiusOf(t.HeatFromC), celsiusOf(t.HeatToC), kelvin(leastRiseK))
	}
	mass := massKg(t.HeatL, t.HeatFromC)
	c := water.HeatKJPerKgK((t.HeatFromC + t.HeatToC) / 2)
	kj := (mass*c + kit.VesselHeatKJPerK) * rise
	power := kj * 1000 / (t.HeatMinutes * secondsPerMin)
	r := Result{Key: "kit.heater_w", Value: round(power, 10), Kind: quantity.Power,
		Arithmetic: message.New("({mass} × {c} kJ/kgK + vessel {vessel} kJ/K) × {rise} = {heat} kJ in {time}: {power}",
			quantity.Of(quantity.MassKg, mass), quantity.Of(quantity.Factor, c), quantity.Of(quantity.Tenths, kit.VesselHeatKJPerK),
			kelvin(rise), quantity.Of(quantity.Count, math.Round(kj)), quantity.Of(quantity.Minutes, t.HeatMinutes), quantity.Of(quantity.Power, power))}
	if power > mostHeaterW {
		return Result{}, message.NewError("{power} is no heater of a kitchen: look at the volume and the minutes again", quantity.Of(quantity.Power, power))
	}
	if kit.HeaterW > 0 && power > kit.HeaterW*1.1 {
		r.Note = message.New("That is more than the {power} of the kit: look at the volume and the minutes again", quantity.Of(quantity.Power, kit.HeaterW))
	}
	return r, nil
}

// boiling is what goes off as steam, in litres of cool water an hour.
func boiling(t *Test, kit Kit) (Result, error) {
	before, after := coolL(t.BoilBeforeL, t.BoilBeforeC), coolL(t.BoilAfterL, t.BoilAfterC)
	gone := before - after
	if gone < 0 {
		return Result{}, message.NewError("there is more after the boil ({after} as at 20 °C) than before ({before}): look at the temperatures again", litre(after), litre(before))
	}
	rate := gone * 60 / t.BoilMinutes
	r := Result{Key: "kit.steam_l_per_h", Value: round(rate, 0.01), Kind: quantity.LitresPerHour,
		Arithmetic: message.New("as at 20 °C: {before} − {after} = {gone} in {time}: {rate}", litre(before), litre(after), litre(gone),
			quantity.Of(quantity.Minutes, t.BoilMinutes), quantity.Of(quantity.LitresPerHour, rate))}
	if most := water.SteamLPerHAt(kit.HeaterW, water.BoilingPointC(kit.AltitudeM)); kit.HeaterW > 0 && rate > most {
		r.Note = message.New("A heater of {power} can boil away {most} at most: look at the volumes again", quantity.Of(quantity.Power, kit.HeaterW), quantity.Of(quantity.LitresPerHour, most))
	}
	return r, nil
}

// thermometer is how much too high it reads at mash temperature: on the line
// between melting ice and the boiling point, or as at the one that was tried.
func thermometer(t *Test, kit Kit) (Result, error) {
	boils := water.BoilingPointC(kit.AltitudeM)
	ice, hot := t.IceC-iceC, t.BoilingC-boils
	if math.Abs(ice) > mostOffK || math.Abs(hot) > mostOffK {
		return Result{}, message.NewError("more than {most} off is no thermometer to brew with, or the probe was not in the ice or the water", kelvin(mostOffK))
	}
	var high float64
	var how message.Message
	switch {
	case math.IsNaN(hot):
		high = ice
		how = message.New("in ice {ice} − 0.0 °C = {high}, taken for all temperatures", celsiusOf(t.IceC), kelvin(ice))
	case math.IsNaN(ice):
		high = hot
		how = message.New("water boils at {boils} here ({altitude}): {read} − that = {high}, taken for all temperatures", celsiusOf(boils), metres(kit.AltitudeM), celsiusOf(t.BoilingC), kelvin(hot))
	default:
		high = ice + (hot-ice)*(mashC-iceC)/(boils-iceC)
		how = message.New("in ice {ice} − 0.0 °C; water boils at {boils} here ({altitude}): {read} − that = {hot}; at {mash} between them {high}",
			celsiusOf(t.IceC), celsiusOf(boils), metres(kit.AltitudeM), celsiusOf(t.BoilingC), kelvin(hot), quantity.Of(quantity.Temperature, mashC), kelvin(high))
	}
	r := Result{Key: "kit.thermometer_reads_high_k", Value: round(high, 0.1), Kind: quantity.TemperatureDifference, Arithmetic: how}
	if !math.IsNaN(hot) {
		r.Note = message.New("Weather moves the boiling point by about {weather}, and the height above the sea must be right", kelvin(weatherK))
	}
	return r, nil
}

const (
	iceC          = 0.0  // melting ice in air-saturated water, to 0.01 °C (ITS-90's ice point)
	mashC         = 66.0 // where a kit's thermometer matters most
	secondsPerMin = 60.0
	leastRiseK    = 10.0 // so that a degree's error is no more than a tenth
	mostOffK      = 6.0  // more is a mistake, not an error (ours)
	mostHeaterW   = 30000.0
	// weatherK: the air's pressure keeps within about 1.2 kPa of its mean on most
	// days, and the boiling point moves by 0.28 K a kPa at 100 °C (IAPWS-IF97; the
	// spread of the weather is common practice, no source).
	weatherK = 0.3
	usualC   = 20.0 // of a volume whose temperature nobody gave
)

// massKg is the mass of water of a volume as measured at a temperature.
func massKg(litres, atC float64) float64 { return litres * density.WaterDensityKgM3(atC) / 1000 }

// coolL is a volume as it would be at 20 °C.
func coolL(litres, atC float64) float64 {
	if math.IsNaN(atC) {
		return litres
	}
	return massKg(litres, atC) / massKg(1, usualC)
}

func round(v, step float64) float64 { return math.Round(math.Round(v/step)*step*100) / 100 }

func litre(v float64) quantity.Quantity     { return quantity.Of(quantity.Volume, v) }
func celsiusOf(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
func kelvin(v float64) quantity.Quantity    { return quantity.Of(quantity.TemperatureDifference, v) }
func metres(v float64) message.Message {
	return message.New("{height} m above the sea", quantity.Of(quantity.Count, math.Round(v)))
}
