package tune

import (
	"skep/calc"
	"skep/calc/lever"
)

// Arrow is where one natural step of a lever takes the mid point.
type Arrow struct {
	Lever       lever.Lever
	Step        float64 // °C, minutes, attenuation points, kg of honey, hours; negative where the lever stands at its upper end
	To          Point
	StrengthPct float64 // there
	// Difference is what a step does, from the same draws.
	Difference [calc.Outcomes]calc.Band
}

func (l *Landing) arrow(t *Tuner, which lever.Lever, step float64, s lever.Setting) error {
	to, _, err := t.exact(s)
	if err != nil {
		return err
	}
	l.Arrows = append(l.Arrows, Arrow{Lever: which, Step: step, To: Point{to.Dryness, to.Body}, StrengthPct: to.StrengthPct, Difference: t.lander.Difference(t.points, t.work)})
	return nil
}
