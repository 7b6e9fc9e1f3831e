// Package explain opens a predicted number: the formula it comes from, what went into
// it with units, the source, and what moves it most.
//
// A design and a number's key come in, an [Explanation] goes out. It must not know the
// window, nor a formula beside its text.
//
// Formula and source are text beside the number's key. Everything else is
// computed for the design at hand: the inputs are those of its middle beer
// (working.go), the effect of a lever is the difference of whole predictions
// with the lever moved a little both ways, the effect of a doubt that of the
// middle beer with this one input at its 10th and its 90th percentile and all
// others at their middle.
package explain

import (
	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Explanation is one opened number.
type Explanation struct {
	Key      string // as in predict --json, with dots: wort.maltose
	Name     message.Message
	Unit     string // in English: one of [Texts]
	Decimals int    // what is worth showing of Band

	Band calc.Band       // for a number without a band all three are the same
	Sure bool            // it has no band of its own
	Text message.Message // instead of a number: a word, or lines

	Parts []Part // of a key that stands for several numbers: nothing else is set but these

	Formula []message.Message
	Inputs  []Input
	Sources []message.Message
	Notes   []message.Message // how its band is made, where not from the draws

	Levers []Effect // what the brewer can move, the greatest effect first
	Doubts []Effect // what is not known, the greatest effect first
}

// Part is one of several numbers under one key, to be opened by its own.
type Part struct {
	Key, Unit string
	Name      message.Message
	Decimals  int
	Band      calc.Band
	Sure      bool
}

// Input is one thing that went into a number.
type Input struct {
	Name  message.Message
	Key   string // where the design or the prediction has it; empty: worked out on the way
	Value float64
	Unit  string
}

// Effect is how a number answers to one lever or one doubt.
type Effect struct {
	Name message.Message
	Key  string // of the design; empty for a doubt
	// What was done: for a lever the step up and, reversed, down; for a doubt
	// its 10th and 90th percentile.
	Down, Up message.Message
	// Step is the lever's step up; None where words or percentiles say it all.
	Step quantity.Quantity
	// By how much the middle of the number moves; HasDown and HasUp are false
	// where the design refuses the step.
	ByDown, ByUp   float64
	HasDown, HasUp bool
}

// size is how much a number moves at most.
func (e Effect) size() float64 {
	return max(abs(e.ByDown), abs(e.ByUp))
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
