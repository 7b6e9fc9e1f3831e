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

// undisturbed is the wort's own fermentation; an empty track where nothing of
// it ferments.
func (b *brew) undisturbed(s *solver) (track, milestones, error) {
	if b.start.extract() <= nothing {
		return track{}, milestones{}, nil
	}
	return b.own(s)
}

// Follow is [Run] and [NewTiming] together.
func Follow(in Input) (Course, *Timing, error) {
	c, err := Run(in)
	if err != nil {
		return c, nil, err
	}
	t, err := NewTiming(in)
	return c, t, err
}
