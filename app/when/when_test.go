package when

import (
	"strings"
	"testing"
	"time"

	"golang.org/x/text/language"

	"skep/app/words"
	"skep/calc/message"
)

// The day is a midsummer brew day in a place whose clocks are two hours ahead; it is
// looked at on the Monday after, 22 June 2026 at 8:00.
var (
	zone    = time.FixedZone("two hours ahead", 2*60*60)
	pitched = time.Date(2026, 6, 20, 16, 0, 0, 0, zone)
	monday  = time.Date(2026, 6, 22, 8, 0, 0, 0, zone)
)

func in(tag string) *reader {
	return &reader{words.Find([]language.Tag{language.MustParse(tag)}), monday, pitched}
}

func day(d, h, m int) time.Time { return time.Date(2026, 6, d, h, m, 0, 0, zone) }

func TestTimesAsPeopleTypeThem(t *testing.T) {
	t.Parallel()
	never := time.Time{}
	for tag, typed := range map[string]map[string]time.Time{
		"en": {
			"": monday, "NOW": monday, "right now": monday,
			"7:30": day(22, 7, 30), "7:30 am": day(22, 7, 30), "3pm": day(22, 15, 0), "7 o'clock": day(22, 7, 0),
			"yesterday 9:15": day(21, 9, 15), "yesterday at 9.15": day(21, 9, 15), "yesterday evening": day(21, 20, 0),
			"the day before yesterday 9:15": day(20, 9, 15), "this morning": day(22, 8, 0), "last night": day(21, 22, 0),
			"Sat 9:15": day(20, 9, 15), "saturday 9:15": day(20, 9, 15), "Last Saturday at noon": day(20, 12, 0), "Mon 7:30": day(22, 7, 30),
			"Mon 9:15":     day(15, 9, 15), // that hour of this Monday is still to come
			"21 Jun 14:30": day(21, 14, 30), "21 June at 14:30": day(21, 14, 30), "Sat 20 Jun 9:15": day(20, 9, 15), "2026-06-21 14:30": day(21, 14, 30),
			"2026-06-21T14:30": day(21, 14, 30), "2026-06-21T14:30:00Z": day(21, 16, 30),
			"24 Dec 18:00": time.Date(2025, 12, 24, 18, 0, 0, 0, zone), // the one before
			"36 h":         pitched.Add(36 * time.Hour), "1,5h": pitched.Add(90 * time.Minute), "44 h after pitching": pitched.Add(44 * time.Hour),
			"44 hours": pitched.Add(44 * time.Hour), "2 days": pitched.Add(48 * time.Hour), "3 h ago": monday.Add(-3 * time.Hour), "20 min ago": monday.Add(-20 * time.Minute),
			"Friday 25:00": never, "evening yesterday": never, "2026-06-21T14:30Z": never, "35:00": never, "9.12": never, "gestern 9:15": never, "ago": never, "h": never, "last": never, "at": never,
		},
		"de": {
			"jetzt": monday, "gerade eben": monday, "now": monday, "7:30 Uhr": day(22, 7, 30), "7.30 Uhr": day(22, 7, 30), "um 7 Uhr": day(22, 7, 0), "heute früh": day(22, 8, 0),
			"gestern 9:15": day(21, 9, 15), "gestern abend": day(21, 20, 0), "Gestern Abend": day(21, 20, 0), "vorgestern mittag": day(20, 12, 0), "letzte Nacht": day(21, 22, 0),
			"Sa 9:15": day(20, 9, 15), "Sa. 9.15 Uhr": day(20, 9, 15), "am Samstag abend": day(20, 20, 0), "Sonnabend 9:15": day(20, 9, 15), "Mo 7:30": day(22, 7, 30),
			"21. Juni um 14:30 Uhr": day(21, 14, 30), "Sa 20. Jun 9:15": day(20, 9, 15), "21.6. 14:30": day(21, 14, 30), "3. Marz 14:30": time.Date(2026, 3, 3, 14, 30, 0, 0, zone),
			"36 Std. nach dem Anstellen": pitched.Add(36 * time.Hour), "vor 3 Stunden": monday.Add(-3 * time.Hour), "vor 20 Minuten": monday.Add(-20 * time.Minute), "vor 1 Tag": day(21, 8, 0),
			"yesterday evening": day(21, 20, 0), "morgen": never,
		},
		"pl": {
			"teraz": monday, "7:30": day(22, 7, 30), "o 7.30": day(22, 7, 30), "o godz. 7": day(22, 7, 0), "dziś rano": day(22, 8, 0), "dzisiaj rano": day(22, 8, 0),
			"wczoraj 9:15": day(21, 9, 15), "wczoraj wieczorem": day(21, 20, 0), "przedwczoraj o 9:15": day(20, 9, 15), "zeszłej nocy": day(21, 22, 0), "wczoraj po południu": day(21, 15, 0),
			"sob 9:15": day(20, 9, 15), "sob. 9:15": day(20, 9, 15), "so 9:15": day(20, 9, 15), "w sobotę wieczorem": day(20, 20, 0), "w sobote wieczorem": day(20, 20, 0), "pon 7:30": day(22, 7, 30),
			"we środę 9:15": day(17, 9, 15), "21 cze 14:30": day(21, 14, 30), "21 czerwca o 14:30": day(21, 14, 30), "3 pazdziernika 14:30": time.Date(2025, 10, 3, 14, 30, 0, 0, zone),
			"36 godz. po zadaniu drożdży": pitched.Add(36 * time.Hour), "3 godziny temu": monday.Add(-3 * time.Hour), "20 min temu": monday.Add(-20 * time.Minute), "2 dni temu": day(20, 8, 0),
			"yesterday evening": day(21, 20, 0),
		},
	} {
		r := in(tag)
		for text, want := range typed {
			got, err := r.read(text)
			if want.IsZero() != (err != nil) || err == nil && !got.Equal(want) {
				t.Errorf("%s: %q is read as %v (%v), want %v", tag, text, got, err, want)
			}
		}
	}
}

