package calibration

import (
	"fmt"
	"os"

	"github.com/BurntSushi/toml"
)

// Row is one published mash.
type Row struct {
	ID               string   `toml:"id"`
	Use              string   `toml:"use"` // fit or check
	Quantity         string   `toml:"quantity"`
	Grist            string   `toml:"grist"`
	TemperatureC     float64  `toml:"temperature_c"`
	OtherC           float64  `toml:"other_c"`
	Minutes          float64  `toml:"minutes"`
	LiquorLPerKg     float64  `toml:"liquor_l_per_kg"`
	ConcentrationPct float64  `toml:"concentration_pct"` // grain in grain and liquor, by mass
	Value            float64  `toml:"value"`
	Sigma            float64  `toml:"sigma"`
	AtLeast          *float64 `toml:"at_least"`
	AtMost           *float64 `toml:"at_most"`
	Unit             string   `toml:"unit"`
	Source           string   `toml:"source"`
	Why              string   `toml:"why"` // a check that we miss: why
}

// Load reads the rows of a file such as testdata/mash/rows.toml.
func Load(path string) ([]Row, error) {
	src, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("the published mashes cannot be read: %w", err)
	}
	var file struct {
		Row []Row `toml:"row"`
	}
	meta, err := toml.Decode(string(src), &file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return nil, fmt.Errorf("%s: unknown key %s", path, extra[0])
	}
	seen := map[string]bool{}
	for i := range file.Row {
		r := &file.Row[i]
		if r.Minutes == 0 {
			r.Minutes = 60
		}
		if r.LiquorLPerKg == 0 {
			r.LiquorLPerKg = 3
		}
		if r.ConcentrationPct != 0 {
			r.LiquorLPerKg = 100/r.ConcentrationPct - 1
		}
		bound := r.AtLeast != nil || r.AtMost != nil
		switch {
		case r.ID == "" || seen[r.ID]:
			return nil, fmt.Errorf("%s: row %d: id %q is missing or used twice", path, i+1, r.ID)
		case r.Source == "" || r.Unit == "":
			return nil, fmt.Errorf("%s: %s: needs a source and a unit", path, r.ID)
		case r.Use != "fit" && r.Use != "check":
			return nil, fmt.Errorf("%s: %s: use = %q is not fit or check", path, r.ID, r.Use)
		case bound && r.Use == "fit":
			return nil, fmt.Errorf("%s: %s: a bound cannot be fitted", path, r.ID)
		case !bound && !(r.Sigma > 0):
			return nil, fmt.Errorf("%s: %s: sigma must be above 0", path, r.ID)
		}
		seen[r.ID] = true
	}
	return file.Row, nil
}
