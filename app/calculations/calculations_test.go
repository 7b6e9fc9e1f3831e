package calculations

import (
	"strings"
	"testing"

	"skep/app/stage"
	"skep/app/ui"
	"skep/calc/reckon"
)

// The drawer says what `skep reckon` says: both ask package reckon.
func TestCalculationsAnswerWhileOneTypes(t *testing.T) {
	s := stage.New(t)
	r := newDrawer(s)
	for _, c := range reckon.List() {
		r.show(c)
		if r.wrong.Text != "" {
			t.Errorf("%s opens with %q", c.Name, r.wrong.Text)
		}
		if top := s.Window().Canvas().Overlays().Top(); top.Size().Height > 800 {
			t.Errorf("%s: the drawer is %v high", c.Name, top.Size().Height)
		}
	}
	entry := func(key string) *ui.Entry {
		for i, f := range r.at.In {
			if f.Key == key {
				return r.fields.Objects[2*i+1].(*ui.Entry)
			}
		}
		t.Fatalf("no field %s", key)
		return nil
	}
	for _, c := range reckon.List() {
		if c.Name == "plato" {
			r.show(c)
		}
	}
	entry("sg").SetText("1.040")
	// 1.0400 is 9.99 °P in the extract tables (design notes, checks 1a).
	if !strings.Contains(r.results.Text, "9.99") {
		t.Errorf("1.040 is %q", r.results.Text)
	}
	entry("sg").SetText("2")
	if !(r.wrong.Text != "") || !strings.Contains(r.wrong.Text, "outside") || r.results.Text != "" {
		t.Errorf("2 is answered with %q and %q", r.wrong.Text, r.results.Text)
	}
}
