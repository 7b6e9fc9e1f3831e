package app

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/app/ui"
	"skep/calc/design"
)

// nonsense is what a hand that slips, a cat or another program puts into a field.
var nonsense = []string{"abc", "-5", "1e400", "NaN", "999999", "1e9", "", "5 kg", "12 °Q", "١٢", "\x00\x1b[2J\a", "1\n2", strings.Repeat("9", 10_000), strings.Repeat("x", 10_000), "\u202e66"}

// aRange is what a remark ends in: what may be typed.
var aRange = regexp.MustCompile(`(to|than) [−\d]`)

// typedField is something to type into: what has the keyboard, its text, its name.
type typedField struct {
	fyne.Focusable
	*ui.Entry
	name string
}

// fieldsShown are the fields that can be seen, what holds a number before others.
func (s *scene) fieldsShown() (list []typedField) {
	var root fyne.CanvasObject = s.places[s.at].place.Object()
	if top := s.Window().Canvas().Overlays().Top(); top != nil {
		root = top
	}
	for _, o := range test.LaidOutObjects(root) {
		switch f := o.(type) {
		case *ui.Field:
			if k, ok := design.KeyOf(f.Path()); ok && k.Kind == design.Number && f.Visible() {
				list = append(list, typedField{f, &f.Entry, f.What()})
			}
		case *ui.Entry:
			if f.Visible() {
				list = append(list, typedField{f, f, f.Name})
			}
		}
	}
	return list
}

// remarks are the warnings that can be seen.
func (s *scene) remarks() (list []string) {
	var root fyne.CanvasObject = s.places[s.at].place.Object()
	if top := s.Window().Canvas().Overlays().Top(); top != nil {
		root = top
	}
	for _, o := range test.LaidOutObjects(root) {
		if p, ok := o.(*ui.Paragraph); ok && p.Ink == ui.InkWarning && p.Visible() && p.Text != "" {
			list = append(list, p.Text)
		}
	}
	return list
}

// typeNonsense types some of it, each field another part, into every so manieth field
// that is shown, but for those whose text is not a number, and returns how many fields
// there were. One clear remark stands beside each
// field; Escape puts the value back and the remark away; nothing in the design changes
// but by what can be read, and one undo brings that back.
func (s *scene) typeNonsense(t *testing.T, where string, every int, free ...string) (fields int) {
	t.Helper()
	const each = 4 // a field's share of it
	for i, f := range s.fieldsShown() {
		name := f.name
		if i%every > 0 {
			continue
		}
		if slices.Contains(free, name) {
			continue
		}
		fields++
		for k := range each {
			text := nonsense[(i/every*each+k)%len(nonsense)]
			before, rest, stood := s.Design(), f.Rest, s.remarks()
			s.Window().Canvas().Focus(f.Focusable)
			f.SetText(text)
			f.Focusable.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			s.settle()
			short := text
			if len(short) > 12 {
				short = short[:12] + "…"
			}
			if !s.Design().Equal(before) {
				if text == "" || strings.ContainsAny(text, "xQN\x00") {
					t.Errorf("%s, %s: %q was taken", where, name, short)
				}
				s.Undo()
				s.settle()
				if !s.Design().Equal(before) {
					t.Errorf("%s, %s: undo after %q does not bring back what was there", where, name, short)
				}
				continue
			}
			var said []string
			for _, r := range s.remarks() {
				if !slices.Contains(stood, r) {
					said = append(said, r)
				}
			}
			if !(text == "" && rest == "") && f.Text != f.Rest { // an empty field that was empty says nothing
				switch {
				case len(said) != 1:
					t.Errorf("%s, %s: of %q %d remarks are made: %q", where, name, short, len(said), said)
				case len(said[0]) > 300 || strings.IndexFunc(said[0], unicode.IsControl) >= 0:
					t.Errorf("%s, %s: the remark on %q is %q", where, name, short, said[0])
				case !aRange.MatchString(said[0]) && !strings.Contains(said[0], "thousands"):
					t.Errorf("%s, %s: the remark on %q has no range: %q", where, name, short, said[0])
				}
			}
			s.Window().Canvas().Focus(f.Focusable)
			f.Focusable.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			s.settle()
			if f.Text != f.Rest || f.Rest != rest {
				t.Errorf("%s, %s: after Escape from %q stands %.20q, before it %q", where, name, short, f.Text, rest)
				f.SetText(rest)
			}
			for _, r := range s.remarks() {
				if !slices.Contains(stood, r) {
					t.Errorf("%s, %s: after Escape from %q it still says %q", where, name, short, r)
				}
			}
			if s.bad() {
				t.Errorf("%s, %s: after Escape from %q the foot still says %q", where, name, short, s.said())
				s.ShowMessage("")
			}
		}
	}
	return fields
}

// Nonsense in the fields of Brew, Ferment and the drawers.
func TestNonsenseIsRefusedBesideItsField(t *testing.T) {
	s := newStage(t, "../assets/demo/gate-field-middle.toml")
	s.goTo(2)
	s.settle()
	least := func(where string, n, want int) {
		if n < want {
			t.Errorf("%s: only %d fields were typed into", where, n)
		}
	}
	least("Brew", s.typeNonsense(t, "Brew", 5), 5)
	pitched := s.Now().Add(-30 * time.Hour)
	s.note(t, "pitched", 1, pitched)
	s.goTo(3)
	s.settle()
	for tab, where := range []string{"State", "Re-tune", "Package", "Yeast"} {
		s.ferment.Side.Turn(tab)
		s.settle()
		s.typeNonsense(t, "Ferment, "+where, 1, "when", "a note on the taste")
	}
}
