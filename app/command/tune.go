package command

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/words"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/tune"
)

type tuneCommand struct {
	File   string   `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON   bool     `name:"json" help:"Print one JSON object instead of the list."`
	Output string   `name:"output" short:"o" placeholder:"OUT.toml" help:"Write the design with the best way's settings here; comments and order stay."`
	Set    []string `name:"set" sep:"none" placeholder:"KEY=VALUE" help:"Try a change, such as another taste, without touching the file; may be repeated."`
	evidence
}

func (tuneCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Finds settings that land where [taste] asks (dryness, body, strength_pct, honey for its character, any of them); the levers in taste.hold stay, and ways take no more honey than taste.honey_at_hand_kg. With the yeast free, the design's other strains, your own and the catalogue's families are tried. A taste that can't be reached is an answer too: the nearest way, and what stands against it. With readings in the file, levers that are spent stay at what was measured.")), `skep tune gate-field.toml --set taste.dryness=70 -o drier.toml`)
}

func (c *tuneCommand) Run(s *session) error {
	doc, err := s.document(c.File)
	if err != nil {
		return err
	}
	d := doc.Design.Clone()
	if err := set(&d, c.Set); err != nil {
		return err
	}
	catalogue, err := assets.LoadCatalogue()
	if err != nil {
		return broken(err)
	}
	catalogue.Translate(words.Listed)
	k, err := c.known(s, d)
	if err != nil {
		return err
	}
	now := k.Conditioned.Design  // with what was measured
	notes := map[string]string{} // what strains taste of
	for _, y := range catalogue.Yeast {
		notes[y.Name] = y.Note
	}
	var own []design.Yeast
	for _, y := range s.ownStrains() {
		own = append(own, y.Yeast)
		notes[y.Name] = y.Note
	}
	levers := tune.Free(now.Taste.Hold, k.Conditioned.Hold()...)
	if levers.Set[lever.Yeast] { // a strain is chosen, not made
		levers = levers.ThisStrain()
		levers.Strains = catalogue.StrainsBeside(&now, own)
	}
	began := time.Now()
	tuner, err := tune.New(k.Engine.Fork(), now)
	if err != nil {
		return wrong(err)
	}
	result, err := tuner.To(tune.WishesOf(d.Taste), levers)
	if err != nil {
		return wrong(err)
	}
	took := time.Since(began)

	if c.Output != "" {
		if err := s.writeWay(doc, d, &result.Ways[0], c.Output); err != nil {
			return err
		}
	}
	if c.JSON {
		return s.json(document.Tune(result, float64(took.Microseconds())/1000))
	}
	p, err := k.Engine.Predict(now)
	if err != nil {
		return wrong(err)
	}
	s.ways(&result, d.Taste, p, notes)
	return nil
}

// writeWay writes the design with a way's settings in it.
func (s *session) writeWay(doc *file.Document, d design.Design, w *tune.Way, path string) error {
	for _, key := range slices.Sorted(maps.Keys(w.Settings)) {
		if err := d.Set(key, fmt.Sprint(w.Settings[key])); err != nil {
			return wrong(err)
		}
	}
	text, err := doc.Write(d)
	if err != nil {
		return wrong(err)
	}
	return s.write(path, text)
}

// ways prints the answer for people.
func (s *session) ways(r *tune.Result, want design.Taste, now calc.Prediction, notes map[string]string) {
	if r.Reached {
		s.line("The taste can be reached.")
	} else {
		s.line("The taste can't be reached; these ways come near it.")
		if len(r.Binding) > 0 {
			s.line("At their limit: {levers}.", namesOf(s, r.Binding, lever.Lever.Name))
		}
		if len(r.Conflict) > 0 {
			s.line("Pulling against each other: {qualities}.", namesOf(s, r.Conflict, quality))
		}
	}
	for _, note := range r.Notes {
		s.line("Note: {text}.", note)
	}
	for i := range r.Ways {
		w := &r.Ways[i]
		s.printf("\n%d. %s\n", i+1, s.joined(w.Summary(), ", "))
		for _, key := range slices.Sorted(maps.Keys(w.Settings)) {
			s.printf("   --set %s\n", quoted(key+"="+fmt.Sprint(w.Settings[key])))
		}
		p := &w.Prediction
		landed := func(key string, k quantity.Kind, wish *float64, got float64) {
			if wish != nil {
				s.line("   {quality}: {value}, wanted {wish}", quality(key), quantity.Of(k, got), quantity.Of(k, *wish))
			}
		}
		landed(tune.DrynessKey, quantity.Index, want.Dryness, p.Dryness.Mid)
		landed(tune.BodyKey, quantity.Index, want.Body, p.Body.Mid)
		landed(tune.StrengthKey, quantity.Strength, want.StrengthPct, p.StrengthPct.Mid)
		landed(tune.HoneyKey, quantity.Index, want.Honey, p.HoneyCharacter.Mid)
		if name := p.Yeast; name != now.Yeast && notes[name] != "" {
			s.printf("   %s: %s\n", name, notes[name])
		}
		if price := s.joined(w.Price(), "; "); price != "" {
			s.printf("   %s\n", price)
		}
	}
}

// quality names what a wish is about.
func quality(key string) message.Message {
	switch key {
	case tune.DrynessKey:
		return message.New("dryness")
	case tune.BodyKey:
		return message.New("body")
	case tune.StrengthKey:
		return message.New("strength")
	}
	return message.New("honey character")
}

// namesOf are the names of some things on one line.
func namesOf[T any](s *session, of []T, name func(T) message.Message) string {
	var list []message.Message
	for _, x := range of {
		list = append(list, name(x))
	}
	return s.joined(list, ", ")
}

// joined are some messages on one line.
func (s *session) joined(list []message.Message, between string) string {
	texts := make([]string, len(list))
	for i, m := range list {
		texts[i] = s.text(m)
	}
	return strings.Join(texts, between)
}

// quoted makes an argument that a shell takes as one.
func quoted(arg string) string {
	if strings.ContainsAny(arg, " '\"$") {
		return "'" + strings.ReplaceAll(arg, "'", `'\''`) + "'"
	}
	return arg
}
