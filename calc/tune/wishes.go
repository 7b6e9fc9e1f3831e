package tune

import (
	"errors"
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
)

// Wishes are the qualities asked for; nil is not asked.
type Wishes struct {
	Dryness     *float64 // 0 to 100
	Body        *float64 // 0 to 100
	StrengthPct *float64 // 0 to 20 % by volume
	Honey       *float64 // character, 0 to 100
}

// Empty tells whether no quality is asked for.
func (w Wishes) Empty() bool {
	return w.Dryness == nil && w.Body == nil && w.StrengthPct == nil && w.Honey == nil
}

// Equal tells whether two wishes ask for the same.
func (w Wishes) Equal(o Wishes) bool {
	same := func(a, b *float64) bool { return a == b || a != nil && b != nil && *a == *b }
	return same(w.Dryness, o.Dryness) && same(w.Body, o.Body) && same(w.StrengthPct, o.StrengthPct) && same(w.Honey, o.Honey)
}

// WishesOf are the wishes of a design's [taste].
func WishesOf(t design.Taste) Wishes {
	return Wishes{Dryness: t.Dryness, Body: t.Body, StrengthPct: t.StrengthPct, Honey: t.Honey}
}

// The keys of the qualities, in settings, misses and conflicts.
const (
	DrynessKey  = "dryness"
	BodyKey     = "body"
	StrengthKey = "strength_pct"
	HoneyKey    = "honey"
)

// mostWishes is how many qualities can be asked for at once.
const mostWishes = 4

// How near is near enough: "reached" within these of every mid value.
const (
	ReachedIndex       = 2.0
	ReachedStrengthPct = 0.1
)

// quality is one wish made ready: the miss counts in index points, and
// strength so that both tolerances weigh alike.
type quality struct {
	key    string
	of     func(*calc.Landed) float64
	want   float64
	points float64 // index points for one unit
}

const pointsPerPct = ReachedIndex / ReachedStrengthPct

func (w Wishes) list() ([]quality, error) {
	var qs []quality
	add := func(key string, v *float64, high, points float64, of func(*calc.Landed) float64) error {
		if v == nil {
			return nil
		}
		if !(*v >= 0 && *v <= high) {
			return message.NewError("{key} = {value} is outside {low} to {high}", "taste."+key, *v, 0, high)
		}
		qs = append(qs, quality{key, of, *v, points})
		return nil
	}
	err := errors.Join(
		add(DrynessKey, w.Dryness, 100, 1, func(p *calc.Landed) float64 { return p.Dryness }),
		add(BodyKey, w.Body, 100, 1, func(p *calc.Landed) float64 { return p.Body }),
		add(HoneyKey, w.Honey, 100, 1, func(p *calc.Landed) float64 { return p.HoneyCharacter }),
		add(StrengthKey, w.StrengthPct, 20, pointsPerPct, func(p *calc.Landed) float64 { return p.StrengthPct }),
	)
	if err != nil {
		return nil, err
	}
	if len(qs) == 0 {
		return nil, message.NewError("no taste is asked for: set taste.dryness, taste.body, taste.strength_pct or taste.honey")
	}
	return qs, nil
}

// Miss is how far a landing is from the wishes, index points, and whether every
// wish is near enough; NaN where nothing is wished for.
func (w Wishes) Miss(p calc.Landed) (points float64, near bool) {
	qs, err := w.list()
	if err != nil {
		return math.NaN(), false
	}
	return missOf(qs, &p), reached(qs, &p)
}

// missOf is the distance from all wishes, index points.
func missOf(qs []quality, p *calc.Landed) float64 {
	sum := 0.0
	for i := range qs {
		d := (qs[i].of(p) - qs[i].want) * qs[i].points
		sum += d * d
	}
	return math.Sqrt(sum)
}

// misses are how far each quality lands from its wish, in its own unit.
func misses(qs []quality, p *calc.Landed) map[string]float64 {
	m := make(map[string]float64, len(qs))
	for i := range qs {
		m[qs[i].key] = math.Abs(qs[i].of(p) - qs[i].want)
	}
	return m
}

// reached tells whether every wish is near enough. A hair's breadth is allowed
// for, so that a wish typed from a screen counts by what the screen shows.
func reached(qs []quality, p *calc.Landed) bool {
	for i := range qs {
		if math.Abs(qs[i].of(p)-qs[i].want)*qs[i].points > ReachedIndex+1e-9 {
			return false
		}
	}
	return true
}
