package mash

import "skep/calc/sugar"

// Erring is a mash against the temperature of one of its rests, where the thermometer
// errs alike in all of them.
type Erring struct {
	asSet  *Table
	warmer *Table // the other rests a degree warmer; nil with one rest
}

// TabulateErring is [Tabulate] for a thermometer that errs.
func TabulateErring(in Input, rest int, lowC, highC, stepC float64) (*Erring, error) {
	asSet, err := Tabulate(in, rest, lowC, highC, stepC)
	if err != nil || len(in.Rests) == 1 {
		return &Erring{asSet: asSet}, err
	}
	warmer, err := Tabulate(othersWarmer(in, rest), rest, lowC, highC, stepC)
	return &Erring{asSet, warmer}, err
}

// othersWarmer is a mash with every rest but one a degree warmer.
func othersWarmer(in Input, rest int) Input {
	in.Rests = append([]Rest(nil), in.Rests...)
	for i := range in.Rests {
		if i != rest {
			in.Rests[i].TemperatureC++
		}
	}
	return in
}

// Into puts down the wort of [Table.At] with the rest set to a temperature and every
// rest so much warmer than set, and gives the conversion.
func (e *Erring) Into(s *sugar.Spectrum, tempC, errorC float64, d Doubt) float64 {
	conversion := e.asSet.into(s, tempC+errorC, d)
	if e.warmer == nil {
		return conversion
	}
	// How the other rests' error acts is taken as linear in it.
	s2, conversion2 := e.warmer.At(tempC+errorC, d)
	k := errorC
	*s = sugar.Spectrum{
		Glucose: between(s.Glucose, s2.Glucose, k), Fructose: between(s.Fructose, s2.Fructose, k), Sucrose: between(s.Sucrose, s2.Sucrose, k),
		Maltose: between(s.Maltose, s2.Maltose, k), Maltotriose: between(s.Maltotriose, s2.Maltotriose, k),
		Dextrin: between(s.Dextrin, s2.Dextrin, k), Other: between(s.Other, s2.Other, k),
	}
	s.Scale(1 / s.Total())
	return between(conversion, conversion2, k)
}

// between goes from a to b by k, or beyond them, not below nothing.
func between(a, b, k float64) float64 { return max(a+k*(b-a), 0) }
