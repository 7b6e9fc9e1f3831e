package learn

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"
	"testing"
	"time"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
)

// stages are the numbers of batches after which the next is predicted.
var stages = []int{0, 1, 2, 3, 5, 10}

const (
	brewers = 100
	nexts   = 5 // next batches that each prediction is held against
)

// score is the mean over brewers of one outcome at one stage.
type score struct{ miss, width, held float64 }

// curve is a world's scores, by stage and outcome.
type curve [][7]score

// simulate lets brewers of a world brew and learn.
func simulate(base design.Design, w world, count int) (curve, error) {
	total := make(curve, len(stages))
	errs := make([]error, count)
	var wait sync.WaitGroup
	each := make([]curve, count)
	for k := range runtime.NumCPU() {
		wait.Go(func() {
			for i := k; i < count; i += runtime.NumCPU() {
				each[i], errs[i] = career(newBrewer(uint64(i), base, w))
			}
		})
	}
	wait.Wait()
	for _, c := range each { // in order: the same sums whatever the goroutines
		for s := range c {
			for o := range c[s] {
				total[s][o].miss += c[s][o].miss / float64(count)
				total[s][o].width += c[s][o].width / float64(count)
				total[s][o].held += c[s][o].held / float64(count)
			}
		}
	}
	return total, errors.Join(errs...)
}

// career is one brewer's ten batches with the predictions between.
func career(b *brewer) (curve, error) {
	draws, engine := doubt.New(calc.Draws), calc.NewEngineDraws(1)
	next := b.base
	var batches []Batch
	var c curve
	for n := 0; n <= stages[len(stages)-1]; n++ {
		if n == stages[len(c)] {
			l := Learn(batches, next)
			bands, err := forecast(next, &l, nil, engine, draws)
			if err != nil {
				return nil, err
			}
			var row [7]score
			for range nexts {
				truth := b.brew(next).outcome
				for o, v := range truth {
					band := bands[o]
					row[o].miss += math.Abs(v-band[1]) / nexts
					row[o].width += (band[2] - band[0]) / nexts
					if band[0] <= v && v <= band[2] {
						row[o].held += 1.0 / nexts
					}
				}
			}
			c = append(c, row)
			if len(c) == len(stages) {
				break
			}
		}
		d := b.recipe(n)
		m := b.brew(d)
		d.Reading = b.readings(d, &m, monday.Add(time.Duration(n)*21*24*time.Hour))
		measured, err := Measure(d)
		if err != nil {
			return nil, err
		}
		batches = append(batches, Batch{ID: fmt.Sprintf("%02d.toml", n), Measured: measured})
	}
	return c, nil
}

var worlds = []world{{"as believed", 1, 1}, {"kits twice as far off", 2, 1}, {"batches scatter twice as much", 1, 2}}

var curves = sync.OnceValues(func() ([]curve, error) {
	base, err := demotest.Read("middle")
	if err != nil {
		return nil, err
	}
	var all []curve
	for _, w := range worlds {
		c, err := simulate(base, w, brewers)
		if err != nil {
			return nil, err
		}
		all = append(all, c)
	}
	return all, nil
})

// The claim of the ledger, on brewers whose true values are hidden: error and
// width fall with the batches, and the band holds four in five. With 500 held
// or not, five a brewer, a share is known to about 0.025 (1 sd), so 0.1 either
// way and 0.05 for the mean of all outcomes.
func TestBatchesTeach(t *testing.T) {
	t.Parallel()
	all, err := curves()
	if err != nil {
		t.Fatal(err)
	}
	believed := all[0]
	for s, row := range believed {
		mean := 0.0
		for o, x := range row {
			mean += x.held / float64(len(row))
			if math.Abs(x.held-0.8) > 0.1 {
				t.Errorf("after %d batches %s is held %.0f %% of the time", stages[s], outcomes[o].name, 100*x.held)
			}
			if s > 0 && x.width > 1.005*believed[s-1][o].width {
				t.Errorf("after %d batches the band of %s is %.3g wide, %.3g before", stages[s], outcomes[o].name, x.width, believed[s-1][o].width)
			}
		}
		if math.Abs(mean-0.8) > 0.05 {
			t.Errorf("after %d batches %.1f %% are held", stages[s], 100*mean)
		}
	}
	first, last := believed[0], believed[len(believed)-1]
	for o := range outcomes {
		if last[o].miss > 0.9*first[o].miss {
			t.Errorf("%s is missed by %.3g after ten batches, %.3g before any", outcomes[o].name, last[o].miss, first[o].miss)
		}
		if last[o].width > 0.8*first[o].width {
			t.Errorf("the band of %s is %.3g wide after ten batches, %.3g before any", outcomes[o].name, last[o].width, first[o].width)
		}
	}
	// A kit far from what is believed is found out within three batches.
	for o, x := range all[1][3] {
		if x.held < 0.7 {
			t.Errorf("kits twice as far off: after three batches %s is held %.0f %%", outcomes[o].name, 100*x.held)
		}
	}
}
