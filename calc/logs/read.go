package logs

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/units"
)

const (
	mostLogReadings = 500  // of each kind; more are thinned to medians
	logSpikeSG      = 0.01 // off the median of its neighbours by this: a spike
	denseHours      = 12.0 // of five gravities: further apart, the beer itself may do it
	leastGapHours   = 24.0
	gapTimes        = 10.0 // the usual step, for a gap
)

// entry is one row, read.
type entry struct {
	at          time.Time
	sg, brix    float64 // NaN where there is none
	temperature float64
}

// Read takes a log as the guess says.
func (g Guess) Read(src []byte, zone *time.Location) (Log, error) {
	l := Log{Guess: g}
	if err := g.complete(); err != nil {
		return l, err
	}
	src, err := checkLog(src)
	if err != nil {
		return l, err
	}
	all, bad, err := rows(src, g.Delimiter)
	if err != nil {
		return l, message.Fault("the log can't be split into columns: %w", err)
	}
	for _, s := range bad {
		l.skip(s.Line, s.Why)
	}
	if g.Header && len(all) > 0 {
		all = all[1:]
	}
	l.Rows = len(all) + len(bad)
	entries := make([]entry, 0, len(all))
	var last time.Time
	for i := range all {
		e, why := g.entry(all[i].cells, place(zone), last)
		if !why.Empty() {
			l.skip(all[i].line, why)
			continue
		}
		last = e.at
		entries = append(entries, e)
	}
	l.Taken = len(entries)
	if len(entries) == 0 {
		return l, message.NewError("no row of the log could be read: check which column is which, and the units")
	}
	slices.SortStableFunc(entries, func(a, b entry) int { return a.at.Compare(b.at) })
	entries = slices.CompactFunc(entries, func(a, b entry) bool {
		return a.at.Equal(b.at) && same(a.sg, b.sg) && same(a.brix, b.brix) && same(a.temperature, b.temperature)
	})
	l.From, l.To = entries[0].at, entries[len(entries)-1].at
	l.gaps(entries)
	l.spikes(entries)
	l.thin(entries)
	return l, nil
}

