package sheet

import (
	"fmt"

	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/plotting"
)

// Formatter writes quantities in the person's units.
type Formatter interface {
	// Quantity is the value with its unit, without its band: "1.048", "14 g".
	Quantity(q quantity.Quantity) string
	// Range is the band with one unit: "1.045–1.051".
	Range(q quantity.Quantity) string
	// Unit is what stands behind a blank: "L", "°C"; empty where there is none.
	Unit(k quantity.Kind) string
	// Translate is a message's text in the person's language, its places not
	// filled.
	Translate(m message.Message) string
	// Axis is a kind as a picture's axis shows it.
	Axis(k quantity.Kind) plotting.Unit
}

// Paper is a size of paper.
type Paper struct {
	Name          string
	Width, Height float64 // points
}

// The papers.
var (
	A4     = Paper{"a4", 595.28, 841.89} // 210 by 297 mm
	Letter = Paper{"letter", 612, 792}   // 8.5 by 11 in
)

// PaperOf finds a paper by its name.
func PaperOf(name string) (Paper, error) {
	for _, p := range []Paper{A4, Letter} {
		if p.Name == name {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("paper %q: expected a4 or letter", name)
}

// Course is the predicted fermentation. The slices are of one length.
type Course struct {
	Hours        []float64
	GravitySG    []calc.Band
	TemperatureC []float64 // that the beer is kept at
}

// Content is what a sheet shows.
type Content struct {
	Design     design.Design
	Prediction calc.Prediction
	Day        brewday.Day
	Lines      []plotting.Line // of the four pictures, the present design last
	Ranges     plotting.Ranges
	Course     Course            // no hours: no curve
	Compare    []calc.Prediction // every yeast of the design; none: no table
	Batches    int               // that taught the kit it is predicted for; 0: none
	Format     Formatter
	Language   string // of the words, "en"
}

// target is one number of the headline.
type target struct {
	label string
	quantity.Quantity
	word string
}

func (c *Content) targets() []target {
	p := &c.Prediction
	q := func(k quantity.Kind, b calc.Band) quantity.Quantity {
		return quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
	}
	list := []target{
		{"original gravity", q(quantity.Gravity, p.OriginalGravitySG), ""},
		{"final gravity", q(quantity.Gravity, p.FinalGravitySG), ""},
		{"strength", q(quantity.Strength, p.StrengthPct), ""},
		{"dryness", q(quantity.Index, p.Dryness), p.DrynessWord},
		{"body", q(quantity.Index, p.Body), p.BodyWord},
		{"bitterness", q(quantity.Bitterness, p.BitternessIBU), ""},
		{"colour", q(quantity.Colour, p.ColourEBC), ""},
	}
	return list
}

// taught says what the predictions use; empty where no batch has taught.
func (c *Content) taught() string {
	switch c.Batches {
	case 0:
		return ""
	case 1:
		return "Predicted with what one finished batch has taught of this kit and palate."
	}
	return fmt.Sprintf("Predicted with what %d finished batches have taught of this kit and palate.", c.Batches)
}

// title is the design's, or what stands for none.
func (c *Content) title() string {
	if t := clean(c.Design.Title); t != "" {
		return t
	}
	return "Brew without a name"
}

// subtitle says what is brewed in a line.
func (c *Content) subtitle() string {
	f := c.Format
	s := f.Quantity(quantity.Quantity{Kind: quantity.Volume, Value: c.Design.Batch.IntoFermenterL}) + " into the fermenter"
	if c.Prediction.Yeast != "" {
		s += ", " + clean(c.Prediction.Yeast)
	}
	if h := c.Prediction.HoneyCharacterWord; h != "" && c.honeyKg() > 0 {
		s += ", " + f.Quantity(quantity.Quantity{Kind: quantity.MassKg, Value: c.honeyKg()}) + " of honey (character " + h + ")"
	}
	return s + ", " + f.Quantity(quantity.Quantity{Kind: quantity.Energy, Value: c.Prediction.EnergyKJPerL.Mid})
}

func (c *Content) honeyKg() float64 {
	sum := 0.0
	for _, h := range c.Design.Honey {
		sum += h.MassKg
	}
	return sum
}

// small print at the foot of every page.
const fine = "Estimates for the kit as described. Local law and the makers' instructions come first."

// bandsAre explains the ranges.
const bandsAre = "Ranges hold four brews in five (10th to 90th percentile)."

// value writes what stands in a place of a message, not to be broken over lines.
func (c *Content) value(v any) string {
	if q, ok := v.(quantity.Quantity); ok {
		return nobreak(c.Format.Quantity(q))
	}
	return nobreak(fmt.Sprint(v))
}
