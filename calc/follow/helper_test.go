package follow

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/measured"
)

// pitchedAt is a midsummer brew day at Gate Field.
var pitchedAt = time.Date(2026, 6, 6, 16, 0, 0, 0, time.UTC)

func at(hours float64) time.Time { return pitchedAt.Add(time.Duration(hours * float64(time.Hour))) }

func reading(what string, hours, value float64) design.Reading {
	return design.Reading{What: what, At: at(hours), Value: value, TemperatureC: 20, Instrument: "hydrometer"}
}

func follow(t testing.TB, d design.Design, now float64) *Batch {
	t.Helper()
	return followWith(t, d, now, calc.Doubts{})
}

func followWith(t testing.TB, d design.Design, now float64, x calc.Doubts) *Batch {
	t.Helper()
	var f Follower
	b, err := f.Follow(d, at(now), measured.Instruments{}, x)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// brewer is a simulated brewer: a draw of all that is hidden, and readings with
// errors of their own.
type brewer struct {
	truth theta
	m     *model
	made  evaluation
	rng   *rand.Rand
}

func newBrewer(t testing.TB, d design.Design, rng *rand.Rand) *brewer {
	b := &brewer{m: modelOf(t, d), rng: rng}
	for i := range b.truth {
		b.truth[i] = rng.NormFloat64()
	}
	b.m.run(&b.truth, &b.made)
	return b
}

// gravity is a hydrometer's reading with its noise, of a beer whose course is
// off the model's half way down, as far as the model is taken to err.
func (b *brewer) gravity(what string, hours float64) design.Reading {
	sg := b.made.At(hours).GravitySG
	if what == measured.OriginalGravity {
		sg = b.made.At(0).GravitySG
	}
	if fall := b.made.fall(); what == measured.Gravity && fall > 0 {
		sg += fall * ferment.CourseErrs((b.made.startSG()-sg)/fall) * b.rng.NormFloat64()
	}
	sg += spindleSD*b.truth[iSpindle] + 0.0005*b.rng.NormFloat64()
	return reading(what, hours, math.Round(sg*1e5)/1e5)
}

func (b *brewer) readings(hours ...float64) []design.Reading {
	out := []design.Reading{reading(measured.Pitched, 0, 1), b.gravity(measured.OriginalGravity, 0)}
	for _, h := range hours {
		out = append(out, b.gravity(measured.Gravity, h))
	}
	return out
}

// startSG is the gravity of everything that goes in, and fall how far it falls.
func (l *evaluation) startSG() float64 { return density.SGFromPlato(l.EffectivePlato) }
func (l *evaluation) fall() float64    { return l.startSG() - l.FinalGravitySG }
