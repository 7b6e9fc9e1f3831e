package compare

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc"
	"skep/calc/quantity"
)

func band(mid, off float64) calc.Band { return calc.Band{Low: mid - off, Mid: mid, High: mid + off} }

func prediction(name string, fg, strength, index, hours float64) Strain {
	return Strain{LowPct: 73, HighPct: 78, Prediction: calc.Prediction{
		Yeast: name, FinalGravitySG: band(fg, 0.002), StrengthPct: band(strength, 0.3), Dryness: band(index, 5), Body: band(index, 5),
		ApparentAttenuationPct: band(index, 3), HeightHours: band(hours, 9.4), FinishedHours: band(3*hours, 20),
	}}
}

func column(key string) Column {
	for _, c := range Columns() {
		if c.Key == key {
			return c
		}
	}
	panic(key)
}

// Differences are between the numbers as they stand, so that a reader who
// subtracts gets them; none in the first row, ±0 for what is alike.
func TestDifferences(t *testing.T) {
	t.Parallel()
	sg := quantity.NewFormatter(quantity.Units{}, nil)
	plato := quantity.NewFormatter(quantity.Units{Gravity: quantity.Plato, DecimalComma: true}, nil)
	for _, c := range []struct {
		f               quantity.Formatter
		key             string
		own, other      float64
		mid, difference string
	}{
		{sg, "final_gravity_sg", 1.0076, 1.0094, "1.009", "+0.001"}, // 1.008 and 1.009 stand there
		{sg, "final_gravity_sg", 1.0104, 1.0096, "1.010", "±0"},
		{sg, "final_gravity_sg", 1.0020, 0.9980, "0.998", "−0.004"},
		{sg, "strength_pct", 5.74, 5.36, "5.4", "−0.3"},
		{sg, "dryness", 57.4, 65.5, "66", "+9"},
		{sg, "height_hours", 34.3, 85.2, "85", "+51"},
		// 1.00777 is 1.9912 °P and 1.01187 is 3.0330 °P by the ASBC cubic.
		{plato, "final_gravity_sg", 1.00777, 1.01187, "3,0", "+1,0"},
		{plato, "final_gravity_sg", 1.00777, 0.9980, "−0,5", "−2,5"},
	} {
		var own, other calc.Prediction
		for _, p := range []struct {
			of *calc.Prediction
			v  float64
		}{{&own, c.own}, {&other, c.other}} {
			b := calc.Band{Low: p.v, Mid: p.v, High: p.v}
			*p.of = calc.Prediction{FinalGravitySG: b, StrengthPct: b, Dryness: b, HeightHours: b}
		}
		got := CellOf(c.f, column(c.key), &other, &own, nil)
		if got.Mid != c.mid || got.Difference != c.difference {
			t.Errorf("%s of %v beside %v: %q %q, want %q %q", c.key, c.other, c.own, got.Mid, got.Difference, c.mid, c.difference)
		}
		if got := CellOf(c.f, column(c.key), &own, nil, nil); got.Difference != "" {
			t.Errorf("the first row has the difference %q", got.Difference)
		}
	}
}

func TestDifferencesAddUp(t *testing.T) {
	t.Parallel()
	f := quantity.NewFormatter(quantity.Units{}, nil)
	value := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.NewReplacer("−", "-", "±", "").Replace(s), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string) Strain {
			return prediction(name, rapid.Float64Range(0.98, 1.1).Draw(rt, "fg"), rapid.Float64Range(0, 15).Draw(rt, "abv"),
				rapid.Float64Range(0, 100).Draw(rt, "index"), rapid.Float64Range(1, 900).Draw(rt, "hours"))
		}
		a, b := draw("a"), draw("b")
		for _, c := range Columns() {
			own, other := CellOf(f, c, &a.Prediction, nil, nil), CellOf(f, c, &b.Prediction, &a.Prediction, nil)
			if got, want := value(other.Difference), value(other.Mid)-value(own.Mid); math.Abs(got-want) > 1e-9 {
				rt.Fatalf("%s: %s beside %s is called %s", c.Key, other.Mid, own.Mid, other.Difference)
			}
		}
	})
}

