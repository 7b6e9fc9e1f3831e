// Package when reads a time as a person types it, in the person's language and in
// English: now, 14:30, yesterday evening, Sat 9:15, 21 Jun 14:30, 3 h ago, 36 h after
// pitching. A text and the present moment come in, an instant or what is wrong goes out.
// It must not know what happened then.
//
// Every word stands in a text of its own for the translations, with all that people type
// in its place, parted by bars: a language adds as many as it likes.
package when

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"skep/app/words"
	"skep/calc/message"
)

// Read is the instant that a text means, to the second. A day and an hour are in now's
// zone; pitched is when the yeast went in, zero if it has not.
func Read(text string, now, pitched time.Time) (time.Time, error) {
	r := reader{words.Speaks(), now, pitched}
	at, err := r.read(text)
	if err != nil {
		return time.Time{}, err
	}
	return at.UTC().Truncate(time.Second), nil
}

type reader struct {
	language     *words.Language
	now, pitched time.Time
}

var (
	nowWords   = message.New("now | just now | right now")
	atWords    = message.New("at | about | around | ca.")
	clockWords = message.New("o'clock | oclock")
	onWords    = message.New("on | last | this")
	ago        = message.New("{span} ago", "{span}")
	pitching   = message.New("after pitching | after the pitching")
)

// days are those that have a name by their distance.
var days = []struct {
	name message.Message
	back int
}{
	{message.New("today | this"), 0},
	{message.New("yesterday | last"), 1},
	{message.New("the day before yesterday | day before yesterday"), 2},
}

var weekdays = [...]message.Message{
	message.New("Sunday | Sun"), message.New("Monday | Mon"), message.New("Tuesday | Tue"), message.New("Wednesday | Wed"),
	message.New("Thursday | Thu"), message.New("Friday | Fri"), message.New("Saturday | Sat"),
}

// parts are what people call an hour that they do not remember to the minute.
var parts = []struct {
	name message.Message
	hour int
}{
	{message.New("morning | in the morning"), 8},
	{message.New("noon | midday | at noon"), 12},
	{message.New("afternoon | in the afternoon"), 15},
	{message.New("evening | in the evening"), 20},
	{message.New("night | at night"), 22},
	{message.New("midnight | at midnight"), 0},
}

var units = []struct {
	name message.Message
	is   time.Duration
}{
	{message.New("h | hr | hrs | hour | hours"), time.Hour},
	{message.New("d | day | days"), 24 * time.Hour},
	{message.New("min | minute | minutes"), time.Minute},
}

// dates are the ways in which a day of the calendar is typed, with its time.
var dates = []struct {
	form    string
	hasYear bool
}{
	{"2 Jan 15:04", false}, {"2 January 15:04", false}, {"2.1. 15:04", false},
	{"2 Jan 2006 15:04", true}, {"2 January 2006 15:04", true}, {"2.1.2006 15:04", true}, {"02/01/2006 15:04", true},
	{"2006-01-02 15:04", true}, {"2006-01-02t15:04", true}, {"2006-01-02 15:04:05", true},
}

func (r *reader) read(text string) (time.Time, error) {
	if at, err := time.Parse(time.RFC3339, strings.TrimSpace(text)); err == nil {
		return at, nil
	}
	typed := words.Fold(r.language.ReadDate(strings.ReplaceAll(text, ", ", " ")))
	if typed == "" || slices.Contains(r.language.Typed(nowWords), typed) {
		return r.now, nil
	}
	if span, before, ok := r.span(typed); ok {
		switch {
		case before:
			return r.now.Add(-span), nil
		case r.pitched.IsZero():
			return r.now, message.NewError("hours count from the pitching, which is not logged yet")
		}
		return r.pitched.Add(span), nil
	}
	typed, hour := r.withoutAt(typed)
	rest, back, weekday, named := r.day(typed)
	if at, ok := r.date(rest); ok {
		return at, nil // the name of its weekday only stands before it
	}
	clock, ok := r.clock(rest, hour || named)
	if !ok {
		return r.now, message.NewError("can't read “{text}” as a time: now, 14:30, yesterday 9:15, 21 Jun 14:30 or 36 h after pitching", text)
	}
	on := func(back int) time.Time {
		return time.Date(r.now.Year(), r.now.Month(), r.now.Day()-back, clock.Hour(), clock.Minute(), 0, 0, r.now.Location())
	}
	if weekday && on(back).After(r.now) {
		back += 7 // today's name, and an hour that is still to come
	}
	return on(back), nil
}

