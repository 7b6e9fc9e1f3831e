package ferment

import (
	"fmt"
	"math"

	"skep/calc/doubt"
)

// The doubt of the clock.
const (
	// RateSpread is how far, either way, the rate of all uptake may be from the
	// middle, as 10 to 90 (design notes, section 7).
	RateSpread = 1.5
	// The lag is 3 to 15 h about 8 as 10 to 90 (C. White; design notes,
	// section 4); another middle is spread in proportion.
	shortLag = 3 / UsualLagHours
	longLag  = 15 / UsualLagHours
	// UsualTemperatureErrorC is 1 sd of the beer's temperature over the days
	// (common practice, no source).
	UsualTemperatureErrorC = 1.0
)

// Doubt is one draw of the uncertain clock, as standard normal scores.
type Doubt struct {
	Rate        float64 // of all uptake: slow is negative
	Lag         float64 // short is negative
	Temperature float64 // cool is negative
}

// factors are the rate, the lag and the temperature of a draw against the middle.
func (d Doubt) factors() (rate, lag float64) {
	rate = math.Exp(d.Rate / doubt.Z90 * math.Log(RateSpread))
	spread := longLag
	if d.Lag < 0 {
		spread = 1 / shortLag
	}
	return rate, math.Exp(d.Lag / doubt.Z90 * math.Log(spread))
}

// Timing gives the milestones of any draw without integrating it.
//
// A draw of rate and lag is a change of clock: exact, see the package comment.
// A draw of temperature is interpolated (logarithm of each milestone,
// quadratic) between three courses. Where sugar is added on the way, the finish
// is interpolated over the rate between courses run in full; additions given by
// the hour after pitching then stand as if given after the height.
type Timing struct {
	clock  clock
	errC   float64 // 1 sd, K
	share  float64 // of the doubt of rate and lag
	track  track
	middle milestones
	// Per milestone, ln(tau/tau of the middle) = bend·z² + slope·z over the
	// temperature score z.
	slope, bend [4]float64
	// Where there are additions: logarithm of the hours from the lag to the
	// finish, over the score of the rate.
	finish  []float64
	nothing bool // of the wort itself ferments
}

// Scores at which the finish is run in full.
var finishScores = [...]float64{-3, -2, -1, 0, 1, 2, 3}

// temperatureScore is where the courses beside the middle stand.
const temperatureScore = 1.5

// NewTiming prepares the timing of an input. It integrates three courses, and
// seven more where sugar is added after pitching.
func NewTiming(in Input) (*Timing, error) {
	b, s, err := prepare(in, ordinary)
	if err != nil {
		return nil, err
	}
	k, m, err := b.undisturbed(s)
	if err != nil {
		return nil, err
	}
	return b.timing(s, k, m)
}

// timing is NewTiming with the undisturbed track known.
func (b *brew) timing(s *solver, k track, m milestones) (*Timing, error) {
	t := &Timing{clock: b.clock(), errC: b.in.TemperatureErrorC, share: b.in.ClockShare, track: k, middle: m, nothing: len(k.nodes) == 0}
	if !t.nothing {
		middle := t.middle.list()
		var beside [2][4]float64
		for i, z := range [2]float64{-temperatureScore, temperatureScore} {
			other := b.in
			other.TemperatureC = math.Min(math.Max(other.TemperatureC+z*t.errC, 0), 50)
			ob, os, err := prepare(other, ordinary)
			if err != nil {
				return nil, err
			}
			_, m, err := ob.own(os)
			if err != nil {
				return nil, err
			}
			for j, tau := range m.list() {
				beside[i][j] = logRatio(tau, middle[j])
			}
		}
		for j := range middle {
			t.slope[j] = (beside[1][j] - beside[0][j]) / (2 * temperatureScore)
			t.bend[j] = (beside[1][j] + beside[0][j]) / (2 * temperatureScore * temperatureScore)
		}
	}
	if len(b.late) == 0 {
		return t, nil
	}
	t.finish = make([]float64, len(finishScores))
	times := t.own(t.clock, 0)
	gap := make([]float64, len(b.late)) // hours from the height to each addition
	for i, p := range b.late {
		gap[i] = p.hour
		if !b.in.Additions[p.place].AfterHeight {
			gap[i] -= times.HeightHours
		}
	}
	for i, z := range finishScores {
		rate, _ := Doubt{Rate: z}.factors()
		c := clock{t.clock.lag, t.clock.s * rate}
		height := t.own(c, 0).HeightHours
		w := walk{brew: b, solver: s, clock: c, silent: true, pulses: b.scheduleAt(height, gap)}
		if err := w.run(); err != nil {
			return nil, fmt.Errorf("ferment: the course could not be followed: %w", err)
		}
		t.finish[i] = math.Log(math.Max(w.course.FinishedHours-c.lag, 1e-3))
	}
	return t, nil
}

