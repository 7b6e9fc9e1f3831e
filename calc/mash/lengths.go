package mash

import (
	"slices"

	"skep/calc/message"
	"skep/calc/ode"
)

// Lengths is the mash of an [Erring] with its last rest followed to the longest that is
// asked for, every step of the way kept. A shorter rest is the beginning of a longer
// one, so another length costs a step of each mash and not all of them; the figures are
// those of [TabulateErring] to the last bit. It is not changed any more.
type Lengths struct {
	asSet, warmer *lengths
	longestMin    float64
}

// lengths are the mashes of one table.
type lengths struct {
	in    Input
	rest  int
	tC    []float64
	marks [][]ode.Mark // of each, from where the last rest begins
}

// Follow is the mash of [TabulateErring] with a last rest of up to longestMin minutes,
// whatever the input has there.
func Follow(in Input, rest int, lowC, highC, stepC, longestMin float64) (*Lengths, error) {
	tC, err := places(&in, rest, lowC, highC, stepC)
	if err != nil {
		return nil, err
	}
	l := &Lengths{longestMin: longestMin}
	if l.asSet, err = follow(in, rest, tC, longestMin); err == nil && len(in.Rests) > 1 {
		l.warmer, err = follow(othersWarmer(in, rest), rest, tC, longestMin)
	}
	return l, err
}

func follow(in Input, rest int, tC []float64, longestMin float64) (*lengths, error) {
	l := &lengths{in: lasting(in, longestMin), rest: rest, tC: tC, marks: make([][]ode.Mark, len(tC))}
	err := eachMash(l.in, rest, tC, func(p *prepared, i int) error {
		end := len(p.legs) - 1
		last := p.legs[end]
		p.legs = p.legs[:end]
		if err := p.run(nil); err != nil {
			return err
		}
		p.r.enter(last)
		s := p.r.solver
		err := s.Start(p.r.f, last.fromMin, last.toMin, p.r.y, p.r.opt)
		for ; err == nil; err = s.Step() {
			l.marks[i] = append(l.marks[i], s.Mark())
			if s.Done() {
				return nil
			}
		}
		return message.Fault("the mash cannot be computed: %w", err)
	})
	return l, err
}

// lasting is a mash whose last rest takes so many minutes.
func lasting(in Input, minutes float64) Input {
	in.Rests = slices.Clone(in.Rests)
	in.Rests[len(in.Rests)-1].Minutes = minutes
	return in
}

// LongestMin is the longest last rest that may be asked for.
func (l *Lengths) LongestMin() float64 { return l.longestMin }

// Erring is the mash with a last rest of so many minutes, up to the longest.
func (l *Lengths) Erring(minutes float64) (*Erring, error) {
	if !(minutes >= 0 && minutes <= l.longestMin) {
		return nil, message.Fault("a last rest of %g min: outside 0 to %g", minutes, l.longestMin)
	}
	asSet, err := l.asSet.table(minutes)
	if err != nil || l.warmer == nil {
		return &Erring{asSet: asSet}, err
	}
	warmer, err := l.warmer.table(minutes)
	return &Erring{asSet, warmer}, err
}

func (l *lengths) table(minutes float64) (*Table, error) {
	return tabulate(lasting(l.in, minutes), l.rest, l.tC, func(p *prepared, i int) error {
		last := p.legs[len(p.legs)-1]
		marks := l.marks[i]
		if !marks[0].Begins(last.toMin) {
			return p.run(nil)
		}
		from := slices.IndexFunc(marks, func(m ode.Mark) bool { return m.Ends(last.toMin) })
		p.r.begin(&p.g, p.liquor)
		p.r.enter(last)
		s := p.r.solver
		err := s.Resume(p.r.f, &marks[from], last.toMin, p.r.opt)
		for err == nil && !s.Done() {
			err = s.Step()
		}
		copy(p.r.y, s.Y())
		if err != nil {
			return message.Fault("the mash cannot be computed: %w", err)
		}
		return nil
	})
}