// What a language's own hint and error offer must be understood, as the English is.
func TestWhatIsOfferedIsUnderstood(t *testing.T) {
	t.Parallel()
	want := []time.Time{monday, day(22, 14, 30), day(21, 9, 15), day(21, 14, 30), pitched.Add(36 * time.Hour)}
	_, no := in("en").read("gibberish")
	offers := message.OfError(no)
	for _, tag := range words.Tags() {
		r := in(tag.String())
		_, list, _ := strings.Cut(r.language.Translate(message.Message{Text: offers.Text}), ": ")
		_, list, _ = strings.Cut(": "+list, ": ")
		last := strings.LastIndex(list, ", ") // “21 Jun 14:30 or 36 h after pitching” is parted by a word
		examples := strings.Split(list[:last], ", ")
		end := strings.Fields(list[last+2:])
		const date = 3 // words of it
		examples = append(examples, strings.Join(end[:date], " "), strings.Join(end[date+1:], " "))
		if len(examples) != len(want) {
			t.Fatalf("%s: %q", tag, examples)
		}
		for i, text := range examples {
			if got, err := r.read(text); err != nil || !got.Equal(want[i]) {
				t.Errorf("%s: offers %q and reads it as %v (%v), want %v", tag, text, got, err, want[i])
			}
		}
	}
}

func TestHoursNeedAPitching(t *testing.T) {
	t.Parallel()
	r := in("en")
	r.pitched = time.Time{}
	if at, err := r.read("36 h"); err == nil {
		t.Errorf("36 h after no pitching is %v", at)
	}
	if at, err := r.read("3 h ago"); err != nil || !at.Equal(monday.Add(-3*time.Hour)) {
		t.Errorf("3 h ago is %v, %v", at, err)
	}
}

// The night in which the clocks go back is an hour longer.
func TestTheClocksGoBack(t *testing.T) {
	t.Parallel()
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip("no time zones on this machine:", err)
	}
	r := in("en")
	r.now = monday.In(berlin)
	a, _ := r.read("2026-10-24 20:00")
	z, _ := r.read("2026-10-25 20:00")
	if z.Sub(a) != 25*time.Hour {
		t.Errorf("a day with the clocks put back has %v", z.Sub(a))
	}
}

func FuzzRead(f *testing.F) {
	for _, seed := range []string{"", "yesterday 9:15", "1e400 h ago", "Sat. 9.15", "vor vor 3 h", "99999999999 d", "\x00 ago", "ſun 1:00"} {
		f.Add(seed)
	}
	readers := []*reader{in("en"), in("de"), in("pl"), in("en-XA")}
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range readers {
			at, err := r.read(text)
			if y := at.Year(); err == nil && (y < -1 || y > 10000) {
				t.Errorf("%q is read as %v", text, at)
			}
		}
	})
}
