package tune

import (
	"fmt"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Tuner holds one design ready to be landed and tuned. It keeps what is costly
// between calls: the mash tables while only levers move, the seeds of the
// search and the outline while nothing but the pin moves.
//
// A Tuner is for one goroutine. The engine given to it predicts the ways that
// are found, and is best not the one that the window draws with: each keeps
// only the mash it saw last.
type Tuner struct {
	engine *calc.Engine
	lander *calc.Lander
	design design.Design
	plan   water.Plan
	start  lever.Setting

	bias   calc.Landed   // at start: the mid values less the middle draw
	atNow  calc.Landed   // mid values at start
	width  float64       // size of the cloud at start
	points []calc.Landed // the draws at start
	work   []calc.Landed

	character bool    // the honey's is asked for
	atHandKg  float64 // honey; without end where it may be bought

	evaluations int
	seeds       seeds
	outline     outlineCache
	memory      memory
}

// New makes a design ready, with the levers on its first rest and honey.
func New(e *calc.Engine, d design.Design) (*Tuner, error) { return NewAt(e, d, 0, 0) }

// NewAt is New with the levers on another rest and honey, counted from 0.
func NewAt(e *calc.Engine, d design.Design, rest, honey int) (*Tuner, error) {
	l, err := calc.NewLander(e, d, rest, honey)
	if err != nil {
		return nil, err
	}
	t := &Tuner{engine: e, lander: l}
	return t, t.set(d)
}

// Move takes over a design whose levers have moved, or any other with as many
// rests and honeys.
func (t *Tuner) Move(d design.Design) error {
	if err := t.lander.Move(d); err != nil {
		return err
	}
	return t.set(d)
}

func (t *Tuner) set(d design.Design) error {
	t.design = d.Clone()
	t.plan = recipe.Liquor(t.design)
	t.start = t.lander.Start()
	t.atHandKg = math.Inf(1)
	if kg := d.Taste.HoneyAtHandKg; kg != nil {
		t.atHandKg = *kg
	}
	return t.begin()
}

// begin lands the design as it is.
func (t *Tuner) begin() error {
	t.seeds.known = false
	now, width, err := t.exact(t.start)
	if err != nil {
		return err
	}
	t.points = append(t.points[:0], t.work...)
	t.atNow, t.width, t.bias = now, width, minus(now, t.quick(t.start))
	return nil
}

// ask makes ready for what is wished for: the honey's character is worked out only
// where it is asked for.
func (t *Tuner) ask(w Wishes) error {
	if (w.Honey != nil) == t.character {
		return nil
	}
	t.character = w.Honey != nil
	return t.begin()
}

// mostHoneyKg is the most of the chosen honey that there is, beside the others;
// without end where it may be bought.
func (t *Tuner) mostHoneyKg() float64 {
	_, chosen := t.lander.Chosen()
	return max(t.atHandKg-t.design.HoneyBesideKg(chosen), 0)
}

// minuteNodes are the lengths of a rest whose mash is tabulated for the
// search; between them the landing point is taken as linear. It errs there by
// less than half an index point, and what is found is checked exactly.
var minuteNodes = [...]float64{1, 10, 20, 30, 40, 50, 60, 75, 90, 120, 180, 240}

// quick is the middle draw at a setting.
func (t *Tuner) quick(s lever.Setting) calc.Landed {
	t.evaluations++
	character := 0.0
	if t.character {
		var err error
		if character, err = t.lander.QuickCharacter(s); err != nil {
			return calc.Landed{} // not for a valid design: New has landed it
		}
	}
	at := func(minutes float64) calc.Landed {
		s.Minutes = minutes
		l, err := t.lander.Quick(s)
		if err != nil {
			return calc.Landed{} // as above
		}
		l.HoneyCharacter = character
		return l
	}
	m := s.Minutes
	if m == t.start.Minutes {
		return at(m)
	}
	i, exact := slices.BinarySearch(minuteNodes[:], m)
	if exact || i == 0 || i == len(minuteNodes) {
		return at(m)
	}
	a, b := at(minuteNodes[i-1]), at(minuteNodes[i])
	u := (m - minuteNodes[i-1]) / (minuteNodes[i] - minuteNodes[i-1])
	mix := func(a, b float64) float64 { return a + u*(b-a) }
	return calc.Landed{
		Dryness: mix(a.Dryness, b.Dryness), Body: mix(a.Body, b.Body),
		StrengthPct: mix(a.StrengthPct, b.StrengthPct), FinalGravitySG: mix(a.FinalGravitySG, b.FinalGravitySG),
		HoneyCharacter: character,
	}
}

// exact are the mid values at a setting, as [calc.Engine.Predict] gives them,
// and the size of the cloud: the geometric mean of the bands of dryness and
// body, index points.
func (t *Tuner) exact(s lever.Setting) (calc.Landed, float64, error) {
	t.evaluations++
	var err error
	if t.work, err = t.lander.Land(s, t.work); err != nil {
		return calc.Landed{}, 0, err
	}
	b := t.lander.Bands(t.work)
	mids := Mids(b)
	if t.character {
		if mids.HoneyCharacter, err = t.lander.HoneyCharacter(s); err != nil {
			return calc.Landed{}, 0, err
		}
	}
	return mids, size(b), nil
}

// MidsOf is the landing point of a prediction.
func MidsOf(p *calc.Prediction) calc.Landed {
	l := Mids(p.Four())
	l.HoneyCharacter = p.HoneyCharacter.Mid
	return l
}

// Mids is the landing point of four bands, without the honey's character.
func Mids(b [calc.Outcomes]calc.Band) calc.Landed {
	return calc.Landed{
		Dryness: b[calc.Dryness].Mid, Body: b[calc.Body].Mid,
		StrengthPct: b[calc.Strength].Mid, FinalGravitySG: b[calc.FinalGravity].Mid,
	}
}

// apply gives the design with a place's settings in it, and the settings.
func (t *Tuner) apply(s lever.Setting, y *design.Yeast) (design.Design, map[string]any, error) {
	d := t.design.Clone()
	set := map[string]any{}
	var err error
	put := func(key string, v any) {
		if err == nil {
			set[key] = v
			err = d.Set(key, fmt.Sprint(v))
		}
	}
	now, at := t.start, t.at()
	for _, l := range lever.All() {
		if l == lever.YeastC && y == nil {
			continue // comes with another strain only
		}
		were, are := l.Keys(&now, at), l.Keys(&s, at)
		for i := range are {
			if are[i].Value != were[i].Value {
				put(are[i].Path, are[i].Value)
			}
		}
	}
	if y != nil {
		was := t.design.Yeast[0]
		number := func(key string, v, now float64) {
			if v != now {
				put(key, v)
			}
		}
		if y.Name != was.Name {
			put("yeast.0.name", y.Name)
		}
		if y.CellsBillionPerL > 0 {
			number("yeast.0.cells_billion_per_l", y.CellsBillionPerL, was.CellsBillionPerL)
		}
		if y.Form != "" && y.Form != was.Form {
			put("yeast.0.form", y.Form)
		}
		if y.EatsDextrin != was.EatsDextrin {
			put("yeast.0.eats_dextrin", y.EatsDextrin)
		}
		number("yeast.0.tolerance_pct", y.TolerancePct, was.TolerancePct)
		number("yeast.0.coldest_c", y.ColdestC, was.ColdestC)
		number("yeast.0.warmest_c", y.WarmestC, was.WarmestC)
	}
	if s.GrainShare != 1 {
		for i, g := range t.design.Grain {
			if kg := settable(g.MassKg*s.GrainShare, lever.Grain.Found()); kg != g.MassKg {
				put(fmt.Sprintf("grain.%d.mass_kg", i), kg)
			}
		}
	}
	d.Yeast = slices.Clone(d.Yeast)
	return d, set, err
}
