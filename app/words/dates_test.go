package words

import (
	"testing"
	"time"

	"golang.org/x/text/language"
)

// German writes the day as an ordinal and Polish the month in the genitive
// (Unicode CLDR 44, dateFormats long of de and pl); what is written is read again.
func TestDatesAsTheLanguageWritesThem(t *testing.T) {
	t.Parallel()
	at := time.Date(2026, 12, 3, 9, 5, 0, 0, time.UTC)
	for tag, want := range map[string][3]string{
		"en": {"3 December 2026", "Thu 3 Dec 09:05", "03/12/2026"},
		"de": {"3. Dezember 2026", "Do 3. Dez 09:05", "03/12/2026"},
		"pl": {"3 grudnia 2026", "cz 3 gru 09:05", "03/12/2026"},
	} {
		l := Find([]language.Tag{language.MustParse(tag)})
		for i, layout := range []string{"2 January 2006", "Mon 2 Jan 15:04", "02/01/2006"} {
			if got := l.date(at, layout); got != want[i] {
				t.Errorf("%s: got %q, want %q", tag, got, want[i])
			}
		}
		for text, want := range map[string]string{want[0]: "3 Dec 2026", want[1]: "Thu 3 Dec 09:05", "2.1. 15:04": "2.1. 15:04", "9:15": "9:15"} {
			if got := l.ReadDate(text); got != want {
				t.Errorf("%s: %q is read as %q, want %q", tag, text, got, want)
			}
		}
	}
}
