package calibration

import (
	"fmt"
	"path/filepath"

	"skep/calc/ferment"
	"skep/calc/record"
)

// Record lists every outside check of the fermentation, with the committed
// constants, from the rows of the repository. When they cannot be read the
// one row returned says so.
func Record() []record.Row {
	path, err := Find()
	if err == nil {
		var rows []Row
		if rows, err = Load(path); err == nil {
			var out []record.Row
			if out, err = RecordOf(rows); err == nil {
				var times []record.Row
				if times, err = timeRows(filepath.Dir(path)); err == nil {
					return append(out, times...)
				}
			}
		}
	}
	return []record.Row{{Quantity: "fermentation", Verdict: "misses", Why: err.Error()}}
}

// RecordOf is the same for rows at hand.
func RecordOf(rows []Row) ([]record.Row, error) {
	k := ferment.Trade()
	var out []record.Row
	for _, r := range rows {
		v, err := Measure(k, ferment.UsualLagHours, r)
		if err != nil {
			return nil, err
		}
		row := record.Row{
			Quantity: "fermentation: " + describe(r), Unit: r.Unit, Published: r.Value,
			Source: r.Source, Ours: v, Tolerance: r.Sigma, Why: r.Why,
		}
		switch r.Use {
		case useFit:
			row.Verdict, row.Why = "fitted", "one of the rows that uptake, growth, activation and lag are fitted to"
		case useSet:
			row.Verdict, row.Why = "fitted", "the honey window is defined so as to meet it"
		}
		out = append(out, row)
	}
	return out, nil
}

func describe(r Row) string {
	s := r.ID
	if r.TemperatureC != 0 {
		s += fmt.Sprintf(", %g °C", r.TemperatureC)
	}
	return s
}
