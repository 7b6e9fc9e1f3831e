package recipe

import (
	"skep/calc/design"
	"skep/calc/message"
)

// GrainName is what a line of the grist is called: its name, or its place where it has
// none.
func GrainName(d *design.Design, i int) message.Message {
	return named(d.Grain[i].Name, numbered(message.New("grain"), message.New("grain {n}"), i, len(d.Grain)))
}

// HoneyName is what a honey is called.
func HoneyName(d *design.Design, i int) message.Message {
	return named(d.Honey[i].Name, HoneyNumber(i, len(d.Honey)))
}

// HopName is what a hop is called.
func HopName(d *design.Design, i int) message.Message {
	return named(d.Hop[i].Name, numbered(message.New("hop"), message.New("hop {n}"), i, len(d.Hop)))
}

// HoneyNumber is a honey by its place, from 0 as the file's keys count.
func HoneyNumber(i, of int) message.Message {
	return numbered(message.New("honey"), message.New("honey {n}"), i, of)
}

// RestNumber is a rest of the mash by its place, from 0.
func RestNumber(i, of int) message.Message {
	return numbered(message.New("rest"), message.New("rest {n}"), i, of)
}

// numbered names one of several things by its place in the design, from 0.
func numbered(one, several message.Message, i, of int) message.Message {
	if of == 1 {
		return one
	}
	several.With = []any{i}
	return several
}

func named(name string, place message.Message) message.Message {
	if name != "" {
		return message.Plain(name)
	}
	return place
}
