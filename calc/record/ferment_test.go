package record_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/leastsquares"
	"skep/calc/record"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// referenceGPerL is the extract of a 12 °P wort, g/L.
const referenceGPerL = 125.6

// referenceWort is what 1 h at 66 °C draws from malt, shares of extract (from a
// textbook's table).
var referenceWort = sugar.Spectrum{
	Fructose: 0.015, Glucose: 0.08, Sucrose: 0.04, Maltose: 0.43, Maltotriose: 0.13, Dextrin: 0.22, Other: 0.085,
}

// neutralAle takes half of the maltotriose: about 75 % apparent on the reference.
var neutralAle = yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 0.5}

// fermentOf is the fermentation of a row of testdata/ferment/rows.csv.
func fermentOf(k ferment.Kinetics, lagHours float64, g record.Given) ferment.Input {
	in := ferment.Input{
		Wort: referenceWort.Times(referenceGPerL), Take: neutralAle,
		TemperatureC: g.Num("temperature_c"), PitchBillionPerL: g.NumOr("pitch_billion_l", 0), LagHours: lagHours, Kinetics: &k,
	}
	all := yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1}
	switch g.Word("wort") {
	case "":
	case "derived":
		in.Wort, in.Take = sugar.Spectrum{Glucose: 70 * 0.180156, Maltose: 220 * 0.342297, Maltotriose: 40 * 0.504438}, all
	case "mild": // 1.039 is 9.75 °P, 101.1 g/L; to 1.006 is 85 % apparent: all of the maltotriose
		in.Wort, in.Take = referenceWort.Times(101.1), all
	default: // no number, which no check agrees with
		in.Wort = sugar.Spectrum{Glucose: math.NaN()}
	}
	return in
}

// ferments is testdata/ferment/rows.csv: package ferment with some constants and
// a lag.
func ferments(k ferment.Kinetics, lagHours float64) map[string]func(record.Given) float64 {
	of := func(f func(*ferment.Course) float64) func(record.Given) float64 {
		return func(g record.Given) float64 {
			c, err := ferment.Run(fermentOf(k, lagHours, g))
			if err != nil {
				return math.NaN()
			}
			return f(&c)
		}
	}
	share := func(x float64) func(record.Given) float64 {
		return of(func(c *ferment.Course) float64 { return whenRises(c, c.Attenuated, x) })
	}
	// shape is the hours to a share of the fall over the hours to half of it.
	shape := func(x float64) func(record.Given) float64 {
		return of(func(c *ferment.Course) float64 {
			return whenRises(c, c.Attenuated, x) / whenRises(c, c.Attenuated, 0.5)
		})
	}
	logistic := func(i int) func(record.Given) float64 {
		return of(func(c *ferment.Course) float64 { return logisticOf(c)[i] })
	}
	return map[string]func(record.Given) float64{
		"gravity": func(g record.Given) float64 {
			return ferment.GravitySG(g.Num("extract_g_l"), g.Num("extract_g_l")-g.Num("left_g_l"))
		},
		"activation":           func(record.Given) float64 { return k.EaKcal },
		"activity":             func(g record.Given) float64 { return k.Activity(16) / k.Activity(g.Num("temperature_c")) },
		"growth":               func(g record.Given) float64 { return ferment.GrowthIn(7.892 * g.Num("alcohol_pct_vol")) },
		"half-time":            share(0.5),
		"nine-tenths":          share(0.9),
		"first-fiftieth":       share(0.02),
		"shape-tenth":          shape(0.1),
		"shape-quarter":        shape(0.25),
		"shape-three-quarters": shape(0.75),
		"shape-nine-tenths":    shape(0.9),
		"height-over-half":     of(func(c *ferment.Course) float64 { return c.HeightHours / whenRises(c, c.Attenuated, 0.5) }),
		"finished":             of(func(c *ferment.Course) float64 { return c.FinishedHours }),
		"opens":                of(func(c *ferment.Course) float64 { return c.Window[0] }),
		"done-at-opening":      of(func(c *ferment.Course) float64 { return betweenHours(c, c.Window[0]) }),
		"done-at-78":           of(func(c *ferment.Course) float64 { return betweenHours(c, 78) }),
		"adiabatic-rise":       of(func(c *ferment.Course) float64 { return c.AdiabaticRiseK }),
		"greatest-rate": of(func(c *ferment.Course) float64 {
			greatest := 0.0
			for _, r := range c.CO2RateGPerLH {
				greatest = math.Max(greatest, r)
			}
			return greatest
		}),
		"multiplication": of(func(c *ferment.Course) float64 {
			return c.YeastBillionPerL[len(c.Hours)-1] / c.YeastBillionPerL[0]
		}),
		"growth-ends": of(func(c *ferment.Course) float64 {
			first, last := c.YeastBillionPerL[0], c.YeastBillionPerL[len(c.Hours)-1]
			return whenRises(c, c.YeastBillionPerL, first+0.9*(last-first))
		}),
		"logistic-steepness": logistic(0),
		"logistic-midpoint":  logistic(1),
		"co2-in-all":         of(co2InAll),
		"co2-of-honey":       func(g record.Given) float64 { return co2OfHoney(fermentOf(k, lagHours, g)) },
	}
}

