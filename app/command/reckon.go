package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/calc/message"
	"skep/calc/reckon"
)

type reckonCommand struct {
	Name   string   `arg:"" name:"NAME" help:"The calculation, from the list above."`
	Values []string `arg:"" optional:"" name:"KEY=VALUE" help:"What goes in; the keys carry their units."`
	JSON   bool     `name:"json" help:"Print one JSON object."`
}

func (reckonCommand) Detail(say helptext.Speaker) string {
	var b strings.Builder
	b.WriteString(helptext.Worked(say(message.New("Prints KEY=VALUE lines. What is out of the range of a formula's source is refused.")),
		"skep reckon strength original_sg=1.050 final_sg=1.010"))
	for _, c := range reckon.List() {
		fmt.Fprintf(&b, "\n\n%s: %s\n\n  %s\n  %s", c.Name, say(message.Message{Text: c.About}),
			say(message.New("in: {keys}", fields(say, c.In))), say(message.New("out: {keys}", fields(say, c.Out))))
	}
	return b.String()
}

// fields lists keys with their ranges; one that may be left out stands in
// brackets with its default.
func fields(say helptext.Speaker, list []reckon.Field) string {
	var out []string
	for _, f := range list {
		name := f.Key
		if f.Default != "" {
			name += "=" + f.Default
		}
		if f.Default != "" || f.Optional {
			name = "[" + name + "]"
		}
		if f.Max > f.Min || len(f.Words) > 0 {
			name += " (" + say(f.Range()) + ")"
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

func (c *reckonCommand) Run(s *session) error {
	in := map[string]string{}
	for _, kv := range c.Values {
		key, value, ok := strings.Cut(kv, "=")
		if !ok || key == "" {
			return misused(message.NewError("reckon {name}: {argument}: want KEY=VALUE; see skep help reckon", c.Name, strconv.Quote(kv)))
		}
		if _, twice := in[key]; twice {
			return misused(message.NewError("reckon {name}: {key} is there twice", c.Name, key))
		}
		in[key] = value
	}
	out, err := reckon.Do(c.Name, in)
	var usage *reckon.UsageError
	switch {
	case errors.As(err, &usage):
		return misused(message.NewError("reckon: {error}; see skep help reckon", err))
	case err != nil:
		return wrong(message.NewError("reckon {name}: {error}", c.Name, err))
	}
	if c.JSON {
		return s.object(out)
	}
	for _, v := range out {
		s.printf("%s=%s\n", v.Key, v)
	}
	return nil
}

// object prints the results as a JSON object in their own order, every digit.
func (s *session) object(values []reckon.Value) error {
	s.printf("{\n  \"schema\": %d", document.Schema)
	for _, v := range values {
		s.printf(",")
		number, err := json.Marshal(v.Value)
		if err != nil {
			return broken(message.Fault("%s can't be written as JSON: %w", v.Key, err))
		}
		s.printf("\n  %q: %s", v.Key, number)
	}
	s.printf("\n}\n")
	return nil
}
