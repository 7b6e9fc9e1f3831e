package calibration

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/BurntSushi/toml"
)

// Row is one published or trade figure.
type Row struct {
	ID               string  `toml:"id"`
	Use              string  `toml:"use"` // fit, check or set
	Quantity         string  `toml:"quantity"`
	Wort             string  `toml:"wort"` // reference, derived, mild
	TemperatureC     float64 `toml:"temperature_c"`
	PitchBillionPerL float64 `toml:"pitch_billion_per_l"`
	AlcoholPct       float64 `toml:"alcohol_pct"`
	ExtractGPerL     float64 `toml:"extract_g_l"`
	LeftGPerL        float64 `toml:"left_g_l"`
	Value            float64 `toml:"value"`
	Sigma            float64 `toml:"sigma"`
	Unit             string  `toml:"unit"`
	Source           string  `toml:"source"`
	Why              string  `toml:"why"`
}

// The uses of a row.
const (
	useFit   = "fit"
	useCheck = "check"
	useSet   = "set"
)

// Path is where the rows stand, from the root of the repository.
const Path = "testdata/ferment/rows.toml"

// Load reads the rows.
func Load(path string) ([]Row, error) {
	src, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("the fermentation rows cannot be read: %w", err)
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
	for i, r := range file.Row {
		switch {
		case r.ID == "" || seen[r.ID]:
			return nil, fmt.Errorf("%s: row %d: id %q is missing or used twice", path, i+1, r.ID)
		case r.Use != useFit && r.Use != useCheck && r.Use != useSet:
			return nil, fmt.Errorf("%s: row %s: use is %q, expected fit, check or set", path, r.ID, r.Use)
		case !(r.Sigma > 0):
			return nil, fmt.Errorf("%s: row %s: sigma is %g, expected more than 0", path, r.ID, r.Sigma)
		case r.Source == "":
			return nil, fmt.Errorf("%s: row %s has no source", path, r.ID)
		}
		seen[r.ID] = true
	}
	return file.Row, nil
}

// Find looks for the rows from the working folder upwards, as far as go.mod.
func Find() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, filepath.FromSlash(Path)), nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("the fermentation rows are looked for beside go.mod, and there is none here or above")
		}
		dir = up
	}
}
