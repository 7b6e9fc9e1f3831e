// Package lever is the one table of the levers of taste: what each moves in a design,
// how far it goes and by which steps, what it and its directions are called. The Taste
// place, the landing plane and its arrows, the ways to a taste, the explanations and
// the commands read it; none of them knows a lever by itself.
//
// A design comes in; a lever's place, and the design with the lever elsewhere, go out.
// It must not know a widget, nor what the beer becomes.
//
// A lever's place is one number in the unit that its row says. Two of them
// hold more than one number of the design: the yeast's attenuation is a range,
// of which the place is the middle (the width stays), and the honey's moment is
// a place along the brew's own time line (see [MomentPlace]).
//
// With several rests or honeys the levers move the chosen ones ([At]).
package lever
