package crush

import "skep/calc/message"

// The plain questions for those without sieves, each by what a handful of
// grist shows on a sheet of paper.
type (
	// Kernels is how many are whole.
	Kernels uint8
	// Husks is what the husks look like.
	Husks uint8
	// Flour is how much white powder there is.
	Flour uint8
)

// Answers.
const (
	KernelsNone Kernels = iota // hardly one in a handful
	KernelsFew                 // one in twenty or so
	KernelsMany                // one in ten, or more
)

// Answers.
const (
	HusksWhole Husks = iota // split along, mostly in one piece
	HusksTorn               // in two or three pieces
	HusksShreds
)

// Answers.
const (
	FlourSome   Flour = iota // a dusting: about a tenth to a sixth
	FlourLittle              // hardly any
	FlourMuch                // a quarter or more; the hand is white
)

// Look is a grist as the eye sees it. The zero value is a sound one.
type Look struct {
	Kernels Kernels
	Husks   Husks
	Flour   Flour
}

// Word is what a look is called (common practice, no source). Flour and torn
// husk come first: they stop the pump, whole kernels only cost yield.
func (l Look) Word() string {
	switch {
	case l.Flour == FlourMuch && l.Husks == HusksShreds:
		return TooFine
	case l.Kernels == KernelsMany:
		return TooCoarse
	case l.Flour == FlourMuch || l.Husks == HusksShreds:
		return Fine
	case l.Kernels == KernelsFew || l.Flour == FlourLittle:
		return Coarse
	}
	return Sound
}

// Advice is what a word means for the day.
type Advice struct {
	Word  string
	Shows message.Message // in the hand
	Means message.Message // in the mash
	Do    message.Message
}

// AdviceFor says what a word means; the sound crush's for an unknown word. All
// of it is common practice, no source.
func AdviceFor(word string) Advice {
	switch word {
	case TooCoarse:
		return Advice{word, message.New("one kernel in ten or more is whole"), message.New("5 to 10 points of yield are lost and the iodine stays blue"), message.New("mill it again, the rollers a fifth of a millimetre closer")}
	case Coarse:
		return Advice{word, message.New("a whole kernel here and there, little flour"), message.New("2 to 3 points of yield are lost; the bed drains fast"), message.New("mill it again a little closer, or mash a quarter of an hour longer")}
	case Fine:
		return Advice{word, message.New("much flour, or husks in shreds"), message.New("the bed drains slowly; fine stuff passes the basket and may scorch on the heater"), message.New("pump slowly, leave the bed ten minutes before pumping; next time open the rollers a tenth of a millimetre")}
	case TooFine:
		return Advice{word, message.New("a quarter or more is flour, husks in shreds"), message.New("the bed sticks, grain goes through the basket, and the heater scorches what settles on it"), message.New("do not brew with it alone: mix in rice or oat hulls (a tenth of the grain), pump slowly, keep the heater low")}
	}
	return Advice{Sound, message.New("husks split but whole, no whole kernels, a dusting of flour"), message.New("the bed drains and the yield is the kit's own"), message.Message{}}
}

// Inspect is how to look at grain that somebody else has milled, before paying
// for it (common practice, no source).
func Inspect() []message.Message {
	return []message.Message{
		message.New("take a handful from the middle of the sack, not the top: flour sinks"),
		message.New("spread it on dark paper: count whole kernels in a hundred (more than five is coarse)"),
		message.New("rub the husks: they should be split but whole, and empty"),
		message.New("look at the bottom of the bag: a finger's depth of flour is too much for a pumped bed"),
		message.New("smell and bite it: biscuit and snap, not damp cardboard; milled malt keeps a few weeks, dry and closed"),
	}
}
