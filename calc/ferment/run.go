package ferment

import (
	"fmt"
	"slices"

	"skep/calc/density"
	"skep/calc/ode"
	"skep/calc/sugar"
)

// pulse is an addition on its way in.
type pulse struct {
	hour        float64 // after pitching
	fermentable sugar.Spectrum
	extract     float64
	volume      float64
	place       int // in the input
}

// brew is a course ready to run: what is pitched, and what follows.
type brew struct {
	in     Input
	start  State   // fermentable, with what goes in at pitching
	begin  step    // extract and volume at pitching
	late   []pulse // not yet timed: hour as given
	warned []string
}

func prepare(in Input, opt ode.Options) (brew, *solver, error) {
	in, err := in.filled()
	if err != nil {
		return brew{}, nil, err
	}
	b := brew{in: in, begin: step{extract: in.Wort.Total(), volume: 1}}
	s := newSolver(&in, opt)
	b.start[iX] = s.x0
	b.start.put(in.Take.Fermented(in.Wort))
	if in.TemperatureC < ColdestC || in.TemperatureC > WarmestC {
		b.warn("fermentation at %g °C: rates are known from %g to %g °C and held at the bound", in.TemperatureC, ColdestC, WarmestC)
	}
	for i, a := range in.Additions {
		p := pulse{a.Hours, a.fermentable(in.Take), a.Sugars.Total(), a.VolumeShare, i}
		if a.AfterHeight || a.Hours > 0 {
			b.late = append(b.late, p)
			continue
		}
		if a.Hours < 0 {
			b.warn("addition %d stands %g hours before pitching: taken as at pitching", i+1, -a.Hours)
		}
		b.start.put(p.fermentable)
		b.begin.extract += p.extract
		b.begin.volume += p.volume
	}
	s.volume = b.begin.volume
	b.begin.plato = density.PlatoFromGramsPerLitre(b.begin.extract / b.begin.volume)
	return b, s, nil
}

func (b *brew) warn(format string, args ...any) {
	b.warned = append(b.warned, fmt.Sprintf(format, args...))
}

// schedule times the late additions by the height and puts them in order.
func (b *brew) schedule(height float64) []pulse {
	timed := slices.Clone(b.late)
	for i := range timed {
		if b.in.Additions[timed[i].place].AfterHeight {
			timed[i].hour += height
		}
	}
	return b.order(timed)
}

// scheduleAt is the same for gaps between the height and each late addition.
func (b *brew) scheduleAt(height float64, gap []float64) []pulse {
	timed := slices.Clone(b.late)
	for i := range timed {
		timed[i].hour = height + gap[i]
	}
	return b.order(timed)
}

// order holds the hours within what can be followed and sorts by them.
func (b *brew) order(timed []pulse) []pulse {
	for i := range timed {
		p := &timed[i]
		if p.hour > longestHours {
			b.warn("addition %d would stand %.0f hours after pitching: taken at %g", p.place+1, p.hour, longestHours)
			p.hour = longestHours
		}
		if p.hour < 0 {
			b.warn("addition %d would stand %.0f hours before pitching: taken as at pitching", p.place+1, -p.hour)
			p.hour = 0
		}
	}
	slices.SortStableFunc(timed, func(x, y pulse) int {
		switch {
		case x.hour < y.hour:
			return -1
		case x.hour > y.hour:
			return 1
		}
		return 0
	})
	return timed
}

// strongestPlato is the original extract up to which the course is trusted, °P
// (common practice, no source).
const strongestPlato = 24.0

// nothing is an amount of extract, g/L, that does not count as fermentation.
const nothing = 1e-6

// own finds the milestones of the wort's own fermentation.
func (b *brew) own(s *solver) (track, milestones, error) {
	c := b.clock()
	limit, _ := c.yeast(longestHours)
	k, err := s.follow(b.start, max(limit, 1))
	if err != nil {
		return k, milestones{}, fmt.Errorf("ferment: the course could not be followed: %w", err)
	}
	return k, k.milestones(), nil
}

func (b *brew) clock() clock { return clock{lag: b.in.LagHours, s: b.in.RateFactor} }

// Run follows a fermentation.
//
// Height and window are those of the wort's own fermentation, with what was in
// it at pitching, undisturbed by later additions. Where nothing of that
// ferments, they all stand at the end of the lag.
func Run(in Input) (Course, error) { return run(in, ordinary, nil) }

// run is Run with tolerances of choice; visit, if not nil, sees every state
// by the hour.
func run(in Input, opt ode.Options, visit func(hour float64, y *State)) (Course, error) {
	b, s, err := prepare(in, opt)
	if err != nil {
		return Course{}, err
	}
	k, m, err := b.undisturbed(s)
	if err != nil {
		return Course{}, err
	}
	return b.course(s, &k, m, visit)
}

// Follow is [Run] and [NewTiming] together: the course and the doubt of its
// clock, without following the wort's own fermentation twice.
func Follow(in Input) (Course, *Timing, error) {
	b, s, err := prepare(in, ordinary)
	if err != nil {
		return Course{}, nil, err
	}
	k, m, err := b.undisturbed(s)
	if err != nil {
		return Course{}, nil, err
	}
	c, err := b.course(s, &k, m, nil)
	if err != nil {
		return Course{}, nil, err
	}
	t, err := b.timing(s, k, m)
	return c, t, err
}

// undisturbed is the wort's own fermentation; an empty track where nothing of
// it ferments.
func (b *brew) undisturbed(s *solver) (track, milestones, error) {
	if b.start.extract() <= nothing {
		return track{}, milestones{}, nil
	}
	return b.own(s)
}

// course walks through a fermentation whose undisturbed track is known.
func (b *brew) course(s *solver, k *track, m milestones, visit func(hour float64, y *State)) (Course, error) {
	c := b.clock()
	var times Times
	if len(k.nodes) > 0 {
		times = k.times(m, c)
		if k.nodes[len(k.nodes)-1].done < finishedDone*k.total {
			b.warn("not finished after %g days", longestHours/24)
		}
	} else {
		b.warn("nothing in the wort ferments")
		times = Times{c.lag, [2]float64{c.lag, c.lag}, c.lag}
	}

	w := walk{brew: b, solver: s, clock: c, pulses: b.schedule(times.HeightHours), visit: visit}
	w.course.Times = times
	w.course.TemperatureC = b.in.TemperatureC
	w.course.AdditionHours = make([]float64, len(b.in.Additions))
	if err := w.run(); err != nil {
		return Course{}, fmt.Errorf("ferment: the course could not be followed: %w", err)
	}
	if w.course.EffectiveOriginal > strongestPlato {
		b.warn("original extract of %.1f °P: above %g °P alcohol and sugar slow the yeast, which is not reckoned with", w.course.EffectiveOriginal, strongestPlato)
	}
	w.course.Warnings = b.warned[:len(b.warned):len(b.warned)]
	return w.course, nil
}