// fermentRows is testdata/ferment/rows.csv with what the committed constants give.
func fermentRows(t *testing.T) []record.Row {
	t.Helper()
	return compared(t, "ferment", ferments(ferment.Trade(), ferment.UsualLagHours))
}

// co2InAll is the gas of the course scaled to 4 % alcohol by mass from 12 °P:
// OE - RE = 4 (2.0665 - 0.010665 · 12) °P of extract fermented by mass, plus
// what the loss of mass hides; by volume 4 % of 1.01 kg/L is 40.4 g of ethanol.
func co2InAll(c *ferment.Course) float64 {
	const ethanolGPerL = 40.4
	made := c.CO2TotalGPerL[len(c.Hours)-1] / 0.9565 // g of ethanol per litre
	return c.CO2AfterLPerL(0) * ethanolGPerL / made
}

// co2OfHoney is what 1 kg of honey (17.2 % water, 93 % of its solids
// fermentable) adds in 20 L.
func co2OfHoney(in ferment.Input) float64 {
	without, err := ferment.Run(in)
	if err != nil {
		return math.NaN()
	}
	solids := 1000 * (1 - 0.172) / 20
	in.Additions = []ferment.Addition{{AfterHeight: true, Hours: 12, Fermentable: 0.93,
		Sugars: sugar.Spectrum{Fructose: 0.54 * solids, Glucose: 0.46 * solids}}}
	with, err := ferment.Run(in)
	if err != nil {
		return math.NaN()
	}
	return with.CO2AfterLPerL(0) - without.CO2AfterLPerL(0)
}

// whenRises is the hour at which a rising curve passes a value.
func whenRises(c *ferment.Course, y []float64, value float64) float64 {
	for i := 1; i < len(y); i++ {
		if y[i] >= value {
			return c.Hours[i-1] + (value-y[i-1])/(y[i]-y[i-1])
		}
	}
	return c.Hours[len(y)-1]
}

// betweenHours is the share attenuated between the hours of a course.
func betweenHours(c *ferment.Course, hour float64) float64 {
	i := min(max(int(hour), 0), len(c.Hours)-2)
	u := min(hour-float64(i), 1)
	return c.Attenuated[i] + u*(c.Attenuated[i+1]-c.Attenuated[i])
}

// logisticOf fits 1 - 1/(1 + exp(B (t - M))), the share attenuated of the
// four-parameter logistic with its ends held, to the first 192 h of a course;
// B (1/h), then M (h).
func logisticOf(c *ferment.Course) [2]float64 {
	n := min(193, len(c.Hours))
	m := whenRises(c, c.Attenuated, 0.5)
	fit, err := leastsquares.Minimise(func(dst, x []float64) {
		for i := range n {
			dst[i] = 1/(1+math.Exp(-x[0]*(c.Hours[i]-x[1]))) - c.Attenuated[i]
		}
	}, n, []float64{2 / m, m})
	if err != nil {
		return [2]float64{math.NaN(), math.NaN()}
	}
	return [2]float64{fit.X[0], fit.X[1]}
}

// A logistic curve gives back its own B and M.
func TestLogisticRecoversItself(t *testing.T) {
	t.Parallel()
	for _, p := range []struct{ b, m float64 }{{0.055, 52}, {0.0625, 42}, {0.07, 35}, {0.03, 80}} {
		var c ferment.Course
		for h := range 300 {
			c.Hours = append(c.Hours, float64(h))
			c.Attenuated = append(c.Attenuated, 1/(1+math.Exp(-p.b*(float64(h)-p.m))))
		}
		if got := logisticOf(&c); math.Abs(got[0]-p.b) > 1e-6 || math.Abs(got[1]-p.m) > 1e-4 {
			t.Errorf("B %g, M %g come back as %g, %g", p.b, p.m, got[0], got[1])
		}
	}
}

