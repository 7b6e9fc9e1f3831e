package paper

import (
	"strings"
	"time"

	"skep/calc/message"
	"skep/plotting/sheet"
)

// ParseStart reads when a day begins: an hour, "9:30", or a day and an hour,
// "2026-06-20 9:30". An empty text is no start.
func ParseStart(text string, zone *time.Location) (sheet.Start, error) {
	text = strings.TrimSpace(strings.Replace(text, "T", " ", 1))
	if text == "" {
		return sheet.Start{}, nil
	}
	for _, form := range []struct {
		layout string
		dated  bool
	}{{"2006-01-02 15:04", true}, {"15:04", false}, {"15.04", false}} {
		if t, err := time.ParseInLocation(form.layout, text, zone); err == nil {
			if !form.dated { // a day that no clock changes on
				t = time.Date(2001, 1, 1, t.Hour(), t.Minute(), 0, 0, time.UTC)
			}
			return sheet.Start{At: t, Dated: form.dated}, nil
		}
	}
	return sheet.Start{}, message.NewError("the start {text}: expected an hour such as 9:30, or a day and an hour such as 2026-06-20 9:30", text)
}
