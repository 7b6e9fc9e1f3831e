package brewday

import (
	"math"
	"strings"

	"skep/calc"
)

// Kind says what a quantity measures, and so its metric unit.
type Kind uint8

// The kinds, with the unit of Value, Low and High.
const (
	None                  Kind = iota // no quantity
	Count                             // a whole number of things
	Temperature                       // °C
	TemperatureDifference             // K
	Gravity                           // SG 20/20
	Points                            // a difference of gravity, in SG (0.003 is three points)
	Strength                          // % by volume
	MassG                             // g
	MassKg                            // kg
	Volume                            // L
	Millilitres                       // mL
	Minutes                           // min
	Hours                             // h
	Percent                           // %
	Index                             // 0 to 100
	Colour                            // EBC
	GramsPerLitre                     // g/L
	MgPerLitre                        // mg/L
	Bitterness                        // IBU
	PH                                // pH
	CO2Volumes                        // litres of gas at 0 °C and 1 atm a litre
	Pressure                          // bar above the atmosphere
	Cells                             // 1e9 cells
	Flow                              // L/min
	Power                             // W
	Energy                            // kJ/L
	Moment                            // a day and a time; Value means nothing
	LitresPerKg                       // liquor to grain, L/kg
	Kinds                             // how many there are
)

// Quantity is a number of a kind. Where Low and High are not both 0 it is
// uncertain, and they are its 10th and 90th percentile.
type Quantity struct {
	Kind             Kind
	Value, Low, High float64
}

// Banded says whether a quantity is uncertain.
func (q Quantity) Banded() bool { return q.Low != 0 || q.High != 0 }

// Plain is the quantity without its band.
func (q Quantity) Plain() Quantity { return Quantity{Kind: q.Kind, Value: q.Value} }

func of(k Kind, v float64) Quantity { return Quantity{Kind: k, Value: v} }

func band(k Kind, b calc.Band) Quantity { return Quantity{k, b.Mid, b.Low, b.High} }

// Short constructors of the commonest kinds.
func celsius(v float64) Quantity { return of(Temperature, v) }
func litres(v float64) Quantity  { return of(Volume, v) }
func grams(v float64) Quantity   { return of(MassG, v) }
func kilos(v float64) Quantity   { return of(MassKg, v) }
func minutes(v float64) Quantity { return of(Minutes, v) }
func hours(v float64) Quantity   { return of(Hours, v) }
func gravity(v float64) Quantity { return of(Gravity, v) }
func percent(v float64) Quantity { return of(Percent, v) }
func count(v float64) Quantity   { return of(Count, v) }

// place stands in a text where a quantity goes.
const place = "{}"

// Sentence is a text with a place {} for each quantity, in their order. A
// translation keeps the places and their order.
type Sentence struct {
	Text string
	With []Quantity
}

// Say makes a sentence.
func Say(text string, with ...Quantity) Sentence { return Sentence{text, with} }

// Empty says that there is nothing to say.
func (s Sentence) Empty() bool { return s.Text == "" }

// In is the sentence with its quantities as format writes them.
func (s Sentence) In(format func(Quantity) string) string {
	return Fill(s.Text, s.With, format)
}

// Fill is [Sentence.In] for a translated text.
func Fill(text string, with []Quantity, format func(Quantity) string) string {
	var b strings.Builder
	for _, q := range with {
		before, after, found := strings.Cut(text, place)
		if !found {
			break
		}
		b.WriteString(before)
		b.WriteString(format(q))
		text = after
	}
	b.WriteString(text)
	return b.String()
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
