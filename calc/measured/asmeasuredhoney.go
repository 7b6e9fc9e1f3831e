package measured

import (
	"fmt"
	"math"

	"skep/calc/design"
	"skep/calc/quantity"
)

// atPitchingHours: honey logged up to here is the honey planned for pitching,
// if there is one.
const atPitchingHours = 6.0

// honey matches logged honey with the honeys planned, in order of time: what
// was logged at or before pitching with those of hot side and pitching, the
// rest with those of the fermenter. What is more than planned is taken as of
// the last kind.
func (c *Conditioned) honey(t *Timeline, heightHours float64) {
	w := &c.Design
	given := make([]bool, len(w.Honey))
	c.HoneyHours = make([]float64, len(w.Honey))
	for i := range c.HoneyHours {
		c.HoneyHours[i] = math.NaN()
	}
	open := func(late bool) int {
		for i, h := range w.Honey {
			if !given[i] && (h.Moment == design.MomentFermenting) == late {
				return i
			}
		}
		return -1
	}
	logged := t.Used(HoneyAdded)
	for _, p := range logged {
		i, count := -1, len(w.Honey)
		if p.Hours <= atPitchingHours {
			i = open(false)
		}
		early := i >= 0
		if !t.Pitched && !early {
			// No hour to hold it against: the next of the plan, at its moment.
			i = open(true)
			early = i >= 0
		}
		if !early {
			if i = open(true); i < 0 {
				i = c.more()
				given = append(given, false)
			}
		}
		h := &w.Honey[i]
		planned := h.MassKg
		h.MassKg = RangeOf("honey.0.mass_kg", p.Value)
		if c.slipped(h, planned) {
			p.drop(Absurd, "{mass} of honey: heavier than any wort", quantity.Of(quantity.MassKg, p.Value))
			if unplanned := i >= count; unplanned {
				w.Honey, c.HoneyHours, given = w.Honey[:i], c.HoneyHours[:i], given[:i]
			}
			continue
		}
		given[i] = true
		switch {
		case early: // at its planned moment
		case p.Hours <= 0:
			h.Moment = design.MomentPitching
		default:
			h.Moment = design.MomentFermenting
			h.HoursAfterHeight = RangeOf("honey.0.hours_after_height", p.Hours-heightHours)
			c.HoneyHours[i] = p.Hours
		}
		c.Spent = append(c.Spent, Spent{design.LeverHoney, fmt.Sprintf("honey.%d.mass_kg", i), h.MassKg, HoneyIn, p.At})
	}
	for i, h := range w.Honey {
		if !given[i] && (h.Moment == design.MomentFermenting || !t.Pitched) {
			c.HoneyLeft = append(c.HoneyLeft, i)
		}
	}
	switch {
	case len(c.HoneyLeft) > 0:
		// One is left, so the lever still moves: what is logged holds itself only.
		for i := range c.Spent {
			if s := &c.Spent[i]; s.Lever == design.LeverHoney {
				s.Lever = s.Key
			}
		}
	case len(w.Honey) > 0:
		if len(logged) == 0 {
			c.Spent = append(c.Spent, Spent{Lever: design.LeverHoney, Why: AllHoneyIn, At: t.PitchedAt})
		}
		at := t.PitchedAt
		if len(logged) > 0 {
			at = logged[len(logged)-1].At
		}
		c.Spent = append(c.Spent, Spent{Lever: design.LeverMoment, Why: AllHoneyIn, At: at})
	}
}

// slipped tells whether a slip of the keyboard makes the wort heavier than any, which
// would refuse the whole design, and takes the planned mass again then.
func (c *Conditioned) slipped(h *design.Honey, plannedKg float64) bool {
	logged := h.MassKg
	if logged > plannedKg && tooHeavy(&c.Design) {
		if h.MassKg = plannedKg; !tooHeavy(&c.Design) {
			return true
		}
		h.MassKg = logged // it is the plan that is too heavy
	}
	return false
}

// more makes room for honey that was not planned, of the last kind there is.
func (c *Conditioned) more() int {
	w := &c.Design
	h := design.Honey{Name: "honey", MoisturePct: 17.5, Raw: true}
	if n := len(w.Honey); n > 0 {
		h = w.Honey[n-1]
	}
	h.Moment, h.MassKg = design.MomentFermenting, 0
	w.Honey = append(w.Honey, h)
	c.HoneyHours = append(c.HoneyHours, math.NaN())
	return len(w.Honey) - 1
}
