package command

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"skep/app/begin"
	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/savefile"
	"skep/app/words"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/start"
)

type startCommand struct {
	Values []string `arg:"" optional:"" name:"KEY=VALUE" help:"What you have and want; the keys are listed above."`
	Output string   `name:"output" short:"o" placeholder:"OUT.toml" help:"Write the design here; a file that is there is not written over. Left out: to standard output."`
	JSON   bool     `name:"json" help:"Print one JSON object: where the design lands, what is left over."`
}

func (startCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New(`Makes a design from what you have: title, litres (into the fermenter), kit (one of yours, or how much a kettle holds, in litres), honey (its kind), honey_kg (at hand), honey_buy (yes: more of it may be bought), yeast (or "find one"), strength_pct, dryness, body. What is left out has the same first value as in the window. The grain is worked out so that the strength comes out on this kit.`)), `skep start title=Hedge kit=18 honey=heather honey_kg=0.45 strength_pct=5.2 -o hedge.toml`)
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
			return misused(message.NewError("start: {argument}: want KEY=VALUE with one of {keys}", strconv.Quote(kv), strings.Join(startKeys(), ", ")))
		case twice:
			return misused(message.NewError("start: {key} is there twice", key))
		}
		given[key] = strings.TrimSpace(value)
	}
	if c.JSON && c.Output == "" {
		return misused(message.NewError("start: --json tells of the design that -o writes: say where"))
	}
	catalogue, err := assets.LoadCatalogue()
	if err != nil {
		return broken(err)
	}
	choices, problems := begin.Load(s.Folder, catalogue)
	for _, p := range problems {
		s.advise(message.New("left out: {file}", p))
	}
	answers, _ := choices.First("")
	answers.Title = words.T("Honey beer")
	if err := answer(&choices, &answers, given); err != nil {
		return wrong(message.NewError("start: {error}", err))
	}
	b, err := start.Design(calc.NewEngine(), answers, choices.Larder(), nil)
	if err != nil {
		return wrong(message.NewError("start: {error}", err))
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
		return wrong(message.NewError("start: {path} is there already, and is not written over: say another name", c.Output))
	}
	if err := s.write(c.Output, text); err != nil {
		return err
	}
	return s.begun(&b, c.JSON)
}

// answer puts what was given in the place of the first answers.
func answer(choices *begin.Choices, a *start.Answers, given map[string]string) error {
	number := func(key string, into *float64) error {
		v, err := strconv.ParseFloat(given[key], 64)
		if err != nil {
			return message.NewError("{setting} is no number", key+"="+given[key])
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
			a.Title = cmp.Or(value, a.Title)
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
				err = message.NewError("{setting} is not one of yes or no", "honey_buy="+value)
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
	if asJSON {
		return s.json(document.Begin(b))
	}
	p := &b.Prediction
	s.line("{title}: {volume}, {strength}, dryness {dryness}, body {body}", b.Design.Title, quantity.Of(quantity.Volume, b.Design.Batch.IntoFermenterL),
		quantity.Of(quantity.Strength, p.StrengthPct.Mid), quantity.Of(quantity.Index, p.Dryness.Mid), quantity.Of(quantity.Index, p.Body.Mid))
	mass := func(k quantity.Kind, v float64, name string) { s.printf("  %s %s\n", s.say.Format(k, v), name) }
	for _, g := range b.Design.Grain {
		mass(quantity.MassKg, g.MassKg, g.Name)
	}
	for _, h := range b.Design.Honey {
		mass(quantity.MassKg, h.MassKg, h.Name)
	}
	for _, h := range b.Design.Hop {
		mass(quantity.MassG, h.MassG, h.Name)
	}
	s.printf("  %s\n", b.Design.Yeast[0].Name)
	for _, n := range b.Notes {
		s.line("Note: {text}.", n)
	}
	for _, w := range p.Warnings {
		s.line("Warning: {text}.", w)
	}
	return nil
}
