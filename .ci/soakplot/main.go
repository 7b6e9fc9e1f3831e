// Draws what .ci/soak wrote down: memory and goroutines against time; and says
// how they grow.
package main

import (
	"fmt"
	"os"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/plotutil"
	"gonum.org/v1/plot/vg"
)

func main() {
	if err := draw(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "soakplot:", err)
		os.Exit(1)
	}
}

func draw(log, picture string) error {
	in, err := os.Open(log)
	if err != nil {
		return err
	}
	var at []float64
	names := []string{"resident, MB", "no file's, MB", "held by Go, MB", "Go heap in use, MB", "goroutines"}
	of := make([][]float64, len(names))
	for {
		var s float64
		row := make([]float64, len(names))
		args := []any{&s}
		for i := range row {
			args = append(args, &row[i])
		}
		if n, _ := fmt.Fscan(in, args...); n < len(args) {
			break
		}
		at = append(at, s/60)
		for i, v := range row {
			of[i] = append(of[i], v)
		}
	}
	if len(at) < 10 {
		return fmt.Errorf("%s holds %d lines: nothing to draw", log, len(at))
	}
	p := plot.New()
	p.X.Label.Text, p.Y.Label.Text, p.Y.Min = "minutes of dragging", "MB; number of goroutines", 0
	settled := len(at) / 3 // the first third fills caches
	for i, name := range names {
		xy := make(plotter.XYs, len(at))
		for k := range at {
			xy[k] = plotter.XY{X: at[k], Y: of[i][k]}
		}
		if err := plotutil.AddLines(p, name, xy); err != nil {
			return err
		}
		_, slope := stat.LinearRegression(at[settled:], of[i][settled:], nil, false)
		last := of[i][len(at)-1]
		fmt.Printf("soak: %-20s %6.1f at first, %6.1f at the end, growing %+.3f a minute over the last two thirds\n", name, of[i][0], last, slope)
	}
	return p.Save(18*vg.Centimeter, 10*vg.Centimeter, picture)
}
