package follow

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/ferment"
)

// Evaluate is the posterior of another design of the same wort: what is not
// spent, the honey to come and the temperature from now on, may differ. It is
// what a re-tune searches with. A design that changes what is spent gives what
// the beer would have been, which is seldom what is wanted.
func (b *Batch) Evaluate(d design.Design) (Bands, error) { return b.evaluate(d, b.wantedC(d)) }

func (b *Batch) evaluate(d design.Design, toC float64) (Bands, error) {
	var out Bands
	err := b.with(d, toC, func(d design.Design) error {
		p, err := b.Engine.Predict(d)
		out = bandsOf(&p)
		return err
	})
	return out, err
}

// Land is the mid values of the four pictures for such a design, without any
// course: for a search among many.
func (b *Batch) Land(d design.Design) ([calc.Outcomes]calc.Band, error) {
	var out [calc.Outcomes]calc.Band
	err := b.with(d, b.wantedC(d), func(d design.Design) error {
		d.Yeast = d.Yeast[:1]
		all, err := b.Engine.Strains(d)
		if err == nil {
			out = all[0]
		}
		return err
	})
	return out, err
}

// wantedC is the temperature that a design asks for from now on: its own where that
// was changed, else what the beer is kept at.
func (b *Batch) wantedC(d design.Design) float64 {
	if was := b.Conditioned.Design.Yeast; len(d.Yeast) > 0 && math.Abs(d.Yeast[0].TemperatureC-was[0].TemperatureC) > 1e-9 {
		return d.Yeast[0].TemperatureC
	}
	return b.Conditioned.NowC()
}

// with evaluates a design of the same wort, brought to a temperature from now on.
func (b *Batch) with(d design.Design, toC float64, evaluate func(design.Design) error) error {
	d = d.Clone()
	d.Reading = nil
	logged := b.Conditioned.Logged(b.Timeline.NowHours)
	if len(d.Yeast) > 0 && b.Timeline.Pitched {
		d.Yeast[0].TemperatureC = b.Conditioned.Design.Yeast[0].TemperatureC
		if math.Abs(toC-b.Conditioned.NowC()) > 1e-9 {
			logged.Changes = append(logged.Changes, calc.Change{Hours: b.Timeline.NowHours, TemperatureC: toC})
		}
	}
	if err := b.Engine.SetMeasured(b.Draws, logged); err != nil {
		return err
	}
	err := evaluate(d)
	if back := b.Engine.SetMeasured(b.Draws, b.Conditioned.Logged(b.Timeline.NowHours)); err == nil {
		err = back
	}
	return err
}

// Warmed is what the beer would do if it were kept so much warmer from now on;
// nil when it is not fermenting, or where the yeast could not follow.
func (b *Batch) Warmed(byK float64) *Bands {
	if !b.Timeline.Pitched || b.State.Is(Finished) || b.Timeline.NowHours > b.After.FinishedHours.High {
		return nil
	}
	t := b.Conditioned.NowC() + byK
	if t < ferment.ColdestC || t > ferment.WarmestC {
		return nil
	}
	x, err := b.evaluate(b.Conditioned.Design, t)
	if err != nil {
		return nil
	}
	return &x
}
