package logs

import (
	"slices"
	"strings"
)

// Units are those in which a column of this kind can be, the usual first; nil: it
// has none.
func Units(k ColumnKind) []string {
	switch k {
	case LogGravity:
		return []string{"SG", "points", "°P", "°Bx"}
	case Temperature:
		return []string{"°C", "°F"}
	}
	return nil
}

// Layouts are the ways in which dates are commonly written, the present one
// first: what can't be told apart by itself is day and month.
func Layouts(k ColumnKind, now string) []string {
	var common []string
	switch k {
	case When:
		common = []string{"2006-01-02 15:04", "2006-01-02 15:04:05", "02.01.2006 15:04", "02/01/2006 15:04", "01/02/2006 15:04", unixSeconds, unixMillis, serialDays}
	case Date:
		common = []string{"2006-01-02", "02.01.2006", "02/01/2006", "01/02/2006"}
	case TimeOfDay:
		common = []string{"15:04", "15:04:05", "3:04 PM"}
	default:
		return nil
	}
	if now != "" && !slices.Contains(common, now) {
		common = append([]string{now}, common...)
		if s := strings.NewReplacer("02", "01", "01", "02").Replace(now); s != now && k != TimeOfDay && !slices.Contains(common, s) {
			common = slices.Insert(common, 1, s)
		}
	}
	return common
}