// measuredTimes is testdata/ferment/times.csv beside bands of the reference wort
// at the temperature that was kept and with the oxygen that is told, with the usual
// doubt of rate, lag and shape and half a kelvin.
func measuredTimes(t *testing.T) []held {
	t.Helper()
	rows, err := record.Read("../../testdata/ferment/times.csv")
	if err != nil {
		t.Fatal(err)
	}
	planned := map[string]func(share float64) []float64{}
	kept := measuredTemperatures(t)
	all := make([]held, 0, len(rows))
	for _, r := range rows {
		celsius, series := r.Given.Num("temperature_c"), seriesOf(r.Quantity)
		air := r.Given.NumOr("oxygen_mg_l", ferment.UsualOxygenMgPerL) / ferment.UsualOxygenMgPerL
		key := fmt.Sprint(celsius, series)
		if planned[key] == nil {
			if c := kept[series]; len(c) > 0 {
				planned[key] = plannedHours(air, c[0].ToC, c[1:]...)
			} else {
				planned[key] = plannedHours(air, celsius)
			}
		}
		hours := planned[key](r.Given.Num("share"))
		h := held{Row: r}
		h.Low, h.Mid, h.High = doubt.Percentiles(hours)
		all = append(all, h)
	}
	return all
}

// whyLate is why a measured time is outside the middle four fifths of the plan: of
// sets it is the first or the last of so many, and there is one in the other tail.
func whyLate(r *record.Row) string {
	series := seriesOf(r.Quantity)
	switch {
	case strings.Contains(series, "last of"):
		return "the last of fourteen runs of a pilot plant whose worts held 0.3 to 2.2 mg/L of oxygen, taken as 0.55: it began later than the lag's band, 2.5 either way, which is the trade's and does not follow the oxygen; from half of the fall on it is inside, as the median of the fourteen is throughout"
	case strings.Contains(series, "first of"):
		return "the first of fifteen runs, begun before the shortest lag that is planned; a band of four fifths is of any one run, and by a quarter of the fall it is inside"
	case strings.HasPrefix(series, "PS"):
		return "a run of the pilot plant in wort of 0.3 to 2.2 mg/L of oxygen, taken as 0.55: it began later than the lag's band, 2.5 either way, which is the trade's and does not follow the oxygen; from a quarter of the fall on it is inside"
	}
	return "one of five should be outside"
}

// seriesOf is the series or the set that a row of times is of.
func seriesOf(quantity string) string {
	_, series, _ := strings.Cut(quantity, "fall, ")
	return series
}

// measuredTemperatures are those of the series whose own are tabulated, each from
// half way before its reading.
func measuredTemperatures(t *testing.T) map[string][]ferment.Event {
	t.Helper()
	rows, err := record.Read("../../testdata/ferment/series.csv")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]ferment.Event{}
	for _, r := range rows {
		if r.Compare == "reading" {
			name, h := r.Given.Word("series"), r.Given.Num("hours")
			out[name] = append(out[name], ferment.Event{Change: true, Hours: math.Max(0, h-6), ToC: r.Given.Num("temperature_c")})
		}
	}
	return out
}

// latticeScores are four normal scores of a draw, by an additive lattice
// (generalised golden ratio).
func latticeScores(k int) (score [4]float64) {
	const g = 1.1673039782614187 // the root of x⁵ = x + 1
	step := 1.0
	for i := range score {
		step /= g
		_, u := math.Modf(0.5 + step*float64(k+1))
		score[i] = distuv.UnitNormal.Quantile(u)
	}
	return score
}

// plannedCourse is a course of the reference wort by a draw of rate, lag, shape and
// half a kelvin, as the plan draws them.
func plannedCourse(w *ferment.Walk, k int, air, celsius float64, events ...ferment.Event) {
	score := latticeScores(k)
	for i := range events {
		events[i].ToC += 0.5 * score[2]
	}
	w.Run(ferment.Pitched{
		Fermentable: neutralAle.Fermented(referenceWort).Times(referenceGPerL), TemperatureC: celsius + 0.5*score[2],
		RateFactor: ferment.RateFactor(score[0]), LagHours: ferment.UsualLagHours * ferment.LagFactor(score[1]),
		Shape: ferment.ShapeFactor(score[3]), Air: air, Untimed: true,
	}, events)
}

