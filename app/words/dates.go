package words

import (
	"strings"
	"time"

	"skep/calc/message"
	"skep/calc/quantity"
)

// Date is a time by a layout of package time, with the names of month and
// weekday in the person's language.
func Date(t time.Time, layout string) string {
	const month, monthShort, day = "\x01", "\x02", "\x03" // no layout has these
	text := t.Format(strings.NewReplacer("January", month, "Jan", monthShort, "Mon", day).Replace(layout))
	return strings.NewReplacer(month, monthName(t.Month()), monthShort, monthAbbreviation(t.Month()), day, Print(quantity.Weekday(t.Weekday()))).Replace(text)
}

func monthAbbreviation(m time.Month) string {
	return [...]string{Print(message.New("Jan")), Print(message.New("Feb")), Print(message.New("Mar")), Print(message.New("Apr")), Print(message.New("May")), Print(message.New("Jun")), Print(message.New("Jul")), Print(message.New("Aug")), Print(message.New("Sep")), Print(message.New("Oct")), Print(message.New("Nov")), Print(message.New("Dec"))}[m-1]
}

func monthName(m time.Month) string {
	return [...]string{Print(message.New("January")), Print(message.New("February")), Print(message.New("March")), Print(message.New("April")), Print(message.New("May")), Print(message.New("June")), Print(message.New("July")), Print(message.New("August")), Print(message.New("September")), Print(message.New("October")), Print(message.New("November")), Print(message.New("December"))}[m-1]
}
