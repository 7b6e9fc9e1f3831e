package calc

import (
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/parallel"
)

// Curves are the four outcomes against the temperature of one rest, the rest
// of the design as it stands.
func (e *Engine) Curves(d design.Design, rest int, temperaturesC []float64) (Curves, error) {
	return e.CurvesYeast(d, 0, rest, temperaturesC)
}

// CurvesYeast is Curves with the i-th yeast of the design.
func (e *Engine) CurvesYeast(d design.Design, i, rest int, temperaturesC []float64) (Curves, error) {
	if err := hasRest(&d, rest); err != nil {
		return Curves{}, err
	}
	plan, err := soundWith(d, i)
	if err != nil {
		return Curves{}, err
	}
	b, err := e.prepare(d, &plan, d.Yeast[i], rest)
	if err != nil {
		return Curves{}, err
	}
	return e.curves(b, temperaturesC, math.NaN()), nil
}

// about is the curves of a brew that is ready, about one of its rests, with what a
// degree more of it changes where that is asked for.
func (e *Engine) about(b *Brew, rest int, temperaturesC []float64, hotter bool) (Curves, error) {
	if err := hasRest(&b.d, rest); err != nil {
		return Curves{}, err
	}
	if rest > 0 { // the mash is tabulated over another rest
		var err error
		if b, err = e.prepare(b.d, &b.plan, b.yeast, rest); err != nil {
			return Curves{}, err
		}
	}
	thanC := math.NaN()
	if hotter {
		thanC = b.d.Mash.Rest[rest].TemperatureC
	}
	return e.curves(b, temperaturesC, thanC), nil
}

func hasRest(d *design.Design, rest int) error {
	if rest < 0 || rest >= len(d.Mash.Rest) {
		return message.Fault("mash.rest.%d is not there: the design has %d", rest, len(d.Mash.Rest))
	}
	return nil
}

// keptCurves are the last curves and all that they hang on. A rest's own temperature
// is where they are read, not how they run, so they stand while its lever moves; and
// they do while honey moves that goes in later, or the yeast's warmth.
type keptCurves struct {
	mash              *mashTables
	restErrorC, intoL float64
	draws, stops      []drawn
	curves            Curves
}

func (k *keptCurves) of(b *Brew, stops []drawn, temperaturesC []float64) bool {
	return k.mash == b.mash && k.restErrorC == b.d.Kit.RestErrorC && k.intoL == b.d.Batch.IntoFermenterL &&
		slices.Equal(k.curves.TemperatureC, temperaturesC) && slices.Equal(k.stops, stops) && slices.Equal(k.draws, b.draws)
}

// curves are those of a brew, with what a degree more than a temperature changes, if
// that is a number.
func (e *Engine) curves(b *Brew, temperaturesC []float64, thanC float64) Curves {
	stops := b.stops()
	k, n := &e.curved, 0
	if !k.of(b, stops, temperaturesC) {
		n = len(temperaturesC)
		c := Curves{TemperatureC: slices.Clone(temperaturesC)}
		for o := range c.Bands {
			c.Bands[o] = make([]Band, n)
		}
		*k = keptCurves{b.mash, b.d.Kit.RestErrorC, b.d.Batch.IntoFermenterL, append(k.draws[:0], b.draws...), stops, c}
	}
	at, jobs := temperaturesC[:n:n], n
	if thanC == thanC {
		thanC = min(max(thanC, lever.RestLowC), lever.RestHighC-1)
		at, jobs = append(at, thanC, thanC+1), n+1
	}
	cells := e.rows.at(b, e.fixed, at...)
	c := k.curves
	parallel.Each(workers, jobs, func(worker, k int) {
		s := e.scratch[worker]
		if k == n {
			c.Hotter = b.hotter(cells[n], cells[n+1], s)
			return
		}
		bands := b.outcomesOf(cells[k], s)
		b.widenOutcomes(stops, temperaturesC[k], &bands)
		for o := range bands {
			c.Bands[o][k] = bands[o]
		}
	})
	return c
}

// hotter is what a mash that is one degree hotter changes.
func (b *Brew) hotter(from, to []mashCell, s *scratch) (bands [Outcomes]Band) {
	var less, more Beer
	for i := range b.draws {
		b.balance(&from[i], &b.draws[i], &b.honeys[i], &less)
		b.balance(&to[i], &b.draws[i], &b.honeys[i], &more)
		was := less.four()
		for o, v := range more.four() {
			s[o][i] = v - was[o]
		}
	}
	for o := range bands {
		bands[o] = BandOf(s[o])
	}
	return bands
}
