// Package plane is the third column of the Taste place: [Plane], on which a
// beer lands between dry and sweet, light and full; [WishRow], where the
// landing point is typed; and [WayList] of [WayCard], the ways to get there.
// They know no model: everything comes as plain structs, and every change a
// person makes is told to a callback. All of it is for Fyne's goroutine.
//
// What is drawn is plotting.Landing's: this package keeps the pin, the window
// onto the indices and the gestures, and must not draw. An arrow is as long as
// can be taken hold of (a step of honey would be four pixels); the numbers are
// in the hint.
//
// # Closer look
//
// The plane shows the part of the axes that the levers can reach, with
// the design, its cloud, the ghost and the pin: on the whole plane, 250 pixels
// wide, a step of honey is two pixels and the cloud hides every arrow. The edges of that
// part stand on fives and are written beside the axis words; they keep still
// while anything moves, except outwards when something would leave, and settle
// when the gesture is over. Reach depends on locks and strain, not on where the
// levers stand, so it is rare. "whole plane" (Z) shows 0 to 100.
//
// # Gestures
//
// Drag the pin; a press on an empty place calls it there. Pull an arrow along
// its direction: as many steps as the pointer has gone lengths of a true step.
// Escape puts back what is being dragged. With the keyboard (one Tab stop):
//
//	arrow keys          pin by 1, with Shift by 5
//	Space               chooses: pin, first arrow, second arrow ...
//	left, right         pull the chosen arrow by a step, with Shift by 5
//	Delete, Backspace   take the wish away
//	Z                   whole plane, closer look
//
// # Frames
//
// The picture is drawn when the canvas asks for it after a change, at most once
// a frame however often the pointer moves. See BenchmarkPlaneFrame.
//
// # Wiring
//
//	p := plane.New()
//	p.OnHint = b.status.hint
//	p.OnPin = func(dryness, body *float64) {
//		b.moving(words.T("landing point"), "", "pin", func(d *design.Design) {
//			d.Taste.Dryness, d.Taste.Body = dryness, body
//		})
//	}
//	p.OnPinEnd = b.ended
//	p.OnArrow = func(lever string, steps float64) {
//		// from is the setting when the pull began (remember it at the first
//		// call, forget it in OnArrowEnd): steps count from there.
//		b.moving(name[lever], lever, func(d *design.Design) { set(d, lever, from+steps*natural[lever]) })
//	}
//	p.OnArrowEnd = func(string) { b.ended() }
//
//	wishes := plane.NewWishRow(
//		func(key string, v float64) string { return b.say.Number(kindOf(key), v) },
//		func(key, text string) (float64, string, error) {
//			r, err := b.read.Parse(kindOf(key), text, limitsOf(key))
//			return r.Value, r.Echo, err
//		})
//	wishes.OnWish = func(key string, v *float64) { ... one step of undo ... }
//
//	ways := plane.NewWayList()
//	ways.OnUse = func(i int) { ... apply answer i ... }
//	column := container.New(&plane.Column{}, title, p, wishes, ways)
//
// and for every computed frame, on Fyne's goroutine:
//
//	p.Set(plane.Data{Here: ..., Half: ..., Most: ..., Reach: ..., Arrows: ..., Ghost: ...})
//	p.SetPin(plane.Wish{Dryness: d.Taste.Dryness, Body: d.Taste.Body})
//	p.SetWays(points)
//	ways.Set(cards)
//
// While a lever outside the plane is dragged: p.SetMoving(true), and false at
// its end.
package plane
