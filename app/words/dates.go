package words

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"skep/calc/message"
	"skep/calc/quantity"
)

var (
	months = [...]message.Message{
		message.New("January"), message.New("February"), message.New("March"), message.New("April"), message.New("May"), message.New("June"),
		message.New("July"), message.New("August"), message.New("September"), message.New("October"), message.New("November"), message.New("December"),
	}
	shortMonths = [...]message.Message{
		message.New("Jan"), message.New("Feb"), message.New("Mar"), message.New("Apr"), message.New("May"), message.New("Jun"),
		message.New("Jul"), message.New("Aug"), message.New("Sep"), message.New("Oct"), message.New("Nov"), message.New("Dec"),
	}
)

// Date is a time by a layout of package time, with the names of month and
// weekday and the day of the month ("2") as the person's language writes them.
func Date(t time.Time, layout string) string { return speaking().date(t, layout) }

// LongDate is a day with its month written out, and the year.
func LongDate(t time.Time) string { return Date(t, "2 January 2006") }

func (l *Language) date(t time.Time, layout string) string {
	const month, monthShort, weekday, day = "\x01", "\x02", "\x03", "\x04" // no layout has these
	text := t.Format(strings.NewReplacer("2006", "2006", "02", "02", "2", day, "January", month, "Jan", monthShort, "Mon", weekday).Replace(layout))
	in := func(m message.Message) string { return m.In(l.Translate, nil) }
	return strings.NewReplacer(month, in(months[t.Month()-1]), monthShort, in(shortMonths[t.Month()-1]),
		weekday, in(quantity.Weekday(t.Weekday())), day, in(message.New("{day}", t.Day()))).Replace(text)
}

// ReadDate is a time that a person typed in the form that package time reads: names of
// months and weekdays in English, no full stop behind a day.
func (l *Language) ReadDate(text string) string {
	words := strings.Fields(text)
	for i, word := range words {
		bare := strings.TrimSuffix(word, ".")
		if bare != word && len(bare) <= 2 && strings.Trim(bare, "0123456789") == "" {
			words[i] = bare
		}
		is := func(m message.Message) bool { return Fold(bare) == Fold(l.Translate(m)) }
		for m := range months {
			if is(months[m]) || is(shortMonths[m]) {
				words[i] = time.Month(m + 1).String()[:3]
			}
		}
		for d := time.Sunday; d <= time.Saturday; d++ {
			if is(quantity.Weekday(d)) {
				words[i] = d.String()[:3]
			}
		}
	}
	return strings.Join(words, " ")
}

// Typed are the ways in which a person may type a text that stands for several, parted
// by bars: the language's and the English ones, folded, the longest first.
func (l *Language) Typed(m message.Message) (ways []string) {
	for way := range strings.SplitSeq(m.Text+" | "+l.Translate(m), " | ") {
		ways = append(ways, Fold(way))
	}
	slices.SortStableFunc(ways, func(a, b string) int { return len(b) - len(a) })
	return slices.Compact(ways)
}

// Fold is a text without capitals, accents and needless spaces, as one compares what was
// typed in a hurry.
func Fold(text string) string {
	bare := func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r):
			return -1
		case r == 'ł': // which Unicode does not take apart
			return 'l'
		}
		return r
	}
	return strings.Join(strings.Fields(strings.Map(bare, norm.NFD.String(strings.ToLower(text)))), " ")
}
