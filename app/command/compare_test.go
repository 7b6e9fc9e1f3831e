package command

import (
	"bytes"
	"encoding/json"
	"fmt"
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
