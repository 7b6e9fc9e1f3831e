package command

import (
	"bytes"
	"path/filepath"
	"strconv"
	"strings"

	"skep/app/command/helptext"
	"skep/app/paper"
	"skep/app/safetext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/taste"
	"skep/plotting"
	"skep/plotting/style"
)

// plotStepC is as fine as in the window.
const plotStepC = 0.25

type plotCommand struct {
	File   string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	Output string   `name:"output" short:"o" required:"" placeholder:"OUT" help:"The picture file to write: its ending, .png, .svg or .pdf, says what it is."`
	Set    []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change without touching the file; may be repeated."`
}

func (plotCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Final gravity, strength, dryness and body against the temperature of the first mash rest, each with its band of doubt, on a sheet for paper. The design's ghost is drawn as a dashed line.")), `skep plot gate-field.toml -o gate-field.pdf`)
}

func (c *plotCommand) Run(s *session) error {
	format, err := formatOf(c.Output)
	if err != nil {
		return misused(err)
	}
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	if err := set(&d, c.Set); err != nil {
		return err
	}
	sheet, err := s.sheetOf(d)
	if err != nil {
		return wrong(err)
	}
	var picture bytes.Buffer
	if err := plotting.Save(&picture, format, sheet); err != nil {
		return broken(err)
	}
	return s.write(c.Output, picture.Bytes())
}

func formatOf(path string) (plotting.Format, error) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	for _, f := range []plotting.Format{plotting.PNG, plotting.SVG, plotting.PDF} {
		if ending == string(f) {
			return f, nil
		}
	}
	return "", message.NewError("plot: can't tell what to write from {path}; end the name in .png, .svg or .pdf", strconv.Quote(path))
}

// sheetOf computes what the sheet shows of a design.
func (s *session) sheetOf(d design.Design) (plotting.Sheet, error) {
	engine := calc.NewEngine()
	at := d.Mash.Rest[0].TemperatureC
	temps := paper.Temperatures(at, plotStepC)
	p, now, err := engine.Frame(d, 0, temps)
	if err != nil {
		return plotting.Sheet{}, err
	}
	marks := [calc.Outcomes]calc.Band{
		calc.FinalGravity: p.FinalGravitySG, calc.Strength: p.StrengthPct, calc.Dryness: p.Dryness, calc.Body: p.Body,
	}
	lines := []plotting.Line{{Name: p.Yeast, Role: plotting.Now, Curves: now, Marks: marks}}
	all := []calc.Curves{now}
	if ghost, ok := paper.Ghost(d); ok {
		before, err := engine.Curves(ghost, 0, temps)
		if err != nil {
			return plotting.Sheet{}, message.NewError("the ghost: {error}", err)
		}
		lines = append([]plotting.Line{{Name: safetext.Line(d.Ghost.Name), Role: plotting.Before, Curves: before}}, lines...)
		all = append(all, before)
	}
	pictures := plotting.Four(lines, at, plotting.Span(all...), paper.Formatter{Formatter: s.say}.PlotUnits())
	titles := [calc.Outcomes]string{
		calc.FinalGravity: words.T("final gravity, {unit}", s.unit(quantity.Gravity)), calc.Strength: words.T("strength, % vol"),
		calc.Dryness: words.T("dryness, 0 to 100"), calc.Body: words.T("body, 0 to 100"),
	}
	value := func(k quantity.Kind, b calc.Band) string {
		return s.text(message.New("{value}", quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}))
	}
	worded := func(word string, b calc.Band) string {
		return words.T("{word}, {value}", words.Print(taste.WordOf(word)), value(quantity.Index, b))
	}
	values := [calc.Outcomes]string{
		calc.FinalGravity: value(quantity.Gravity, p.FinalGravitySG), calc.Strength: value(quantity.Strength, p.StrengthPct),
		calc.Dryness: worded(p.DrynessWord, p.Dryness), calc.Body: worded(p.BodyWord, p.Body),
	}
	for o := range pictures {
		pictures[o].Title, pictures[o].Value = titles[o], values[o]
	}
	return plotting.Sheet{
		Title: safetext.Line(d.Title),
		Caption: s.text(message.New("{yeast}, first mash rest {temperature}; bands from the 10th to the 90th percentile",
			p.Yeast, quantity.Of(quantity.Temperature, at))),
		Pictures: pictures,
		Palette:  style.Print(),
	}, nil
}
