package ferment

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
)

// Whatever lies on the clipboard, pasting a log of it ends in a remark or in what was
// understood, and never takes anything into the design unasked.
func TestAnythingMayLieOnTheClipboard(t *testing.T) {
	s := fermenting(t, 30)
	before := s.Design()
	for what, text := range map[string]string{
		"nothing":         " \n\t",
		"binary":          "\x00\x01\x02\x7f\x1b[31m\x00",
		"no UTF-8":        "date,gravity\n2026-06-20,1.0\xff\xfe\n\xc3\x28,\xa0\xa1\n",
		"a line too long": strings.Repeat("x", 1<<20),
		"many rows":       strings.Repeat("a,b,c\n", 1<<17),
		"a byte mark":     "\ufeff",
	} {
		s.ferment.entry.remark("")
		fyne.CurrentApp().Clipboard().SetContent(text)
		began := time.Now()
		s.ferment.pasteCSV()
		s.WaitIdle()
		t.Logf("%s: %v", what, time.Since(began))
		if !s.Design().Equal(before) {
			t.Errorf("%s was taken into the design", what)
		}
		if s.ferment.entry.last == "" && s.ferment.asked == nil {
			t.Errorf("of %s nothing is said", what)
		}
		if s.ferment.asked != nil {
			s.ferment.asked.close()
		}
	}
}
