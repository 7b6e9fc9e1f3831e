package paper

import (
	"io"
	"math"

	"skep/app/ghost"
	"skep/app/safetext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/plotting"
	"skep/plotting/sheet"
)

// The temperatures drawn are those of the window's lever; a picture this small
// needs no finer step.
const stepC = 0.5

// Options are what a person may choose about a sheet.
type Options struct {
	Paper  sheet.Paper // zero: A4
	Units  quantity.Units
	Yeasts bool // with the table that compares the design's yeasts
	// Doubts are what a person's batches have narrowed; zero: the engine's own.
	Doubts calc.Doubts
	// Known is the design as its readings have left it; nil: as planned.
	Known *follow.Known
	// Start is when the day begins; zero: the sheet tells no hours.
	Start sheet.Start
	// Batches is how many batches the design and the doubts are taught by.
	Batches int
}

// PDF writes the sheet of a design. An error is the design's
// fault, or the writer's.
func PDF(w io.Writer, d design.Design, o Options) error {
	c, err := Content(d, o)
	if err != nil {
		return err
	}
	p := o.Paper
	if p.Width == 0 {
		p = sheet.A4
	}
	return sheet.PDF(w, c, p)
}

// Text writes the same as plain text.
func Text(w io.Writer, d design.Design, o Options) error {
	c, err := Content(d, o)
	if err != nil {
		return err
	}
	return sheet.Text(w, c)
}

// Content works out what the sheet shows. The error says what is wrong with the
// design.
func Content(d design.Design, o Options) (sheet.Content, error) {
	plan := calc.NewEngine()
	if err := plan.SetDoubts(o.Doubts); err != nil {
		return sheet.Content{}, err
	}
	engine := plan
	earlier, before := Ghost(d)
	if o.Known != nil {
		d, engine = o.Known.Conditioned.Design, o.Known.Engine
	}
	d = legible(d)
	p, now, err := engine.Frame(d, 0, Temperatures(d.Mash.Rest[0].TemperatureC, stepC))
	if err != nil {
		return sheet.Content{}, err
	}
	c := sheet.Content{
		Design: d, Prediction: p, Day: brewday.Plan(d, p), Language: words.Speaks().Tag.String(), Batches: o.Batches, Start: o.Start,
		Format: Formatter{quantity.NewFormatter(o.Units, words.Translate)},
	}
	if !before {
		plan = nil
	}
	if err := pictures(now, plan, earlier, &c); err != nil {
		return sheet.Content{}, err
	}
	course, err := engine.Course(d, 0)
	if err != nil {
		return sheet.Content{}, err
	}
	c.Course = sheet.Course{Hours: course.Hours, GravitySG: course.GravitySG, TemperatureC: course.TemperatureC}
	if o.Yeasts {
		c.Compare = append(c.Compare, p) // its own, the first
		for i := 1; i < len(d.Yeast); i++ {
			other, err := engine.PredictYeast(d, i)
			if err != nil {
				return sheet.Content{}, err
			}
			c.Compare = append(c.Compare, other)
		}
	}
	return c, nil
}

// legible is a design whose texts, which somebody else may have written, hold no
// character that a terminal or a printer would obey.
func legible(d design.Design) design.Design {
	d = d.Clone()
	d.Title, d.Notes, d.Kit.Name = safetext.Line(d.Title), safetext.Text(d.Notes), safetext.Line(d.Kit.Name)
	for i := range d.Grain {
		d.Grain[i].Name = safetext.Line(d.Grain[i].Name)
	}
	for i := range d.Yeast {
		d.Yeast[i].Name = safetext.Line(d.Yeast[i].Name)
	}
	for i := range d.Honey {
		d.Honey[i].Name = safetext.Line(d.Honey[i].Name)
	}
	for i := range d.Hop {
		d.Hop[i].Name = safetext.Line(d.Hop[i].Name)
	}
	return d
}

// pictures fills in the curves of the design as it is now and of its ghost, which
// stays a plan; without an engine for it there is none.
func pictures(now calc.Curves, plan *calc.Engine, earlier design.Design, c *sheet.Content) error {
	d := c.Design
	all := []calc.Curves{now}
	c.Lines = []plotting.Line{{Name: c.Prediction.Yeast, Role: plotting.Now, Curves: now, Marks: c.Prediction.Four()}}
	if plan != nil {
		before, err := plan.Curves(earlier, 0, now.TemperatureC)
		if err != nil {
			return message.NewError("the ghost: {error}", err)
		}
		c.Lines = append([]plotting.Line{{Name: d.Ghost.Name, Role: plotting.Before, Curves: before}}, c.Lines...)
		all = append(all, before)
	}
	c.Ranges = plotting.Span(all...)
	return nil
}

// Temperatures is the range of the mash rest's lever by steps, and the design's own
// temperature if it lies outside.
func Temperatures(atC, stepC float64) []float64 {
	from, to := math.Min(lever.RestLowC, atC), math.Max(lever.RestHighC, atC)
	n := int(math.Ceil((to - from) / stepC))
	out := make([]float64, n+1)
	for i := range out {
		out[i] = from + (to-from)*float64(i)/float64(n)
	}
	return out
}

// Ghost is the design with its ghost's settings, where it has any. One that does not fit
// was warned of when the file was read; it is left out.
func Ghost(d design.Design) (design.Design, bool) {
	if d.Ghost == nil || len(d.Ghost.Settings) == 0 {
		return d, false
	}
	return ghost.Design(d)
}
