package calibration

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/optimize"

	"skep/calc/density"
	"skep/calc/ferment"
	"skep/calc/yeast"
)

// Series is one measured fermentation: apparent extract and the temperature of
// the beer by the hour after pitching, as far as it was kept warm.
type Series struct {
	Name                  string
	Use                   string
	EndPlato              float64 // where it would have ended; 1 sd 0.3
	Hours, Plato, Celsius []float64
}

// seriesUse says which series are fitted, which are checks, and where each would
// have ended had it not been chilled: read off its last warm readings where
// those stand still, else what the same yeast did elsewhere in the record.
var seriesUse = map[string]struct {
	use string
	end float64
}{
	"PS ale 22 no 00":   {useFit, 2.6},
	"PS ale 17 no 00":   {useFit, 2.9},
	"SS ale 20 no 00":   {useFit, 3.3},
	"PS lager 22 no 01": {useFit, 2.9},
	"PS ale 22 no 02":   {useCheck, 2.5},
	"PS ale 17 no 01":   {useCheck, 2.9},
	"PS lager 12 no 00": {useCheck, 2.9},
	"PS lager 22 no 00": {useCheck, 4.5},
	"SS lager 20 no 01": {useCheck, 4.3},
}

// chilledK is the fall of temperature below the mean so far that ends a series:
// from there on it shows the cooler, not the yeast.
const chilledK = 5.0

// LoadSeries reads series.csv from the folder of the rows.
func LoadSeries(folder string) ([]Series, error) {
	lines, err := readCSV(filepath.Join(folder, "series.csv"), 4)
	if err != nil {
		return nil, err
	}
	var all []Series
	chilled := false
	for _, l := range lines {
		if len(all) == 0 || all[len(all)-1].Name != l.name {
			u, ok := seriesUse[l.name]
			if !ok {
				return nil, fmt.Errorf("series.csv: the series %q is not known", l.name)
			}
			all = append(all, Series{Name: l.name, Use: u.use, EndPlato: u.end})
			chilled = false
		}
		s := &all[len(all)-1]
		hours, plato, celsius := l.values[0], l.values[1], l.values[2]
		if n := len(s.Celsius); n > 0 && celsius < mean(s.Celsius)-chilledK {
			chilled = true
		}
		if !chilled {
			s.Hours, s.Plato, s.Celsius = append(s.Hours, hours), append(s.Plato, plato), append(s.Celsius, celsius)
		}
	}
	return all, nil
}

// line is a row of a table: what it is called (and numbered) and its numbers, NaN
// where there is none.
type line struct {
	row, name string
	values    []float64
}

