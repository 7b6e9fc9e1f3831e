package tune

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// Way is one way to a taste.
type Way struct {
	// Settings are exactly what --set takes: only what changes. Values are
	// float64, string or bool.
	Settings map[string]any `json:"settings" about:"exactly what --set takes: only what changes"`
	// Design is the present one with the settings in it.
	Design design.Design `json:"-"`
	// Prediction is the engine's of that design.
	Prediction calc.Prediction `json:"prediction"`
	// Difference is what it has more than the design as it is, from the same draws.
	Difference calc.Difference `json:"difference"`
	// Miss is the distance of each mid value from its wish, in index points or
	// % by volume, never negative, by the wish's key.
	Miss map[string]float64 `json:"miss" about:"of each wish, index points or % by volume"`
	// Reached is whether every miss is within the tolerance.
	Reached bool `json:"-"`
	// Parts are the levers that move, in the order of the brew.
	Parts []Part `json:"-"`
	// Free are the levers that might have moved.
	Free []lever.Lever `json:"-"`
	// HoneyLeftKg is what is at hand and not used; nil where honey may be bought.
	HoneyLeftKg *float64 `json:"honey_left_kg,omitempty" about:"at hand and not used; only where taste.honey_at_hand_kg is given"`
	// Cautions are what a brewer should know before taking it.
	Cautions []message.Message `json:"cautions" about:"what to know before taking it"`
	// Points is the whole miss, index points (0.05 % of strength is one).
	Points float64 `json:"-"`
	// Cloud is the size of the doubt: the geometric mean of the bands of
	// dryness and body, index points.
	Cloud float64 `json:"-"`
	// Surer is how much smaller that is than of the design as it is.
	Surer float64 `json:"-"`
	// Change is how far the levers move, natural steps of all added up.
	Change float64 `json:"-"`
}

// Part is one lever of a way.
type Part struct {
	Lever    lever.Lever
	From, To float64 // °C, minutes, middle attenuation %, kg of honey, kg of grain
	// FromName and ToName are the strains or the honey's moments.
	FromName, ToName string
}

// Result is the answer to a wish.
type Result struct {
	Reached bool `json:"reached" about:"every miss is within 2 index points, 0.1 % of strength"`
	// Ways are distinct ones, each with other levers moving or moving the
	// other way, best first; at least one.
	Ways []Way `json:"ways" about:"best first; at least one"`
	// Binding are levers at their end that would have to go on, and Conflict
	// qualities that pull against each other where no lever is at its end; both
	// only when the taste is not reached.
	Binding  []lever.Lever `json:"binding" about:"levers at their limit, where it is not reached"`
	Conflict []string      `json:"conflict" about:"qualities that pull against each other, where no lever is at its limit"`
	// Notes say what kept the search short: no free lever, one strain only.
	Notes []message.Message `json:"notes" about:"what kept the search short"`
	// Evaluations is how many settings were tried.
	Evaluations int `json:"evaluations" about:"how many settings were tried"`
}

// settable rounds to a step, without the dust of binary arithmetic.
func settable(x, step float64) float64 {
	return math.Round(math.Round(x/step)*step*1e6) / 1e6
}

// size of a cloud, index points.
func size(b [calc.Outcomes]calc.Band) float64 {
	d, y := b[calc.Dryness], b[calc.Body]
	return math.Sqrt(math.Max(0, (d.High-d.Low)*(y.High-y.Low)))
}
