package file

import (
	"reflect"
	"testing"

	"skep/calc/design"
)

func TestParseList(t *testing.T) {
	t.Parallel()
	c, found := ParseList("own.toml", []byte(`
[[grain]]
name = "Pale malt"
family = "base malt"
extract_pct = 80.5
note = "the club's sack"

[[yeast]]
name = "Clean ale"
attenuation_low_pct = 73
attenuation_high_pct = 78
source = "maker's sheet"

[[yeast]]
name = "Clean ale"
attenuation_low_pct = 70
attenuation_high_pct = 60
flocculation = "high"

[[honey]]
moisture_pct = 40

[[hop]]
name = "Goldings"
`))
	if c.Grain[0].Family != "base malt" || c.Grain[0].ExtractPct != 80.5 || c.Grain[0].Note != "the club's sack" ||
		c.Yeast[0].Source != "maker's sheet" || c.Yeast[0].TemperatureC != 19 || c.Hop[0].AlphaPct != 5.2 || c.Honey[0].MoisturePct != 40 {
		t.Errorf("%+v", c)
	}
	var got []string
	for _, f := range found {
		got = append(got, f.String())
	}
	want := []string{
		`own.toml:15: yeast.1.name = "Clean ale" is already at yeast.0; only the first can be chosen by name`,
		"own.toml:16: yeast.1.attenuation_low_pct = 70 is above attenuation_high_pct = 60; the low one comes first",
		"own.toml:18: unknown key yeast.1.flocculation; it is kept but not used",
		"own.toml:20: honey.0.name is missing, expected text in quotes",
		"own.toml:21: honey.0.moisture_pct = 40 is outside 10 to 30 %",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %q", got)
	}
	if _, found := ParseList("own.toml", []byte("[[grain")); len(found) != 1 || !design.HasErrors(found) {
		t.Error(found)
	}
}