func same(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

func (l *Log) skip(line int, why message.Message) {
	l.Skipped++
	if len(l.Skips) < mostSkips {
		l.Skips = append(l.Skips, Skip{line, why})
	}
}

// entry reads a row, or says why not.
func (g *Guess) entry(cells []string, zone *time.Location, last time.Time) (entry, message.Message) {
	e := entry{sg: math.NaN(), brix: math.NaN(), temperature: math.NaN()}
	have := false
	var clock time.Time
	clocked := false
	for i := range g.Columns {
		c := &g.Columns[i]
		if i >= len(cells) || cells[i] == "" || c.Kind == Ignored {
			continue
		}
		switch c.Kind {
		case When, Date:
			t, ok := parseWhen(c.Layout, cells[i], g.DecimalComma, zone)
			if !ok {
				return e, message.New("{text} is no date", short(cells[i]))
			}
			e.at, have = t, true
		case TimeOfDay:
			t, err := time.Parse(c.Layout, cells[i])
			if err != nil {
				return e, message.New("{text} is no time of day", short(cells[i]))
			}
			clock, clocked = t, true
		case LogGravity, Temperature:
			v, ok := number(cells[i], g.DecimalComma)
			if !ok {
				continue // the other may be there
			}
			e.put(c, v)
		}
	}
	if !have {
		return e, message.New("there is no date")
	}
	if kind := func(c Column) bool { return c.Kind == Date }; slices.ContainsFunc(g.Columns, kind) {
		y, m, d := e.at.Date()
		h, min, s := 12, 0, 0
		if clocked {
			h, min, s = clock.Clock()
		}
		e.at = time.Date(y, m, d, h, min, s, 0, zone)
	}
	if math.IsNaN(e.sg) && math.IsNaN(e.brix) && math.IsNaN(e.temperature) {
		return e, message.New("there is no gravity and no temperature that a beer can have")
	}
	// The hour that the clocks repeat in autumn: the first of the two that comes
	// after the row before.
	for _, other := range []time.Time{e.at.Add(-time.Hour), e.at, e.at.Add(time.Hour)} {
		if sameClock(other, e.at) && other.After(last) {
			e.at = other
			break
		}
	}
	e.at = e.at.UTC()
	return e, message.Message{}
}

// short is a cell as a message shows it.
func short(cell string) string { return fmt.Sprintf("%.40q", cell) }

// sameClock tells whether two moments an hour apart show the same on the wall.
func sameClock(a, b time.Time) bool {
	h1, m1, s1 := a.Clock()
	h2, m2, s2 := b.Clock()
	return h1 == h2 && m1 == m2 && s1 == s2
}

// put takes a value in its unit; what can't be stays away.
func (e *entry) put(c *Column, v float64) {
	switch c.Unit {
	case "°F":
		v = units.CelsiusFromFahrenheit(v)
		fallthrough
	case "°C":
		if v >= measured.ColdestBeerC && v <= measured.WarmestBeerC {
			e.temperature = v
		}
	case "°Bx":
		if v >= density.MinBrix && v <= density.MaxBrix {
			e.brix = v
		}
	default:
		switch c.Unit {
		case "points":
			v /= 1000
		case "°P":
			if v < density.MinPlato || v > density.MaxPlato {
				return
			}
			v = density.SGFromPlato(v)
		}
		if v >= measured.LeastGravitySG && v <= measured.MostGravitySG {
			e.sg = v
		}
	}
}

// gaps finds stretches without a row: a day at least, and ten times the usual.
func (l *Log) gaps(entries []entry) {
	var steps []float64
	for i := 1; i < len(entries); i++ {
		steps = append(steps, entries[i].at.Sub(entries[i-1].at).Hours())
	}
	usual := median(steps)
	for i, s := range steps {
		if s > leastGapHours && s > gapTimes*usual {
			l.Gaps = append(l.Gaps, Gap{entries[i].at, entries[i+1].at})
		}
	}
}

// spikes takes gravities out that are far off the median of the four beside
// them.
func (l *Log) spikes(entries []entry) {
	var at []int
	for i := range entries {
		if !math.IsNaN(entries[i].sg) {
			at = append(at, i)
		}
	}
	if len(at) < 5 {
		return
	}
	var off []int
	var beside [4]float64
	for k, i := range at {
		n := 0
		from := min(max(k-2, 0), len(at)-5)
		if entries[at[from+4]].at.Sub(entries[at[from]].at).Hours() > denseHours {
			continue
		}
		for j := from; j < from+5; j++ {
			if j != k && n < 4 {
				beside[n] = entries[at[j]].sg
				n++
			}
		}
		slices.Sort(beside[:])
		mid := (beside[1] + beside[2]) / 2
		// Where the beer falls fast the neighbours differ as well: allow that.
		if math.Abs(entries[i].sg-mid) > logSpikeSG+(beside[2]-beside[1]) {
			off = append(off, i)
		}
	}
	for _, i := range off {
		entries[i].sg = math.NaN()
	}
	l.Spikes = len(off)
}

// thin makes readings: every row if they are few, else the median of each
// stretch of time.
func (l *Log) thin(entries []entry) {
	hours := l.To.Sub(l.From).Hours()
	if len(entries) > mostLogReadings {
		l.ThinHours = max(hours/mostLogReadings, 1.0/60)
	}
	for from := 0; from < len(entries); {
		to := from + 1
		if l.ThinHours > 0 {
			end := entries[from].at.Add(time.Duration(l.ThinHours * float64(time.Hour)))
			for to < len(entries) && entries[to].at.Before(end) {
				to++
			}
		}
		l.take(entries[from:to])
		from = to
	}
	slices.SortStableFunc(l.Readings, func(a, b design.Reading) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.What, b.What)) })
}

// take makes the readings of one stretch. A logger shows gravity at 20 °C, as
// far as it is known: its temperature is the beer's.
func (l *Log) take(entries []entry) {
	pick := func(of func(e *entry) float64, what, instrument string, digits float64) {
		var v []float64
		var at []time.Time
		for i := range entries {
			if x := of(&entries[i]); !math.IsNaN(x) {
				v, at = append(v, x), append(at, entries[i].at)
			}
		}
		if len(v) == 0 {
			return
		}
		l.Readings = append(l.Readings, design.Reading{
			What: what, At: at[len(at)/2], Value: math.Round(median(v)*digits) / digits, TemperatureC: 20, Instrument: instrument,
		})
	}
	pick(func(e *entry) float64 { return e.sg }, measured.Gravity, measured.Hydrometer, 1e4)
	pick(func(e *entry) float64 { return e.brix }, measured.Gravity, measured.Refractometer, 100)
	pick(func(e *entry) float64 { return e.temperature }, measured.BeerTemperature, measured.Hydrometer, 100)
}