// readCSV reads a table whose lines are a name and numbers; # begins a comment.
func readCSV(path string, columns int) ([]line, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("the fermentation record cannot be read: %w", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment, r.FieldsPerRecord = '#', columns
	records, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	var out []line
	for i, record := range records[1:] {
		l := line{name: record[0]}
		first := 1
		if records[0][0] == "row" {
			l.row, l.name, first = record[0], record[1], 2
		}
		for j, text := range record[first:] {
			v := math.NaN()
			if text != "" {
				if v, err = strconv.ParseFloat(text, 64); err != nil {
					return nil, fmt.Errorf("%s: record %d: %s is %q, expected a number", path, i+2, records[0][j+first], text)
				}
			}
			l.values = append(l.values, v)
		}
		out = append(out, l)
	}
	return out, nil
}

func mean(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// Weights of a series: its readings err by the sensor and by what no model has
// (readings twelve hours apart are not independent: the chi square counts half);
// its own rate and lag lie about the middle ones as below (1 sd of the logarithm).
const (
	readingSD    = 0.2 // °P
	firstSD      = 0.15
	lastSD       = 0.3
	rateSD       = 0.3
	lagSD        = 0.6
	independence = 0.5
)

// Matched is a series beside the course that meets it best.
type Matched struct {
	Rate, LagHours, FirstPlato, LastPlato float64
	Ours                                  []float64 // °P at each reading
	ChiSquare                             float64
}

// RMS is the scatter of a series about its match, °P.
func (m *Matched) RMS(s *Series) float64 {
	sum := 0.0
	for i, p := range s.Plato {
		sum += (m.Ours[i] - p) * (m.Ours[i] - p)
	}
	return math.Sqrt(sum / float64(len(s.Plato)))
}

// match finds a series' own rate, lag and both ends with the constants k. The
// ends are linear: they are solved for at each rate and lag.
func match(k ferment.Kinetics, lagHours float64, s *Series) (Matched, error) {
	first := (s.Plato[0] + s.Plato[1]) / 2
	in := ferment.Input{
		Wort: reference.Times(density.GramsPerLitre(first)), TemperatureC: 20,
		Take:     yeast.Take{Simple: 1, Maltose: 1, Maltotriose: maltotrioseTaken(first, s.EndPlato)},
		LagHours: 0.01, Kinetics: &k,
	}
	c, err := ferment.Run(in)
	if err != nil {
		return Matched{}, fmt.Errorf("%s: %w", s.Name, err)
	}
	// Hours at 20 °C that do as much, by the logged temperature.
	warm := make([]float64, len(s.Hours))
	for i := 1; i < len(s.Hours); i++ {
		const parts = 24
		for j := range parts {
			u := (float64(j) + 0.5) / parts
			at := s.Celsius[i-1] + u*(s.Celsius[i]-s.Celsius[i-1])
			warm[i] += (s.Hours[i] - s.Hours[i-1]) / parts * k.Activity(at)
		}
		warm[i] += warm[i-1]
	}
	solve := func(x []float64) Matched {
		m := Matched{Rate: math.Exp(x[0]), LagHours: lagHours * math.Exp(x[1]), Ours: make([]float64, len(s.Hours))}
		var aa, ab, bb, ar, br float64 // first and last by their normal equations
		add := func(a, b, value, sd float64) {
			w := 1 / (sd * sd)
			aa, ab, bb, ar, br = aa+w*a*a, ab+w*a*b, bb+w*b*b, ar+w*a*value, br+w*b*value
		}
		for i := range m.Ours {
			d := attenuated(&c, m.Rate*ferment.YeastHours(warm[i], m.LagHours))
			m.Ours[i] = d
			add(1-d, d, s.Plato[i], readingSD)
		}
		add(1, 0, first, firstSD)
		add(0, 1, s.EndPlato, lastSD)
		det := aa*bb - ab*ab
		m.FirstPlato, m.LastPlato = (bb*ar-ab*br)/det, (aa*br-ab*ar)/det
		square := func(v, sd float64) { m.ChiSquare += v * v / (sd * sd) }
		for i, d := range m.Ours {
			m.Ours[i] = m.FirstPlato + d*(m.LastPlato-m.FirstPlato)
			square(m.Ours[i]-s.Plato[i], readingSD)
		}
		square(m.FirstPlato-first, firstSD)
		square(m.LastPlato-s.EndPlato, lastSD)
		square(x[0], rateSD)
		square(x[1], lagSD)
		return m
	}
	best := Matched{ChiSquare: math.Inf(1)}
	for _, longer := range []float64{-0.3, 0.7} {
		res, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 { return solve(x).ChiSquare }},
			[]float64{0, longer}, &optimize.Settings{FuncEvaluations: 300, Converger: &optimize.FunctionConverge{Absolute: 1e-7, Iterations: 15}},
			&optimize.NelderMead{SimplexSize: 0.2})
		if res == nil {
			return best, fmt.Errorf("%s: %w", s.Name, err)
		}
		if m := solve(res.X); m.ChiSquare < best.ChiSquare {
			best = m
		}
	}
	return best, nil
}

// maltotrioseTaken is what of it a strain takes that ends at so much apparent
// extract on the reference wort (design notes, section 3).
func maltotrioseTaken(first, last float64) float64 {
	real := (1 - last/first) * 0.8192
	return min(max((real-reference.Simple()-reference.Maltose)/reference.Maltotriose, 0), 1)
}

// attenuated is the share of a course between its hours.
func attenuated(c *ferment.Course, hour float64) float64 {
	i := min(max(int(hour), 0), len(c.Hours)-2)
	u := min(hour-float64(i), 1)
	return c.Attenuated[i] + u*(c.Attenuated[i+1]-c.Attenuated[i])
}

// Of picks the series of a use.
func Of(all []Series, use string) []Series {
	return slices.DeleteFunc(slices.Clone(all), func(s Series) bool { return s.Use != use })
}