func TestTextStandsInColumns(t *testing.T) {
	t.Parallel()
	strains := []Strain{prediction("Kölsch", 1.008, 5.7, 57, 34), prediction("", 1.0101, 5.4, 47, 85)}
	text := Text(quantity.NewFormatter(quantity.Units{}, nil), "Gate Field", strains)
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	if lines[0] != "Gate Field" || len(lines) != 8 {
		t.Fatalf("\n%s", text)
	}
	head := []rune(lines[3])
	at := strings.Index(string(head), "strength, %")
	for i, want := range map[int]string{4: "5.7 ", 5: "5.4 to 6.0", 6: "5.4 −0.3", 7: "5.1 to 5.7"} {
		if line := []rune(lines[i]); !strings.HasPrefix(string(line[at:]), want) {
			t.Errorf("line %d: %q, want %q under the head\n%s", i, string(line[at:]), want, text)
		}
	}
	if !strings.HasPrefix(lines[6], "unnamed ") || !strings.HasPrefix(lines[7], "  73–78 %") {
		t.Errorf("\n%s", text)
	}
}

func TestCSVReadsBack(t *testing.T) {
	t.Parallel()
	strains := []Strain{prediction("Plain", 1.008, 5.7, 57, 34), prediction("With \"quotes\", a comma\nand a line", 1.0101, 5.4, 47, 85)}
	rows, err := csv.NewReader(strings.NewReader(string(CSV(strains)))).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v, %v", rows, err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	if len(at) != 3+4*len(Columns())+2*4 {
		t.Errorf("%d columns: %v", len(at), rows[0])
	}
	for i, s := range strains {
		row := rows[i+1]
		if row[at["yeast"]] != s.Prediction.Yeast {
			t.Errorf("yeast %q", row[at["yeast"]])
		}
		for _, c := range Columns() {
			b, own := c.Of(&s.Prediction), c.Of(&strains[0].Prediction)
			for ending, want := range map[string]float64{"_low": b.Low, "_mid": b.Mid, "_high": b.High, "_difference": b.Mid - own.Mid} {
				if got, err := strconv.ParseFloat(row[at[c.Key+ending]], 64); err != nil || got != want {
					t.Errorf("%s%s is %v, want %v", c.Key, ending, got, want)
				}
			}
		}
	}
}

// In brackets stands what nobody can be sure of, and only that.
func TestUnsureDifferencesStandInBrackets(t *testing.T) {
	t.Parallel()
	own, other := prediction("a", 1.008, 5.7, 57, 34), prediction("b", 1.010, 5.4, 66, 85)
	than := calc.Difference{
		FinalGravitySG: calc.Band{Low: 0.001, Mid: 0.002, High: 0.003}, StrengthPct: calc.Band{Low: -0.5, Mid: -0.3, High: 0.1},
		Dryness: calc.Band{Low: 1, Mid: 9, High: 15}, Body: calc.Band{Low: 0, Mid: 9, High: 15},
	}
	f := quantity.NewFormatter(quantity.Units{}, nil)
	for key, want := range map[string]string{
		"final_gravity_sg": "+0.002", "strength_pct": "(−0.3)", "dryness": "+9", "body": "(+9)", "height_hours": "+51",
	} {
		if got := CellOf(f, column(key), &other.Prediction, &own.Prediction, &than).Shown(); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
	other.Difference = &than
	rows, err := csv.NewReader(strings.NewReader(string(CSV([]Strain{own, other})))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range rows[0] {
		if want := map[string]string{"strength_pct_difference_low": "-0.5", "strength_pct_difference_high": "0.1"}[name]; want != "" && rows[2][i] != want {
			t.Errorf("%s is %s, want %s", name, rows[2][i], want)
		}
	}
}