func (m milestones) list() [4]float64 {
	return [4]float64{m.height, m.opens, m.closes, m.finished}
}

// logRatio is ln(a/b), 0 where either is nothing (a height at the very start).
func logRatio(a, b float64) float64 {
	if a <= 1e-6 || b <= 1e-6 {
		return 0
	}
	return math.Log(a / b)
}

// narrowed is a draw with rate and lag at their share.
func (t *Timing) narrowed(d Doubt) Doubt {
	d.Rate *= t.share
	d.Lag *= t.share
	return d
}

// At is the milestones of a draw. It allocates nothing.
func (t *Timing) At(d Doubt) Times {
	d = t.narrowed(d)
	rate, lag := d.factors()
	return t.at(d, rate, lag)
}

// at is At of a draw that is narrowed already, with its factors worked out.
func (t *Timing) at(d Doubt, rate, lag float64) Times {
	c := clock{t.clock.lag * lag, t.clock.s * rate}
	times := t.own(c, d.Temperature)
	if t.finish != nil {
		// Warmer is faster: as a rate, by what it does to the wort's own finish.
		z := d.Rate - t.warp(3, d.Temperature)/math.Log(RateSpread)*doubt.Z90
		times.FinishedHours = c.lag + math.Exp(interpolate(finishScores[:], t.finish, z))
	}
	return times
}

func (t *Timing) warp(j int, z float64) float64 {
	z = math.Min(math.Max(z, -3), 3)
	return z * (t.slope[j] + z*t.bend[j])
}

// own is the wort's own milestones on a clock, at a score of temperature.
func (t *Timing) own(c clock, z float64) Times {
	if t.nothing {
		return Times{c.lag, [2]float64{c.lag, c.lag}, c.lag}
	}
	m := t.middle
	if m.height/c.s*math.Exp(t.warp(0, z)) < c.lag/2 {
		// A height in the smooth start: one factor for the whole track.
		c.s /= math.Exp(t.warp(0, z))
		return t.track.times(m, c)
	}
	m.height *= math.Exp(t.warp(0, z))
	m.opens = math.Max(m.height, m.opens*math.Exp(t.warp(1, z)))
	m.closes = math.Max(m.opens, m.closes*math.Exp(t.warp(2, z)))
	m.finished *= math.Exp(t.warp(3, z))
	return Times{c.wall(m.height), [2]float64{c.wall(m.opens), c.wall(m.closes)}, c.wall(m.finished)}
}

// Equivalent is the hour of the middle course whose state a draw has reached
// at an hour after pitching, and how much faster it goes there. Exact for rate
// and lag without additions; additions are taken to move with the clock.
func (t *Timing) Equivalent(hour float64, d Doubt) (middleHour, faster float64) {
	d = t.narrowed(d)
	rate, lag := d.factors()
	c := clock{t.clock.lag * lag, t.clock.s * rate / math.Exp(t.warp(2, d.Temperature))}
	tau, activity := c.yeast(hour)
	if activity == 0 {
		return 0, 0
	}
	middleHour = t.clock.wall(tau)
	_, middle := t.clock.yeast(middleHour)
	if middle <= 0 {
		return middleHour, 0
	}
	return middleHour, activity / middle
}

// interpolate is linear between the points and beyond them.
func interpolate(x, y []float64, at float64) float64 {
	i := 1
	for i < len(x)-1 && x[i] < at {
		i++
	}
	return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
}
