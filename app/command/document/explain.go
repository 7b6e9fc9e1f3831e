package document

import (
	"skep/calc"
	"skep/calc/explain"
	"skep/calc/message"
)

// Explained is an opened number.
type Explained struct {
	Key     string            `json:"key"`
	Name    message.Message   `json:"name"`
	Unit    string            `json:"unit"`
	Value   *calc.Band        `json:"value,omitempty" about:"of a number; low, mid and high are one where it has no band of its own"`
	Text    message.Message   `json:"text,omitzero" about:"of a word or of lines, in place of value"`
	Parts   []Part            `json:"parts,omitempty" about:"of a key that stands for several numbers, in place of value"`
	Formula []message.Message `json:"formula"`
	Inputs  []Input           `json:"inputs" about:"what went in, of the middle beer"`
	Sources []message.Message `json:"sources"`
	Notes   []message.Message `json:"notes" about:"how its band is made"`
	Levers  []Effect          `json:"levers" about:"what the brewer can move, the greatest effect first"`
	Doubts  []Effect          `json:"doubts" about:"what is not known, the greatest effect first"`
}

// Part is one of several numbers under a key.
type Part struct {
	Key   string          `json:"key"`
	Name  message.Message `json:"name"`
	Unit  string          `json:"unit"`
	Value calc.Band       `json:"value"`
}

// Input is what went in.
type Input struct {
	Name  message.Message `json:"name"`
	Key   string          `json:"key" about:"of the design or the prediction; empty where it is worked out on the way"`
	Value float64         `json:"value"`
	Unit  string          `json:"unit"`
}

// Effect is how the number answers.
type Effect struct {
	Name   message.Message `json:"name"`
	Key    string          `json:"key" about:"of the design; empty for a doubt"`
	Down   message.Message `json:"down" about:"what was done: the lever's step down, or the doubt's 10th percentile"`
	Up     message.Message `json:"up"`
	ByDown *float64        `json:"by_down" about:"how far the number's middle moves; null where the design refuses the step"`
	ByUp   *float64        `json:"by_up"`
}

// Explain makes the document of an opened number.
func Explain(e *explain.Explanation) Explained {
	out := Explained{Key: e.Key, Name: e.Name, Unit: e.Unit, Formula: list(e.Formula), Inputs: []Input{}, Sources: list(e.Sources), Notes: list(e.Notes),
		Levers: effects(e.Levers), Doubts: effects(e.Doubts)}
	switch {
	case len(e.Parts) > 0:
		for _, p := range e.Parts {
			out.Parts = append(out.Parts, Part{p.Key, p.Name, p.Unit, p.Band})
		}
	case e.Unit == "" && !e.Text.Empty():
		out.Text = e.Text
	default:
		band := e.Band
		out.Value = &band
	}
	for _, in := range e.Inputs {
		out.Inputs = append(out.Inputs, Input{in.Name, in.Key, in.Value, in.Unit})
	}
	return out
}

func effects(all []explain.Effect) []Effect {
	out := []Effect{}
	for _, e := range all {
		one := Effect{Name: e.Name, Key: e.Key, Down: e.Down, Up: e.Up}
		if e.HasDown {
			one.ByDown = &e.ByDown
		}
		if e.HasUp {
			one.ByUp = &e.ByUp
		}
		out = append(out, one)
	}
	return out
}