// plannedHours are the hours to a share of all that ferments, over the plan's draws.
func plannedHours(air, celsius float64, events ...ferment.Event) func(share float64) []float64 {
	const draws, longest, step = 256, 500, 0.25
	gone := make([][]float64, draws)
	for k := range gone {
		var w ferment.Walk
		plannedCourse(&w, k, air, celsius, slices.Clone(events)...)
		for h := 0.0; h <= longest; h += step {
			gone[k] = append(gone[k], w.At(h).FermentedGPerL/w.AllGPerL())
		}
	}
	return func(share float64) []float64 {
		out := make([]float64, draws)
		for k, g := range gone {
			i, _ := slices.BinarySearch(g, share)
			out[k] = step * float64(i)
			if i > 0 && i < len(g) {
				out[k] -= step * (g[i] - share) / (g[i] - g[i-1])
			}
		}
		return out
	}
}

// pilotOxygenMgPerL is the median at pitching of the pilot plant's runs, as in times.csv.
const pilotOxygenMgPerL = 0.55

// cooled is CK-31: five files of a pilot plant at 12 to 13.5 °C that were brought
// to 5 to 6 °C at 125 h; apparent attenuation by 300 h, beside courses of the
// reference wort so aired and so cooled.
func cooled(t *testing.T) []record.Row {
	t.Helper()
	const source = "E. Lwele, Sheffield Hallam University, 2025: five files of 12 °C, ale, lager and mixed yeast (read)"
	all := make([]float64, 256)
	for k := range all {
		var w ferment.Walk
		plannedCourse(&w, k, pilotOxygenMgPerL/ferment.UsualOxygenMgPerL, 12.8, ferment.Event{Change: true, Hours: 125, ToC: 5.5})
		gone := w.At(300).FermentedGPerL
		all[k] = 100 * (ferment.GravitySG(referenceGPerL, 0) - ferment.GravitySG(referenceGPerL, gone)) / (ferment.GravitySG(referenceGPerL, 0) - 1)
	}
	low, mid, high := doubt.Percentiles(all)
	row := func(what string, published, ours float64) record.Row {
		return record.Row{
			Quantity: "CK-31: apparent attenuation by 300 h at 12 to 13.5 °C, cooled to 5 to 6 at 125 h, " + what, Unit: "%", Published: published, Source: source, Ours: ours, Tolerance: 15,
			Why: "these five began late or hardly at all, most of them with yeast that likes it warmer and worts of little oxygen; the course knows the oxygen, taken as 0.55 mg/L, and not the yeast; package stress says how likely a stop by cold is",
		}
	}
	return []record.Row{row("least of five, beside the 10th percentile", 3, low), row("middle of five", 24, mid), row("most of five, beside the 90th percentile", 63, high)}
}

// timeRows are the measured times as rows of the record, and how many the bands
// hold.
func timeRows(t *testing.T) []record.Row {
	t.Helper()
	times := measuredTimes(t)
	out := make([]record.Row, 0, len(times)+1)
	for _, h := range times {
		r := h.Row
		r.Quantity = fmt.Sprintf("%s (band %.3g to %.3g)", r.Quantity, h.Low, h.High)
		r.Ours, r.Verdict = h.Mid, "agrees"
		if !h.inside() {
			r.Verdict = "misses"
			r.Why = whyLate(&r)
		}
		out = append(out, r)
	}
	inside, of := heldCount(times)
	return append(out, record.Row{
		Quantity: "fermentation: share of the measured times inside bands of four fifths", Unit: "%", Source: times[0].Source,
		Published: 80, Ours: 100 * float64(inside) / float64(of), Tolerance: 10,
		Why: "rate and lag were given bands that reach worts of little oxygen while the course knew none, and its constants were fitted to three such runs as if of usual air: now that their oxygen is told, the bands are wider than four fifths. A fit that knows it would narrow them",
	})
}

// Nominal four in five: of the measured single courses and the middles and ends of
// the sets, that share of the midpoints, and of all times, lies in what is planned.
func TestTimesAreCovered(t *testing.T) {
	t.Parallel()
	times := measuredTimes(t)
	var halves []held
	for _, h := range times {
		if h.Given.Num("share") == 0.5 {
			halves = append(halves, h)
		}
		t.Logf("%s: %5.1f h, planned %5.1f (%5.1f to %5.1f) %v", h.Quantity, h.Published, h.Mid, h.Low, h.High, h.inside())
	}
	in, all := heldCount(times)
	halvesIn, of := heldCount(halves)
	t.Logf("%d of %d midpoints, %d of %d times", halvesIn, of, in, all)
	if halvesIn*100 < 70*of || in*100 < 65*all {
		t.Errorf("%d of %d midpoints and %d of %d times are inside bands of four fifths", halvesIn, of, in, all)
	}
}
