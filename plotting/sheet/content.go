package sheet

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/taste"
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
	return Paper{}, message.NewError("paper {name}: expected a4 or letter", name)
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
	Start      Start
	Format     Formatter
	Language   string // of the words, "en"
}

// Start is when the day begins; the zero Start prints no hours.
type Start struct {
	At    time.Time // in the zone that the clock on the wall shows
	Dated bool      // its day is known, not the hour alone
}

// clock is the hour of so many minutes after the start; empty without one.
func (c *Content) clock(dayMin float64) string {
	if c.Start.At.IsZero() {
		return ""
	}
	return c.at(dayMin).Format("15:04")
}

func (c *Content) at(dayMin float64) time.Time {
	return c.Start.At.Add(time.Duration(dayMin * float64(time.Minute)))
}

// day is the day and the hour of so many minutes after the start: "Sun 6, 14:00";
// empty where the day is not known.
func (c *Content) day(dayMin float64) string {
	if c.Start.At.IsZero() || !c.Start.Dated {
		return ""
	}
	t := c.at(dayMin).Round(time.Hour)
	return message.New("{weekday} {day}, {hour}", quantity.Weekday(t.Weekday()), strconv.Itoa(t.Day()), t.Format("15:04")).In(c.Format.Translate, c.value)
}

// hourOf is when an event is expected; empty without a start.
func (c *Content) hourOf(e *brewday.Event) string {
	if e.Clock == brewday.SincePitch {
		return c.day(e.DayMin)
	}
	return c.clock(e.DayMin)
}

// date is the day of the brew, as everybody writes it; empty where it is not known.
func (c *Content) date() string {
	switch {
	case c.Start.Dated:
		return c.Start.At.Format(time.DateOnly)
	case c.Design.Batch.Brewed != "":
		return string(c.Design.Batch.Brewed)
	}
	return ""
}

// target is one number of the headline.
type target struct {
	label message.Message
	quantity.Quantity
	word message.Message
}

func (c *Content) targets() []target {
	p := &c.Prediction
	q := func(k quantity.Kind, b calc.Band) quantity.Quantity {
		return quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
	}
	list := []target{
		{message.New("original gravity"), q(quantity.Gravity, p.OriginalGravitySG), message.Message{}},
		{message.New("final gravity"), q(quantity.Gravity, p.FinalGravitySG), message.Message{}},
		{message.New("strength"), q(quantity.Strength, p.StrengthPct), message.Message{}},
		{message.New("dryness"), q(quantity.Index, p.Dryness), taste.WordOf(p.DrynessWord)},
		{message.New("body"), q(quantity.Index, p.Body), taste.WordOf(p.BodyWord)},
		{message.New("bitterness"), q(quantity.Bitterness, p.BitternessIBU), message.Message{}},
		{message.New("colour"), q(quantity.Colour, p.ColourEBC), message.Message{}},
	}
	return list
}

// taught says what the predictions use; empty where no batch has taught.
func (c *Content) taught() string {
	if c.Batches == 0 {
		return ""
	}
	return c.say(message.Counted("Predicted with what one finished batch has taught of this kit and palate.",
		"Predicted with what {count} finished batches have taught of this kit and palate.", c.Batches))
}

// say is a message in the person's language, its values not to be broken over
// lines.
func (c *Content) say(m message.Message) string { return m.In(c.Format.Translate, c.value) }

// text is a message without values.
func (c *Content) text(text string) string { return c.say(message.Message{Text: text}) }

// title is the design's, or what stands for none.
func (c *Content) title() string {
	if t := clean(c.Design.Title); t != "" {
		return t
	}
	return c.text("Brew without a name")
}

// subtitle says what is brewed in a line, and when.
func (c *Content) subtitle() string {
	if d := c.date(); d != "" {
		return c.loose(message.New("{brew}, brewed {date}", c.brew(), d))
	}
	return c.brew()
}

func (c *Content) brew() string {
	litres, energy := quantity.Of(quantity.Volume, c.Design.Batch.IntoFermenterL), quantity.Of(quantity.Energy, c.Prediction.EnergyKJPerL.Mid)
	yeast, honey := clean(c.Prediction.Yeast), quantity.Of(quantity.MassKg, c.honeyKg())
	character := taste.CharacterWordOf(c.Prediction.HoneyCharacterWord)
	withHoney := !character.Empty() && honey.Value > 0
	switch {
	case withHoney && yeast != "":
		return c.loose(message.New("{volume} into the fermenter, {yeast}, {mass} of honey (character {word}), {energy}", litres, yeast, honey, character, energy))
	case withHoney:
		return c.loose(message.New("{volume} into the fermenter, {mass} of honey (character {word}), {energy}", litres, honey, character, energy))
	case yeast != "":
		return c.loose(message.New("{volume} into the fermenter, {yeast}, {energy}", litres, yeast, energy))
	}
	return c.loose(message.New("{volume} into the fermenter, {energy}", litres, energy))
}

// loose is a message whose lines may break anywhere.
func (c *Content) loose(m message.Message) string {
	return strings.ReplaceAll(c.say(m), "\u00a0", " ")
}

func (c *Content) honeyKg() float64 {
	sum := 0.0
	for _, h := range c.Design.Honey {
		sum += h.MassKg
	}
	return sum
}

// fine is the small print at the foot of every page.
func (c *Content) fine() string {
	return c.text("Estimates for the kit as described. Local law and the makers' instructions come first.")
}

// bandsAre explains the ranges.
func (c *Content) bandsAre() string {
	return c.text("Ranges hold four brews in five (10th to 90th percentile).")
}

// value writes what stands in a place of a message, not to be broken over lines.
func (c *Content) value(v any) string {
	if q, ok := v.(quantity.Quantity); ok {
		return nobreak(c.Format.Quantity(q))
	}
	return nobreak(fmt.Sprint(v))
}

// stepHour is when a step is expected to begin; empty without a start, and for what
// waits for the yeast.
func (c *Content) stepHour(step *brewday.Step) string {
	switch step.Key {
	case brewday.Honey, brewday.Packaging:
		return ""
	}
	return c.clock(step.BeginsMin)
}
