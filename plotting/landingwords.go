package plotting

import "math"

// The ways in which a word may hang from its arrow's tip, degrees off the
// arrow's own direction, the best first.
var slots = [...]float64{0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150}

// hang is where a word stands in a slot; the second half of the slots are a
// little further off.
func (m *ArrowPlace) hang(slot int) Box {
	gap := float32(wordGap)
	if slot >= len(slots) {
		gap += farther
	}
	sin64, cos64 := math.Sincos(slots[slot%len(slots)] * math.Pi / 180)
	sin, cos := float32(sin64), float32(cos64)
	x, y := m.DX*cos-m.DY*sin, m.DX*sin+m.DY*cos
	w, h := m.Word.X1-m.Word.X0, m.Word.Y1-m.Word.Y0
	// The word's middle goes out until its box is clear of the tip.
	left, top := m.Tip.X+x*(w/2+gap)-w/2, m.Tip.Y+y*(h/2+gap)-h/2
	return Box{left, top, left + w, top + h}
}

// hangWords gives each word the slot with the least in its way. A word keeps
// its slot unless another is clearly better: words must not hop while a lever
// moves.
func (y *LandingLayout) hangWords(l *Landing) {
	y.obstacles(l)
	for round := range 2 {
		for i := range y.Arrows {
			m := &y.Arrows[i]
			best, least := 0, float32(math.MaxFloat32)
			for slot := range 2 * len(slots) {
				cost := y.inTheWay(i, y.keep(m.hang(slot)), round == 0)
				cost += float32(slot%len(slots))*12 + float32(slot/len(slots))*30
				if slot == m.slot {
					cost -= 40
				}
				if cost < least {
					best, least = slot, cost
				}
			}
			m.slot = best
			m.Word = y.keep(m.hang(best))
		}
	}
	y.pushApart()
}

// pushApart moves words that still touch as far as it takes, the way that is
// shorter, where that leaves less in their way.
func (y *LandingLayout) pushApart() {
	const air = 3
	for i := range y.Arrows {
		for j := range y.Arrows {
			a, b := y.Arrows[i].Word, y.Arrows[j].Word
			if i == j || a.Overlap(b) == 0 || a.X0+a.Y0 < b.X0+b.Y0 {
				continue // it is b that moves, when its turn comes
			}
			wide, high := b.X1-a.X0+air, b.Y1-a.Y0
			if wide < high {
				high = 0
			} else {
				wide = 0
			}
			moved := y.keep(Box{a.X0 + wide, a.Y0 + high, a.X1 + wide, a.Y1 + high})
			if y.inTheWay(i, moved, false) < y.inTheWay(i, a, false) {
				y.Arrows[i].Word = moved
			}
		}
	}
}

// keep is the nearest place at which a word stays on the plane.
func (y *LandingLayout) keep(b Box) Box {
	w, h := b.X1-b.X0, b.Y1-b.Y0
	left := max(3, min(b.X0, y.Wide-w-3))
	top := max(1, min(b.Y0, y.High-h-1))
	return Box{left, top, left + w, top + h}
}

// obstacles are the boxes that words keep off.
func (y *LandingLayout) obstacles(l *Landing) {
	o := append(y.taken[:0], around(y.At(l.Here), LandingPointRadius+2))
	if l.Pin.Shown && !l.Pin.Held {
		o = append(o, around(y.PinAt(&l.Pin), LandingPinRadius+2))
	}
	if l.Ghosted {
		o = append(o, around(y.At(l.Ghost), LandingGhostRadius+2), y.ghostWord(l))
	}
	word := func(s string) float32 { return y.width(s) + wordInset + 4 }
	y.taken = append(o, Box{0, 0, word(l.Full), wordHigh + 6}, Box{0, y.High - 20, word(l.Light), y.High + 1})
}

// ghostWord is where the name of the ghost stands.
func (y *LandingLayout) ghostWord(l *Landing) Box {
	at, wide := y.At(l.Ghost), y.width(l.GhostName)
	left := at.X + LandingGhostRadius + 5
	if left+wide > y.Wide-3 {
		left = max(3, at.X-LandingGhostRadius-5-wide)
	}
	return Box{left, at.Y - wordHigh/2, left + wide, at.Y + wordHigh/2}
}

// inTheWay is the area that a word would hide or lie on, weighted.
func (y *LandingLayout) inTheWay(own int, b Box, first bool) float32 {
	b.X0, b.X1 = b.X0-2, b.X1+2
	cost := float32(0)
	for _, o := range y.taken {
		cost += 9 * b.Overlap(o)
	}
	for i := range y.Arrows {
		o := &y.Arrows[i]
		if i != own && (i < own || !first) {
			cost += 4 * b.Overlap(o.Word)
		}
		// Along the shaft, head included; of its own arrow all but the tip.
		for k := range 9 {
			t := float32(k) / 8
			if i == own && k == 8 {
				break
			}
			on := Spot{o.Start.X + t*(o.Tip.X-o.Start.X), o.Start.Y + t*(o.Tip.Y-o.Start.Y)}
			cost += b.Overlap(around(on, 4)) * 5
		}
		if i != own { // nor be read as another's
			cost += b.Overlap(around(o.Tip, 12))
		}
	}
	return cost
}

const spokes = 12

// badges puts each answer's number where it lands, or on the nearest free side
// of that place.
func (y *LandingLayout) badges(l *Landing) {
	taken := append(y.taken[:0], around(y.At(l.Here), LandingPointRadius+2)) // first: see vacant
	if l.Pin.Shown {
		taken = append(taken, around(y.PinAt(&l.Pin), LandingPinRadius+2))
	}
	for i := range y.Arrows {
		taken = append(taken, y.Arrows[i].Word)
	}
	for len(y.spokes) < len(l.Ways) {
		y.spokes = append(y.spokes, 0)
	}
	y.Badges = y.Badges[:0]
	for i, w := range l.Ways {
		b := Badge{Shown: y.roomy() && w.Dryness >= 0, Place: y.At(w)}
		if b.Shown {
			b.At = y.vacant(b.Place, taken, &y.spokes[i])
			taken = append(taken, around(b.At, LandingBadgeRadius+1))
		}
		y.Badges = append(y.Badges, b)
	}
	y.taken = taken
}

// vacant is a place for a badge: its own, the side it had, or the next free one.
func (y *LandingLayout) vacant(place Spot, taken []Box, spoke *int) Spot {
	clear := func(at Spot) bool {
		b := around(at, LandingBadgeRadius)
		for _, o := range taken {
			if b.Overlap(o) > 0 {
				return false
			}
		}
		// A thread across the design would look like an arrow.
		if taken[0].Holds(Spot{(at.X + place.X) / 2, (at.Y + place.Y) / 2}) {
			return false
		}
		return b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= y.Wide && b.Y1 <= y.High
	}
	if clear(place) {
		return place
	}
	for _, reach := range []float32{25, 38} {
		for k := range spokes {
			// To the sides in turn, from where it was: 0, 1, -1, 2, -2 ...
			turn := (k + 1) / 2
			if k%2 == 0 {
				turn = -turn
			}
			s := (*spoke + turn + spokes) % spokes
			sin, cos := math.Sincos(2*math.Pi*float64(s)/spokes - math.Pi/4)
			at := Spot{place.X + reach*float32(cos), place.Y + reach*float32(sin)}
			if clear(at) {
				*spoke = s
				return at
			}
		}
	}
	return place
}