// span reads "44 h", "44 hours after pitching", "3.5 h ago", "2 days ago".
func (r *reader) span(typed string) (span time.Duration, before, ok bool) {
	for _, phrase := range r.language.Typed(pitching) {
		typed = strings.TrimSpace(strings.TrimSuffix(typed, phrase))
	}
	for _, phrase := range r.language.Typed(ago) {
		from, to, _ := strings.Cut(phrase, "{span}")
		if inner, has := strings.CutPrefix(typed, from); has {
			if inner, has = strings.CutSuffix(inner, to); has && inner != typed {
				typed, before = strings.TrimSpace(inner), true
			}
		}
	}
	for _, u := range units {
		for _, name := range r.language.Typed(u.name) {
			number, has := strings.CutSuffix(typed, name)
			v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(number), ",", ".", 1), 64)
			const most = 9000
			if has && err == nil && v >= 0 && v < most {
				return time.Duration(v * float64(u.is)), before, true
			}
		}
	}
	return 0, false, false
}

// withoutAt takes out what stands before or behind a time of day only to say that it is
// one; hour says that there was such a word.
func (r *reader) withoutAt(typed string) (rest string, hour bool) {
	at, clock := r.language.Typed(atWords), r.language.Typed(clockWords)
	rest = strings.Join(slices.DeleteFunc(strings.Fields(typed), func(w string) bool {
		is := slices.Contains(at, w) || slices.Contains(clock, w)
		hour = hour || is
		return is
	}), " ")
	return rest, hour
}

// day takes the day off a time that names it by its distance or its name, and says how
// many days back it lies. A weekday is the last one of that name, today among them.
func (r *reader) day(typed string) (rest string, back int, weekday, named bool) {
	for _, on := range append(r.language.Typed(onWords), "") {
		rest, is := after(typed, on)
		if !is {
			continue
		}
		first, behind, _ := strings.Cut(rest, " ")
		first = strings.TrimSuffix(first, ".")
		for d, names := range weekdays {
			for _, name := range r.language.Typed(names) {
				if first == name || len(first) >= 3 && strings.HasPrefix(name, first) {
					return behind, (int(r.now.Weekday()) - d + 7) % 7, true, true
				}
			}
		}
	}
	for _, d := range days {
		for _, name := range r.language.Typed(d.name) {
			if rest, is := after(typed, name); is {
				return rest, d.back, false, true
			}
		}
	}
	return typed, 0, false, false
}

// after is what follows some whole words.
func after(typed, first string) (rest string, is bool) {
	if first == "" {
		return typed, true
	}
	rest, is = strings.CutPrefix(typed, first+" ")
	return strings.TrimSpace(rest), is
}

// date reads a day of the calendar with its time. One without a year is the last of its
// kind: in January, of December.
func (r *reader) date(typed string) (time.Time, bool) {
	for _, d := range dates {
		at, err := time.ParseInLocation(d.form, typed, r.now.Location())
		if err != nil {
			continue
		}
		if !d.hasYear {
			at = time.Date(r.now.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), 0, 0, r.now.Location())
			if at.After(r.now.AddDate(0, 0, 1)) {
				at = at.AddDate(-1, 0, 0)
			}
		}
		return at, true
	}
	return time.Time{}, false
}

// clock reads a time of day. Where the text says in another way that it is one, an hour
// alone is enough, a full stop parts as well as a colon, and a part of the day will do.
func (r *reader) clock(typed string, sure bool) (time.Time, bool) {
	forms := []string{"15:04", "3:04 pm", "3:04pm", "3 pm", "3pm"}
	if sure {
		forms = append(forms, "15.04", "15")
		for _, p := range parts {
			if slices.Contains(r.language.Typed(p.name), typed) {
				return time.Date(0, 1, 1, p.hour, 0, 0, 0, time.UTC), true
			}
		}
	}
	for _, form := range forms {
		if at, err := time.Parse(form, typed); err == nil {
			return at, true
		}
	}
	return time.Time{}, false
}
