package logs

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
)

func logFile(t testing.TB, name string) []byte {
	t.Helper()
	src, err := os.ReadFile("../../testdata/follow/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return src
}

// zone is a place whose clocks change.
func zone(t testing.TB) *time.Location {
	t.Helper()
	z, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip("no time zones on this machine:", err)
	}
	return z
}

func of(readings []design.Reading, what string) []design.Reading {
	var out []design.Reading
	for _, r := range readings {
		if r.What == what {
			out = append(out, r)
		}
	}
	return out
}

// pitchedAt is a midsummer brew day at Gate Field.
var pitchedAt = time.Date(2026, 6, 6, 16, 0, 0, 0, time.UTC)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, expected %.6g within %.2g", what, got, want, within)
	}
}

func TestLogsAreGuessed(t *testing.T) {
	t.Parallel()
	plato := func(p float64) float64 { return density.SGFromPlato(p) }
	for _, c := range []struct {
		file        string
		delimiter   rune
		comma       bool
		gravity     string // unit
		temperature string
		first, last float64 // SG
		firstC      float64
		at          string // of the first, UTC
		doubts      int
	}{
		{"plain.csv", ',', false, "SG", "°C", 1.0460, 1.0310, 19.1, "2026-06-06T16:00:00Z", 0},
		{"semicolon.csv", ';', true, "°P", "°C", plato(11.42), plato(2.05), 19.1, "2026-06-06T16:00:00Z", 0},
		{"american.csv", ',', false, "SG", "°F", 1.046, 1.012, 19.11, "2026-06-06T16:00:00Z", 0},
		{"epoch.tsv", '\t', false, "points", "°C", 1.046, 1.044, 19.1, "2026-06-06T16:00:00Z", 1},
	} {
		l, err := ReadLog(logFile(t, c.file), zone(t))
		if err != nil {
			t.Errorf("%s: %v", c.file, err)
			continue
		}
		g := l.Guess
		if g.Delimiter != c.delimiter || g.DecimalComma != c.comma || !g.Header {
			t.Errorf("%s: delimiter %q, decimal comma %v, header %v", c.file, g.Delimiter, g.DecimalComma, g.Header)
		}
		for _, col := range g.Columns {
			switch col.Kind {
			case LogGravity:
				if col.Unit != c.gravity {
					t.Errorf("%s: gravity in %q, expected %q", c.file, col.Unit, c.gravity)
				}
			case Temperature:
				if col.Unit != c.temperature || strings.Contains(col.Name, "Room") {
					t.Errorf("%s: temperature %q in %q, expected %q", c.file, col.Name, col.Unit, c.temperature)
				}
			}
		}
		sg, temps := of(l.Readings, measured.Gravity), of(l.Readings, measured.BeerTemperature)
		if l.Skipped != 0 || len(sg) != l.Rows || len(temps) != l.Rows || len(g.Doubts) != c.doubts {
			t.Errorf("%s: %d rows, %d gravities, %d temperatures, skipped %v, doubts %q", c.file, l.Rows, len(sg), len(temps), l.Skips, g.Doubts)
			continue
		}
		near(t, c.file+" first", sg[0].Value, c.first, 6e-5)
		near(t, c.file+" last", sg[len(sg)-1].Value, c.last, 6e-5)
		near(t, c.file+" temperature", temps[0].Value, c.firstC, 0.01)
		if got := sg[0].At.UTC().Format(time.RFC3339); got != c.at {
			t.Errorf("%s: the first row is of %s, expected %s", c.file, got, c.at)
		}
	}
}

