package command

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"skep/app/begin"
	"skep/app/command/document"
	"skep/app/savefile"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/start"
)

type startCommand struct {
	Values []string `arg:"" optional:"" name:"KEY=VALUE" help:"What you have and want; the keys are listed above."`
	Output string   `name:"output" short:"o" placeholder:"OUT.toml" help:"Write the design here; a file that is there is not written over. Left out: to standard output."`
	JSON   bool     `name:"json" help:"Print one JSON object: where the design lands, what is left over."`
}

func (startCommand) Help() string {
	return `Makes a design from what you have: title, litres (into the fermenter), kit (one
of yours, or how much a kettle holds, in litres), honey (its kind), honey_kg (at
hand), honey_buy (yes: more of it may be bought), yeast (or "find one"),
strength_pct, dryness, body. What is left out has the same first value as in the
window. The grain is worked out so that the strength comes out on this kit.

  skep start title=Hedge kit=18 honey=heather honey_kg=0.45 strength_pct=5.2 -o hedge.toml`
}

// startKeys are the questions, in the order in which the answers hang on another.
func startKeys() []string {
	return []string{"title", "kit", "litres", "honey", "honey_kg", "honey_buy", "yeast", "strength_pct", "dryness", "body"}
}

func (c *startCommand) Run(s *session) error {
	given := map[string]string{}
	for _, kv := range c.Values {
		key, value, ok := strings.Cut(kv, "=")
		switch _, twice := given[key]; {
		case !ok || !slices.Contains(startKeys(), key):
			return misused(fmt.Errorf("start: %q: want KEY=VALUE with one of %s", kv, strings.Join(startKeys(), ", ")))
		case twice:
			return misused(fmt.Errorf("start: %s is there twice", key))
		}
		given[key] = strings.TrimSpace(value)
	}
	if c.JSON && c.Output == "" {
		return misused(errors.New("start: --json tells of the design that -o writes: say where"))
	}
	catalogue, err := assets.LoadCatalogue()
	if err != nil {
		return broken(err)
	}
	choices, problems := begin.Load(s.Folder, catalogue)
	for _, p := range problems {
		s.message("left out: %v", p)
	}
	answers, _ := choices.First("")
	answers.Title = firstTitle
	if err := answer(&choices, &answers, given); err != nil {
		return wrong(fmt.Errorf("start: %w", err))
	}
	b, err := start.Design(calc.NewEngine(), answers, choices.Larder(), nil)
	if err != nil {
		return wrong(fmt.Errorf("start: %w", err))
	}
	text, err := file.Encode(b.Design)
	if err != nil {
		return wrong(err)
	}
	if c.Output == "" {
		s.printf("%s", text)
		return nil
	}
	if savefile.IsThere(c.Output) {
		return wrong(fmt.Errorf("start: %s is there already, and is not written over: say another name", c.Output))
	}
	if err := savefile.Write(c.Output, text); err != nil {
		return broken(err)
	}
	return s.begun(&b, c.JSON)
}

// firstTitle is the design's where none is given.
const firstTitle = "Honey beer"

// answer puts what was given in the place of the first answers.
func answer(choices *begin.Choices, a *start.Answers, given map[string]string) error {
	number := func(key string, into *float64) error {
		v, err := strconv.ParseFloat(given[key], 64)
		if err != nil {
			return fmt.Errorf("%s=%s is no number", key, given[key])
		}
		*into = v
		return nil
	}
	for _, key := range startKeys() {
		value, ok := given[key]
		if !ok {
			if key == "honey_kg" {
				a.Honey.MassKg = start.FirstHoneyKg(a.LitresL)
			}
			continue
		}
		var err error
		switch key {
		case "title":
			a.Title = cmp.Or(value, firstTitle)
		case "kit":
			var k design.KitFile
			if k, err = choices.Kit(value, litres); err == nil {
				choices.SetKit(a, k)
			}
		case "litres":
			err = number(key, &a.LitresL)
		case "honey":
			err = choices.SetHoney(a, value)
		case "honey_kg":
			err = number(key, &a.Honey.MassKg)
		case "honey_buy":
			if a.MayBuy = value == "yes"; !a.MayBuy && value != "no" {
				err = fmt.Errorf("honey_buy=%s is not one of yes or no", value)
			}
		case "yeast":
			err = choices.SetYeast(a, value)
		case "strength_pct":
			err = number(key, &a.StrengthPct)
		case "dryness":
			a.Dryness = new(float64)
			err = number(key, a.Dryness)
		case "body":
			a.Body = new(float64)
			err = number(key, a.Body)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// litres reads a volume as a command has it: litres, with or without the unit.
func litres(text string) (float64, error) {
	return strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "L")), 64)
}

// begun tells where the design lands.
func (s *session) begun(b *start.Begun, asJSON bool) error {
	notes := []string{}
	for _, n := range b.Notes {
		notes = append(notes, n.String())
	}
	if asJSON {
		return s.json(document.Begin(b, notes))
	}
	p := &b.Prediction
	s.printf("%s: %.1f L, %.1f %%, dryness %.0f, body %.0f\n", b.Design.Title, b.Design.Batch.IntoFermenterL, p.StrengthPct.Mid, p.Dryness.Mid, p.Body.Mid)
	for _, g := range b.Design.Grain {
		s.printf("  %.2f kg %s\n", g.MassKg, g.Name)
	}
	for _, h := range b.Design.Honey {
		s.printf("  %.2f kg %s\n", h.MassKg, h.Name)
	}
	for _, h := range b.Design.Hop {
		s.printf("  %.0f g %s\n", h.MassG, h.Name)
	}
	s.printf("  %s\n", b.Design.Yeast[0].Name)
	for _, n := range notes {
		s.printf("Note: %s.\n", n)
	}
	for _, w := range p.Warnings {
		s.printf("Warning: %s.\n", w)
	}
	return nil
}
