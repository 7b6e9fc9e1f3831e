// Package locale says what a person is used to: the language, and with it and
// the region the decimal mark, the paper, the first day of the week and the
// units. In come the variables of the environment (on Windows and macOS the
// system's own setting), out goes a [Locale]. It must know no text: the lists
// of texts are package words'.
package locale

import (
	"os"
	"strings"
	"sync"
	"time"

	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"skep/calc/quantity"
)

// Variable is the variable of the environment that chooses Skep's language
// above all others, as a tag of BCP 47: "de", "pl". The window sets it from its
// preferences and a command from --language, before the first text.
const Variable = "SKEP_LANGUAGE"

// Locale is what a person is used to.
type Locale struct {
	// Languages are those that the person reads, the best first.
	Languages []language.Tag
	Units     quantity.Units
	Letter    bool // the paper is US letter, not A4
	FirstDay  time.Weekday
}

// Current is the locale of this process, looked up once.
var Current = sync.OnceValue(func() Locale { return of(os.Getenv, system()) })

// of is the locale that variables give; system are the languages that the
// system names by itself, for where no variable does.
func of(get func(string) string, system []string) Locale {
	l := Locale{FirstDay: time.Monday}
	chosen, isChosen := parse(get(Variable))
	if isChosen {
		l.Languages = append(l.Languages, chosen)
	}
	for _, name := range system {
		if tag, ok := parse(name); ok {
			l.Languages = append(l.Languages, tag)
		}
	}
	if len(l.Languages) == 0 {
		l.Languages = []language.Tag{language.BritishEnglish}
	}
	// habits is the locale that says one of the habits, as setlocale(3) has it.
	habits := func(category string) language.Tag {
		for _, name := range []string{"LC_ALL", category} {
			if tag, ok := parse(get(name)); ok {
				return tag
			}
		}
		return l.Languages[0]
	}
	l.Units.DecimalComma = commaIn(habits("LC_NUMERIC"))
	if base, _ := l.Languages[0].Base(); platoFirst[base.String()] {
		l.Units.Gravity = quantity.Plato
	}
	l.Letter = usesLetter[region(habits("LC_PAPER"))]
	if day, ok := firstDay[region(habits("LC_TIME"))]; ok {
		l.FirstDay = day
	}
	return l
}

// parse reads "de", "de-AT" and "de_AT.UTF-8@euro"; C and POSIX are no language.
func parse(name string) (language.Tag, bool) {
	name, _, _ = strings.Cut(name, ".")
	name, _, _ = strings.Cut(name, "@")
	if name == "" || name == "C" || name == "POSIX" {
		return language.Und, false
	}
	tag, err := language.Parse(name)
	return tag, err == nil
}

func region(tag language.Tag) string {
	r, _ := tag.Region()
	return r.String()
}

// commaIn tells whether a language writes 66,5.
func commaIn(tag language.Tag) bool {
	return strings.Contains(message.NewPrinter(tag).Sprintf("%.1f", 66.5), ",")
}

// platoFirst are the languages whose brewers speak of degrees Plato (the trade
// of Central Europe; common practice, no source).
var platoFirst = map[string]bool{"de": true, "pl": true, "cs": true, "sk": true}

// usesLetter are the regions where printers hold US letter (Unicode CLDR,
// supplemental measurement data, paperSize).
var usesLetter = set("BZ CA CL CO CR GT MX NI PA PH PR SV US VE")

// firstDay are the regions whose week does not begin on a Monday (Unicode CLDR,
// supplemental week data, firstDay).
var firstDay = func() map[string]time.Weekday {
	days := map[string]time.Weekday{"MV": time.Friday}
	for name := range set("AE AF BH DJ DZ EG IQ IR JO KW LY OM QA SD SY") {
		days[name] = time.Saturday
	}
	for name := range set("AG AS BD BR BS BT BW BZ CA CO DM DO ET GT GU HK HN ID IL IN IS JM JP KE KH KR LA MH MM MO MT MX MZ NI NP PA PE PH PK PR PT PY SA SG SV TH TT TW UM US VE VI WS YE ZA ZW") {
		days[name] = time.Sunday
	}
	return days
}()

func set(names string) map[string]bool {
	m := map[string]bool{}
	for name := range strings.FieldsSeq(names) {
		m[name] = true
	}
	return m
}