// The hour that the clocks repeat is two hours of beer.
func TestLogThroughTheChangeOfTheClocks(t *testing.T) {
	t.Parallel()
	l, err := ReadLog(logFile(t, "autumn.csv"), zone(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Readings) != 6 {
		t.Fatalf("%d readings of 6 rows", len(l.Readings))
	}
	for i, r := range l.Readings {
		near(t, fmt.Sprintf("hours from the first to row %d", i), r.At.Sub(l.Readings[0].At).Hours(), float64(i), 1e-9)
		near(t, "gravity", r.Value, 1.0300-0.0008*float64(i), 1e-9)
	}
}

// A date that could be either way round is told.
func TestLogDayAndMonth(t *testing.T) {
	t.Parallel()
	src := "date,sg\n05/06/2026 10:00,1.046\n06/06/2026 10:00,1.044\n07/06/2026 10:00,1.030\n"
	g, err := guessLog([]byte(src), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Doubts) != 1 || !strings.Contains(g.Doubts[0], "5 June 2026") {
		t.Errorf("doubts %q", g.Doubts)
	}
	// In order only one way round: no doubt about it.
	src = "date,sg\n30/06/2026 10:00,1.046\n01/07/2026 10:00,1.044\n02/07/2026 10:00,1.030\n"
	l, err := ReadLog([]byte(src), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Guess.Doubts) != 0 || l.To.Month() != time.July {
		t.Errorf("to %v, doubts %q", l.To, l.Guess.Doubts)
	}
}

// A guess can be put right by hand.
func TestLogGuessCanBeChanged(t *testing.T) {
	t.Parallel()
	src := []byte("when,a,b\n2026-06-06 10:00,5.2,1.046\n2026-06-07 10:00,4.1,1.030\n")
	g, err := guessLog(src, nil)
	if err != nil {
		t.Fatal(err)
	}
	g.Columns[1].Kind, g.Columns[1].Unit = LogGravity, "°Bx"
	g.Columns[2].Kind = Ignored
	l, err := g.Read(src, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Readings) != 2 || l.Readings[0].Instrument != "refractometer" || l.Readings[0].Value != 5.2 {
		t.Errorf("%+v", l.Readings)
	}
}

// bigLog is 100,000 rows a minute apart of a beer that falls, with a gap of two
// weeks, spikes and rows that are nothing.
func bigLog() []byte {
	var b bytes.Buffer
	b.WriteString("time,gravity,temp\n")
	for i := range 100_000 {
		at := pitchedAt.Add(time.Duration(i) * time.Minute)
		if i >= 60_000 {
			at = at.AddDate(0, 0, 14)
		}
		sg := 1.008 + 0.038/(1+math.Exp((float64(i)/60-50)/12))
		switch {
		case i%9000 == 4500:
			sg = 1.12
		case i%25_000 == 100:
			b.WriteString("battery low\n")
			continue
		}
		fmt.Fprintf(&b, "%s,%.4f,%.1f\n", at.Format("2006-01-02 15:04:05"), sg, 19.5)
	}
	return b.Bytes()
}

func TestBigLog(t *testing.T) {
	t.Parallel()
	src := bigLog()
	start := time.Now()
	l, err := ReadLog(src, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d rows, %d MB in %v: %d readings, %d spikes, %d skipped", l.Rows, len(src)>>20, time.Since(start), len(l.Readings), l.Spikes, l.Skipped)
	if l.Rows != 100_000 || l.Skipped != 4 || l.Spikes != 11 || len(l.Gaps) != 1 || len(l.Readings) > 2*mostLogReadings {
		t.Errorf("%d rows, %d skipped %v, %d spikes, gaps %v, %d readings", l.Rows, l.Skipped, l.Skips, l.Spikes, l.Gaps, len(l.Readings))
	}
	near(t, "hours of the gap", l.Gaps[0].To.Sub(l.Gaps[0].From).Hours(), 14*24, 0.1)
	for _, r := range of(l.Readings, measured.Gravity) {
		h := r.At.Sub(pitchedAt).Hours()
		if h > 1000 {
			h -= 14 * 24
		}
		// Within what the beer falls in half of the stretch that a median is of.
		near(t, "gravity", r.Value, 1.008+0.038/(1+math.Exp((h-50)/12)), 0.0012)
	}
	// And it can be followed.
	d := demotest.Design(t, assets.DemoMiddle)
	d.Honey = nil
	d.Reading = append(l.Readings, design.Reading{What: measured.Pitched, At: pitchedAt, Value: 1, TemperatureC: 20, Instrument: "hydrometer"})
	var f follow.Follower
	b, err := f.Follow(d, pitchedAt.Add(2100*time.Hour), measured.Instruments{}, calc.Doubts{})
	if err != nil {
		t.Fatal(err)
	}
	if b.State.Code != follow.Finished || !b.State.Steady.Yes {
		t.Errorf("state %s: %s", b.State.Code, b.State.Text)
	}
}

func TestBadLogs(t *testing.T) {
	t.Parallel()
	for name, src := range map[string]string{
		"empty": "", "blank": " \n\n", "no dates": "a,b\n1,2\n3,4\n", "a picture": "\x89PNG\x00\x00",
		"no gravity":    "date,note\n2026-06-06 10:00,cloudy\n2026-06-07 10:00,clear\n",
		"only a header": "date,gravity\n",
	} {
		if l, err := ReadLog([]byte(src), nil); err == nil {
			t.Errorf("%s: read as %+v", name, l)
		}
	}
}

// What is no log is refused at once, however long its lines and cells are: a megabyte
// took seconds to be tried as a date in all ways of writing one.
func TestLongLinesAreRefusedAtOnce(t *testing.T) {
	long := strings.Repeat("x", 1<<20)
	for name, src := range map[string]string{
		"a line":        long,
		"a second line": "date,gravity\n2026-05-01 10:00," + long + "\n",
	} {
		_, err := ReadLog([]byte(src), nil)
		if err == nil || !strings.Contains(err.Error(), "1024 KB long") {
			t.Errorf("%s: %v", name, err)
		}
	}
	// The longest lines that are read, with cells that are no date.
	began := time.Now()
	if _, err := ReadLog([]byte(strings.Repeat(long[:mostLineBytes-1]+"\n", 200)), nil); err == nil {
		t.Error("no error")
	}
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("took %v", took)
	}
	// A remark beside a reading may be as long as its line.
	l, err := ReadLog([]byte("date,gravity,remark\n2026-05-01 10:00,1.050,"+long[:60000]+"\n2026-05-02 10:00,1.040,\n"), nil)
	if err != nil || l.Taken != 2 {
		t.Errorf("%d rows taken, %v", l.Taken, err)
	}
}

func FuzzReadLog(f *testing.F) {
	for _, name := range []string{"plain.csv", "semicolon.csv", "american.csv", "epoch.tsv", "autumn.csv"} {
		f.Add(logFile(f, name))
	}
	f.Add([]byte("date;sg\n\"06.06.2026;1,0\"\"46\n"))
	f.Add([]byte("\xff\xfed\x00,\x00\n\x00"))
	f.Fuzz(func(t *testing.T, src []byte) {
		l, err := ReadLog(src, nil)
		if err != nil {
			return
		}
		if l.Taken+l.Skipped != l.Rows {
			t.Errorf("%d taken and %d skipped of %d rows", l.Taken, l.Skipped, l.Rows)
		}
		for i, r := range l.Readings {
			ok := r.What == measured.Gravity && r.Instrument == measured.Hydrometer && r.Value >= measured.LeastGravitySG && r.Value <= measured.MostGravitySG ||
				r.What == measured.Gravity && r.Instrument == measured.Refractometer && r.Value >= 0 && r.Value <= density.MaxBrix ||
				r.What == measured.BeerTemperature && r.Value >= measured.ColdestBeerC && r.Value <= measured.WarmestBeerC
			if !ok || i > 0 && r.At.Before(l.Readings[i-1].At) {
				t.Fatalf("reading %d is %+v", i, r)
			}
		}
	})
}

func BenchmarkReadLog(b *testing.B) {
	src := bigLog()
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		if _, err := ReadLog(src, nil); err != nil {
			b.Fatal(err)
		}
	}
}
