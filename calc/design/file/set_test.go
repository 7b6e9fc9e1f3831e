package file

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/design"
)

// Whatever Get says, Set takes and changes nothing.
func TestGetThenSet(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := genDesign(t)
		e := d.Clone()
		for _, k := range design.Keys() {
			path := strings.ReplaceAll(k.Path, "N", "0")
			v, err := d.Get(path)
			if err != nil || v == "" && k.Kind != design.Text && k.Kind != design.Words {
				continue // no such entry, or nothing there
			}
			if err := e.Set(path, v); err != nil {
				t.Fatalf("%s = %q: %v", path, v, err)
			}
		}
		if d.Crush == nil {
			e.Crush = nil
		}
		if d.Ghost == nil {
			e.Ghost = nil
		}
		if d.Water == nil {
			e.Water = nil
		}
		if !d.Equal(e) {
			t.Fatalf("\n%+v\n%+v", d, e)
		}
	})
}
