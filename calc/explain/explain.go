package explain

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// Explain opens one number of a design's own yeast. It takes some fifty
// predictions; an [Explainer] keeps them for the next number.
func Explain(e *calc.Engine, d design.Design, key string) (Explanation, error) {
	x, err := New(e, d, 0)
	if err != nil {
		return Explanation{}, err
	}
	return x.Explain(key)
}

// Explainer opens the numbers of one design with one of its yeasts. It is for
// one goroutine, and uses its engine.
type Explainer struct {
	engine *calc.Engine
	design design.Design
	yeast  int

	prediction calc.Prediction
	values     map[string]value
	working    *working
	tried      [2][]movedLever // for the times that come from courses as second, for all other keys as first; nil: not asked for yet
	doubted    []doubted
}

// New prepares a design.
func New(e *calc.Engine, d design.Design, yeast int) (*Explainer, error) {
	p, err := e.PredictYeast(d, yeast)
	if err != nil {
		return nil, err
	}
	d = d.Clone()
	brew, err := e.Brew(d, yeast)
	if err != nil {
		return nil, err
	}
	return &Explainer{engine: e, design: d, yeast: yeast, prediction: p, values: values(&p), working: middleBeer(brew)}, nil
}

// Explain opens one number.
func (x *Explainer) Explain(key string) (Explanation, error) {
	key = strings.TrimSpace(key)
	if !slices.Contains(Keys(), key) {
		return Explanation{}, message.NewError("{key} is not a number of a prediction: want one of {keys}", strconv.Quote(key), strings.Join(Keys(), ", "))
	}
	v, one := x.values[key]
	if !one {
		return x.group(key), nil
	}
	s := sheetOf(key)
	out := Explanation{
		Key: key, Name: text(s.name), Unit: s.unit, Decimals: s.decimals,
		Band: v.band, Sure: v.sure, Text: v.text,
		Formula: texts(s.formula), Sources: texts(s.sources), Notes: texts(s.notes),
	}
	if s.inputs != nil {
		out.Inputs = s.inputs(x)
	}
	if v.word {
		return out, nil
	}
	var err error
	if out.Levers, err = x.levers(key); err != nil {
		return Explanation{}, err
	}
	out.Doubts = x.doubts(key)
	return out, nil
}

// group is a key of several numbers.
func (x *Explainer) group(key string) Explanation {
	s := sheetOf(key)
	out := Explanation{Key: key, Name: text(s.name), Unit: s.unit, Decimals: s.decimals, Formula: texts(s.formula), Sources: texts(s.sources)}
	for _, k := range Keys() {
		if v, one := x.values[k]; one && strings.HasPrefix(k, key+".") {
			p := sheetOf(k)
			out.Parts = append(out.Parts, Part{Key: k, Name: text(p.name), Unit: p.unit, Decimals: p.decimals, Band: v.band, Sure: v.sure})
		}
	}
	return out
}

// movedLever is what was moved with the predictions at a step down and up.
type movedLever struct {
	moved
	down, up map[string]value // nil: refused
}

// levers are the effects of what can be moved.
func (x *Explainer) levers(key string) ([]Effect, error) {
	// Most keys come from no course, and what they are is known in a fifth of the time.
	courses := calc.FromCourses(key)
	tried := &x.tried[0]
	if courses {
		tried = &x.tried[1]
	}
	if *tried == nil {
		*tried = x.try(leversOf(&x.design, x.yeast), courses)
	}
	from := x.values[key].band.Mid
	var out []Effect
	for _, m := range *tried {
		e := Effect{Name: m.name, Key: m.keys[0], Down: m.inWords(-1), Up: m.inWords(1), Step: quantity.Of(stepKind(m.unit), m.step)}
		if m.word != "" {
			e.Down = message.Message{}
		}
		e.ByDown, e.HasDown = changed(m.down, key, from)
		e.ByUp, e.HasUp = changed(m.up, key, from)
		out = append(out, e)
	}
	return sorted(out, from), nil
}

func changed(v map[string]value, key string, from float64) (float64, bool) {
	if v == nil {
		return 0, false
	}
	return v[key].band.Mid - from, true
}

// try moves every lever a step up and down: a design with long lists has some
// hundred.
func (x *Explainer) try(levers []moved, courses bool) []movedLever {
	tried := make([]movedLever, len(levers))
	x.engine.Each(len(levers), func(e *calc.Engine, i int) {
		tried[i] = movedLever{moved: levers[i], up: x.at(e, levers[i], 1, courses)}
		if levers[i].word == "" {
			tried[i].down = x.at(e, levers[i], -1, courses)
		}
	})
	return tried
}

// at is the prediction with a lever moved, of the times that come from courses or of
// all the rest; nil where it cannot be.
func (x *Explainer) at(e *calc.Engine, l moved, steps float64, courses bool) map[string]value {
	d, ok := l.move(x.design, steps)
	if !ok {
		return nil
	}
	predict := e.PredictDay
	if courses {
		if x.fermentsAlike(l, &d) {
			return x.values
		}
		predict = e.PredictYeast
	}
	p, err := predict(d, x.yeast)
	if err != nil {
		return nil
	}
	return values(&p)
}

// fermentsAlike tells whether a moved lever leaves every course as it was: hops reach
// the fermenter by the wort alone that they keep, and the bottle comes after it.
func (x *Explainer) fermentsAlike(l moved, d *design.Design) bool {
	if !strings.HasPrefix(l.keys[0], "hop.") && !strings.HasPrefix(l.keys[0], "package.") {
		return false
	}
	plan, err := recipe.Sound(*d)
	if err != nil {
		return false
	}
	was := recipe.Liquor(x.design)
	plan.Warnings, was.Warnings = nil, nil
	return reflect.DeepEqual(plan, was)
}

// sorted puts the greatest effect first and leaves out what does nothing.
func sorted(effects []Effect, at float64) []Effect {
	none := 1e-9 * math.Max(1, math.Abs(at))
	effects = slices.DeleteFunc(effects, func(e Effect) bool { return e.size() <= none })
	slices.SortStableFunc(effects, func(a, b Effect) int {
		switch {
		case a.size() > b.size():
			return -1
		case a.size() < b.size():
			return 1
		}
		return 0
	})
	return effects
}
