package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"skep/assets"
	"skep/calc"
	"skep/calc/design/file"
)

// run is one command on a design that comes by standard input.
func run(t *testing.T, src string, args ...string) (out string) {
	t.Helper()
	var o, e bytes.Buffer
	if todo := Run(args, Streams{In: strings.NewReader(src), Out: &o, Err: &e}); todo.Code != Done || e.Len() > 0 {
		t.Fatalf("%v: code %d, %s", args, todo.Code, e.String())
	}
	return o.String()
}

// What compare says of the first strain is what predict says, and of another
// one what predict says when it is brewed with instead.
func TestCompareAgreesWithPredict(t *testing.T) {
	t.Parallel()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	doc, _ := file.Parse("demo", src)
	var all struct{ Yeasts []calc.Prediction }
	if err := json.Unmarshal([]byte(run(t, string(src), "compare", "-", "--json")), &all); err != nil {
		t.Fatal(err)
	}
	if len(all.Yeasts) != len(doc.Design.Yeast) || len(all.Yeasts) < 3 {
		t.Fatalf("%d yeasts, the file has %d", len(all.Yeasts), len(doc.Design.Yeast))
	}
	for i, y := range doc.Design.Yeast {
		args := []string{"predict", "-", "--json"}
		// High before low, so that the range is never upside down on its way.
		for _, kv := range []string{
			fmt.Sprintf("name=%s", y.Name), "attenuation_low_pct=10",
			fmt.Sprintf("attenuation_high_pct=%v", y.AttenuationHighPct), fmt.Sprintf("attenuation_low_pct=%v", y.AttenuationLowPct),
			fmt.Sprintf("temperature_c=%v", y.TemperatureC), fmt.Sprintf("cells_billion_per_l=%v", y.CellsBillionPerL),
			fmt.Sprintf("form=%s", y.Form), fmt.Sprintf("eats_dextrin=%v", y.EatsDextrin),
		} {
			args = append(args, "--set", "yeast.0."+kv)
		}
		var p calc.Prediction
		if err := json.Unmarshal([]byte(run(t, string(src), args...)), &p); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(all.Yeasts[i], p) {
			t.Errorf("%s: compare says\n%+v\npredict\n%+v", y.Name, all.Yeasts[i], p)
		}
	}
}

// Each strain after the first has how it differs, from the same draws; so does each
// way of tune, from the design as it is.
func TestDifferencesInJSON(t *testing.T) {
	t.Parallel()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	type one struct {
		Prediction calc.Prediction
		Strength   calc.Band        `json:"strength_pct"`
		Difference *calc.Difference `json:"difference"`
	}
	var all struct {
		Yeasts []one
	}
	if err := json.Unmarshal([]byte(run(t, string(src), "compare", "-", "--json")), &all); err != nil {
		t.Fatal(err)
	}
	for i, y := range all.Yeasts {
		if (y.Difference != nil) != (i > 0) {
			t.Fatalf("yeast %d: difference %+v", i, y.Difference)
		}
		if i > 0 && math.Abs(y.Difference.StrengthPct.Mid-(y.Strength.Mid-all.Yeasts[0].Strength.Mid)) > 0.05 {
			t.Errorf("yeast %d: strength differs by %+v, the middles are %v and %v", i, y.Difference.StrengthPct, y.Strength.Mid, all.Yeasts[0].Strength.Mid)
		}
	}
	var tuned struct{ Ways []one }
	if err := json.Unmarshal([]byte(run(t, string(src), "tune", "-", "--json", "--set", "taste.dryness=70")), &tuned); err != nil {
		t.Fatal(err)
	}
	for i, w := range tuned.Ways {
		if w.Difference == nil || !(w.Difference.Dryness.Low < w.Difference.Dryness.High) {
			t.Errorf("way %d: difference %+v", i, w.Difference)
		}
	}
}
