package logs

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

func parseFloat(s string) (float64, error) { return strconv.ParseFloat(s, 64) }

// Layouts that are no layout of package time.
const (
	unixSeconds = "unix-s"
	unixMillis  = "unix-ms"
	serialDays  = "serial"
)

// dayOrders are dates, and clocks what may stand behind them. The day before
// the month first: where both can be, the order of time decides.
var (
	dayOrders = []string{
		"2006-01-02", "2006/01/02", "2006.01.02", "02/01/2006", "01/02/2006", "02.01.2006", "02-01-2006", "01-02-2006",
		"2/1/2006", "1/2/2006", "2.1.2006", "2/1/06", "1/2/06", "2 Jan 2006", "Jan 2, 2006", "2-Jan-2006", "2-Jan-06", "20060102",
	}
	clocks      = []string{"15:04:05", "15:04", "3:04:05 PM", "3:04 PM", "15.04"}
	joins       = []string{" ", "T", ", "}
	wholes      = []string{time.RFC3339Nano, "2006-01-02T15:04:05.999999999", "2006-01-02 15:04:05.999999999Z07:00", "2006-01-02 15:04:05 -0700", "2006-01-02 15:04:05 -0700 MST", time.RFC1123Z, time.ANSIC}
	serialStart = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
)

// layouts with a date and a time, in the order in which they are tried.
func layouts() []string {
	out := append([]string(nil), wholes...)
	for _, d := range dayOrders {
		for _, j := range joins {
			for _, c := range clocks {
				out = append(out, d+j+c)
			}
		}
	}
	return out
}

// parseWhen reads one value.
func parseWhen(layout, s string, comma bool, zone *time.Location) (time.Time, bool) {
	var t time.Time
	switch layout {
	case unixSeconds, unixMillis, serialDays:
		v, ok := number(s, comma)
		if !ok {
			return t, false
		}
		switch layout {
		case unixSeconds:
			if math.Abs(v) > 1e11 {
				return t, false
			}
			t = time.UnixMilli(int64(v * 1000))
		case unixMillis:
			if math.Abs(v) > 1e14 {
				return t, false
			}
			t = time.UnixMilli(int64(v))
		default:
			if !(v > 0 && v < 200000) {
				return t, false
			}
			day, part := math.Modf(v)
			u := serialStart.AddDate(0, 0, int(day)).Add(time.Duration(math.Round(part*86400)) * time.Second)
			// A spreadsheet has no zone: its clock is the brewer's.
			t = time.Date(u.Year(), u.Month(), u.Day(), u.Hour(), u.Minute(), u.Second(), 0, zone)
		}
	default:
		var err error
		if t, err = time.ParseInLocation(layout, s, zone); err != nil {
			return t, false
		}
	}
	return t, t.Year() >= 1970 && t.Year() < 2200
}

// fits is how many values read by a layout, and whether they are in order.
func fits(values []string, layout string, comma bool, zone *time.Location) (n int, ordered bool) {
	ordered = true
	up, down := 0, 0
	var last time.Time
	for _, v := range values {
		t, ok := parseWhen(layout, v, comma, zone)
		if !ok {
			continue
		}
		if n > 0 {
			if t.After(last) {
				up++
			} else if t.Before(last) {
				down++
			}
		}
		n, last = n+1, t
	}
	return n, min(up, down)*20 <= up+down
}

// bestLayout is the first of those that read nearly all values, ordered ones
// before others; another says whether one more would do as well.
func bestLayout(values, from []string, comma bool, zone *time.Location) (layout string, other bool) {
	few := values[:min(len(values), 8)]
	firstOrdered := false
	for _, l := range from {
		if n, _ := fits(few, l, comma, zone); n*2 < len(few) {
			continue // not worth the whole sample
		}
		n, ordered := fits(values, l, comma, zone)
		if n*10 < len(values)*9 {
			continue
		}
		switch {
		case layout == "":
			layout, firstOrdered = l, ordered
		case ordered && !firstOrdered:
			layout, firstOrdered, other = l, true, false
		case ordered == firstOrdered && differ(values, layout, l, comma, zone):
			other = true
		}
	}
	return layout, other
}

// differ tells whether two layouts read any value differently.
func differ(values []string, a, b string, comma bool, zone *time.Location) bool {
	for _, v := range values {
		x, ok1 := parseWhen(a, v, comma, zone)
		y, ok2 := parseWhen(b, v, comma, zone)
		if ok1 && ok2 && !x.Equal(y) {
			return true
		}
	}
	return false
}

// times finds the column of dates, and that of the time of day if it stands
// apart.
func (g *Guess) times(cols []sampledColumn, zone *time.Location) {
	whole := layouts()
	take := func(i int, kind ColumnKind, layout string, other bool) {
		g.Columns[i].Kind, g.Columns[i].Layout = kind, layout
		if other {
			g.doubt("column %d could have day and month the other way round: %q is read as %s", i+1, g.Columns[i].Sample, g.shown(i, zone))
		}
	}
	for i := range cols {
		if len(cols[i].values) == 0 {
			continue
		}
		if l, other := bestLayout(cols[i].values, whole, g.DecimalComma, zone); l != "" {
			take(i, When, l, other)
			return
		}
	}
	for i := range cols {
		l, other := "", false
		if len(cols[i].values) > 0 {
			l, other = bestLayout(cols[i].values, dayOrders, g.DecimalComma, zone)
		}
		if l == "" || l == "20060102" && len(cols[i].values[0]) != 8 {
			continue
		}
		take(i, Date, l, other)
		for j := range cols {
			if j == i || len(cols[j].values) == 0 {
				continue
			}
			for _, c := range clocks {
				if n := clockFits(cols[j].values, c); n*10 >= len(cols[j].values)*9 {
					g.Columns[j].Kind, g.Columns[j].Layout = TimeOfDay, c
					return
				}
			}
		}
		g.doubt("column %d has no time of day: noon is taken", i+1)
		return
	}
	for i := range cols {
		m := median(cols[i].numbers)
		name := g.Columns[i].Name
		switch {
		case len(cols[i].numbers)*10 < len(cols[i].values)*9 || len(cols[i].numbers) == 0:
			continue
		case m > 1e9 && m < 4e9:
			take(i, When, unixSeconds, false)
		case m > 1e12 && m < 4e12:
			take(i, When, unixMillis, false)
		case m > 30000 && m < 80000 && (named(name, "time", "date") || !g.Header):
			take(i, When, serialDays, false)
		default:
			continue
		}
		return
	}
}

func clockFits(values []string, layout string) int {
	n := 0
	for _, v := range values {
		if _, err := time.Parse(layout, v); err == nil {
			n++
		}
	}
	return n
}

// shown is the sample of a column as it is read.
func (g *Guess) shown(i int, zone *time.Location) string {
	t, ok := parseWhen(g.Columns[i].Layout, g.Columns[i].Sample, g.DecimalComma, zone)
	if !ok {
		return "no date"
	}
	return fmt.Sprintf("%d %s %d", t.Day(), t.Month(), t.Year())
}
