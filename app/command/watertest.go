package command

import (
	"fmt"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/watertest"
)

// testPrefix marks what was measured in a water test among a kit's values.
const testPrefix = "test."

// testHelp lists the measurements, a part a line.
func testHelp(say helptext.Speaker) string {
	var b strings.Builder
	for _, p := range watertest.Parts() {
		fmt.Fprintf(&b, "\n  %s:", say(p.Title))
		for _, in := range p.Inputs {
			fmt.Fprintf(&b, " %s%s", testPrefix, in.Name)
		}
	}
	return b.String()
}

// cutTest parts a kit's values from what was measured in a water test.
func cutTest(all []string) (values, measured []string) {
	for _, kv := range all {
		if rest, ok := strings.CutPrefix(kv, testPrefix); ok {
			measured = append(measured, rest)
		} else {
			values = append(values, kv)
		}
	}
	return values, measured
}

// testKit works a water test out and puts what came of it into the kit.
func testKit(k *design.KitFile, measured []string) ([]document.Tested, error) {
	t := watertest.New()
	for _, kv := range measured {
		name, text, _ := strings.Cut(kv, "=")
		into := measurement(&t, name)
		if into == nil {
			return nil, wrong(message.NewError("kit: {name} is no measurement of the water test: skep help kit lists them", testPrefix+name))
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			return nil, wrong(message.NewError("kit: {setting} is no number", testPrefix+name+"="+text))
		}
		*into = v
	}
	var out []document.Tested
	d := design.New()
	k.Into(&d)
	kit := recipe.WaterTest(d)
	for _, p := range watertest.Parts() {
		r, ok, err := p.Work(&t, kit)
		if !ok {
			continue
		}
		if err == nil {
			err = d.Set(r.Key, strconv.FormatFloat(r.Value, 'f', -1, 64))
		}
		if err != nil {
			return nil, wrong(message.NewError("kit: {part}: {error}", p.Title, err))
		}
		out = append(out, document.Tested{Key: r.Key, Value: r.Value, Arithmetic: r.Arithmetic, Note: r.Note})
	}
	*k = design.KitOf(d)
	return out, nil
}

// measurement is where one of a name goes; nil: there is none.
func measurement(t *watertest.Test, name string) *float64 {
	for _, p := range watertest.Parts() {
		for _, in := range p.Inputs {
			if in.Name == name {
				return in.Of(t)
			}
		}
	}
	return nil
}
