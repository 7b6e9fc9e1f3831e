package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Measured is what the instruments said on the day so far: NaN where they said
// nothing yet. Temperatures in °C, volumes in litres (before and after the boil hot,
// in the fermenter cool), gravities of a cooled sample.
type Measured struct {
	StrikeC, MashC         float64
	PreBoilL, PreBoilSG    float64
	PostBoilL, PostBoilSG  float64
	FermenterL, OriginalSG float64
	PitchC                 float64
}

// NothingMeasured is a day of which nothing was measured.
func NothingMeasured() Measured {
	n := math.NaN()
	return Measured{n, n, n, n, n, n, n, n, n}
}

// Of is where a kind of reading stands; nil for one that the day does not know.
func (m *Measured) Of(what string) *float64 {
	switch what {
	case measured.StrikeTemperature:
		return &m.StrikeC
	case measured.MashTemperature:
		return &m.MashC
	case measured.PreBoilVolume:
		return &m.PreBoilL
	case measured.PreBoilGravity:
		return &m.PreBoilSG
	case measured.PostBoilVolume:
		return &m.PostBoilL
	case measured.PostBoilGravity:
		return &m.PostBoilSG
	case measured.VolumeFermenter:
		return &m.FermenterL
	case measured.OriginalGravity:
		return &m.OriginalSG
	case measured.BeerTemperature:
		return &m.PitchC
	}
	return nil
}

// Setting is a value of the design by its key.
type Setting struct {
	Key   string
	Value float64
}

// Way is one thing that can still be done about a measurement.
type Way struct {
	Text     message.Message
	Short    message.Message // for the table on paper; empty: it is not there
	Settings []Setting       // of the design, when it is taken; none: nothing of it changes
	Again    string          // what is to be measured anew afterwards; "": nothing

	IntoFermenterL, OriginalSG float64 // what it leads to, by the balance; 0: not told
}

// Answer is what the plan says to a measurement.
type Answer struct {
	AsPlanned bool
	Means     message.Message // what it means for the beer
	Ways      []Way           // what can still be done, what costs least first
}

// So near to the plan a measurement is as planned: what a good instrument and a mark
// on the vessel are good to (common practice, no source).
const (
	nearC     = 0.5
	nearSG    = 0.0015
	nearShare = 0.03 // of a volume
	pitchNear = 1.0  // °C
)

// AnswerTo compares a measurement with the plan of the design, and says what can
// still be done. what is the kind of the reading that was made last, and m has it
// already; the prediction is that of before it was made.
//
// Extract stays what it is, only water comes and goes: V1 (SG1 - 1) = V2 (SG2 - 1),
// counted by mass. Heat is a balance: water, grain and vessel.
func AnswerTo(d design.Design, p calc.Prediction, what string, m Measured) Answer {
	at := m.Of(what)
	if at == nil || math.IsNaN(*at) {
		return Answer{AsPlanned: true}
	}
	b := newBrew(d, p)
	switch what {
	case measured.StrikeTemperature:
		return b.strikeIs(m.StrikeC)
	case measured.MashTemperature:
		return b.mashIs(m.MashC)
	case measured.PreBoilVolume, measured.PreBoilGravity:
		return b.beforeBoilIs(or(m.PreBoilL, b.plan.PreBoil), or(m.PreBoilSG, b.preBoilSG), math.IsNaN(m.PreBoilSG))
	case measured.PostBoilVolume, measured.PostBoilGravity:
		return b.afterBoilIs(or(m.PostBoilL, b.plan.PostBoil), or(m.PostBoilSG, b.postBoilSG), math.IsNaN(m.PostBoilSG))
	case measured.VolumeFermenter, measured.OriginalGravity:
		return b.fermenterIs(or(m.FermenterL, b.plan.IntoFermenter), m.OriginalSG)
	}
	return b.pitchIs(m.PitchC)
}

func (a *Answer) add(w Way) { a.Ways = append(a.Ways, w) }

func or(v, otherwise float64) float64 {
	if math.IsNaN(v) {
		return otherwise
	}
	return v
}

// pitchIs answers to the wort's temperature before the yeast goes in.
func (b *brew) pitchIs(c float64) Answer {
	want := b.yeast.TemperatureC
	switch {
	case math.Abs(c-want) <= pitchNear || want <= 0:
		return Answer{AsPlanned: true}
	case c > want+pitchOverC:
		return Answer{
			Means: message.New("Too warm to pitch: yeast grows fast and makes fusel alcohols and esters above {temperature}", celsius(want+pitchOverC)),
			Ways:  []Way{{Text: message.New("Close it, cool it to {temperature} or less, then pitch", celsius(want+pitchOverC)), Again: measured.BeerTemperature}},
		}
	case c > want:
		return Answer{
			Means: message.New("A little warm: pitch, and bring it to {temperature} within half a day", celsius(want)),
			Ways:  []Way{{Text: message.New("Pitch now and cool on to {temperature}", celsius(want))}},
		}
	}
	return Answer{
		Means: message.New("Colder than planned: it starts later, by hours"),
		Ways: []Way{
			{Text: message.New("Pitch, and let it warm to {temperature}", celsius(want))},
			{Text: message.New("Stand it warm until it shows {temperature}, then pitch", celsius(want-pitchNear)), Again: measured.BeerTemperature},
		},
	}
}

// upMinutes are minutes that a person sets a heater for.
func upMinutes(m float64) quantity.Quantity { return minutes(math.Max(1, math.Ceil(m))) }
