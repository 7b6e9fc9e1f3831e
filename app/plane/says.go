package plane

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"skep/app/words"
)

func index(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// place is a place in words.
func place(at Point) map[string]any {
	return map[string]any{"Dryness": index(at.Dryness), "Body": index(at.Body)}
}

func with(m map[string]any, key string, value any) map[string]any {
	m[key] = value
	return m
}

// says tells what a thing is, with its numbers.
func (p *Plane) says(t target) string {
	switch t.kind {
	case onPin:
		return words.T("{{.Wish}} – drag the pin, or use the arrow keys; Delete takes it away", map[string]any{"Wish": p.wishSays()})
	case onArrow:
		for i := range p.now.arrows {
			if p.now.arrows[i].Lever == t.lever {
				return p.arrowSays(&p.now.arrows[i])
			}
		}
	case onWay:
		return words.T("way {{.Number}} lands at dryness {{.Dryness}}, body {{.Body}}", with(place(p.now.Ways[t.way]), "Number", t.way+1))
	case onGhost:
		return words.T("{{.Name}}: dryness {{.Dryness}}, body {{.Body}}", with(place(p.now.Ghost), "Name", p.now.GhostName))
	case onHere:
		return p.hereSays()
	case onPlane:
		return words.T("dryness {{.Dryness}}, body {{.Body}} – click to want this", place(t.at))
	}
	return ""
}

func (p *Plane) hereSays() string {
	if b := p.cloudExtent(); !b.empty() {
		return words.T("this design: dryness {{.Dryness}}, body {{.Body}}; most of the cloud lies within dryness {{.DLow}} to {{.DHigh}}, body {{.BLow}} to {{.BHigh}}",
			with(with(with(with(place(p.now.Here), "DLow", index(b.dLow)), "DHigh", index(b.dHigh)), "BLow", index(b.bLow)), "BHigh", index(b.bHigh)))
	}
	return words.T("this design: dryness {{.Dryness}}, body {{.Body}}", place(p.now.Here))
}

func (p *Plane) cloudExtent() extent {
	b := nowhere()
	b.addAll(&p.now.Most)
	return b
}

func (p *Plane) wishSays() string {
	d, b := p.wish.Dryness, p.wish.Body
	switch {
	case d != nil && b != nil:
		return words.T("wanted: dryness {{.Dryness}}, body {{.Body}}", place(Point{Dryness: *d, Body: *b}))
	case d != nil:
		return words.T("wanted: dryness {{.Dryness}}, any body", place(Point{Dryness: *d}))
	case b != nil:
		return words.T("wanted: body {{.Body}}, any dryness", place(Point{Body: *b}))
	}
	return words.T("nothing wanted yet")
}

// arrowSays gives the effect of one step with its sign, to a tenth: steps are
// small.
func (p *Plane) arrowSays(a *Arrow) string {
	signed := func(v float64) string {
		v = math.Round(v*10) / 10
		if v == 0 {
			return "0"
		}
		return strings.Replace(fmt.Sprintf("%+.1f", v), "-", "−", 1)
	}
	data := map[string]any{"Word": a.Word, "Step": a.Step,
		"Dryness": signed(a.To.Dryness - p.now.Here.Dryness), "Body": signed(a.To.Body - p.now.Here.Body)}
	if a.Step == "" {
		return words.T("{{.Word}}: dryness {{.Dryness}}, body {{.Body}} a step – pull the arrow to move the lever", data)
	}
	return words.T("{{.Word}}, {{.Step}}: dryness {{.Dryness}}, body {{.Body}} – pull the arrow to move the lever", data)
}

func (p *Plane) zoomSays() string {
	if p.whole {
		return words.T("show closely what the levers can reach (Z)")
	}
	return words.T("show the whole plane, 0 to 100 (Z)")
}

// sayChosen tells what the keys move.
func (p *Plane) sayChosen() {
	if i := p.chosenArrow(); i >= 0 {
		p.hint(words.T("{{.Arrow}}; left and right pull it, Space for the next", map[string]any{"Arrow": p.arrowSays(&p.now.arrows[i])}))
		return
	}
	p.hint(words.T("{{.Wish}}; arrow keys move the pin, Space chooses an arrow", map[string]any{"Wish": p.wishSays()}))
}

// sayGrip tells where the pin is while it moves.
func (p *Plane) sayGrip() { p.hint(p.wishSays()) }

func (p *Plane) hint(text string) {
	if text == p.hinted {
		return
	}
	p.hinted = text
	if p.OnHint != nil {
		p.OnHint(text)
	}
}

// AccessibilityLabel says where design, cloud, pin, ghost and answers are, and
// what the keys move.
func (p *Plane) AccessibilityLabel() string {
	if !p.now.Known {
		return strings.TrimSpace(words.T("landing plane") + ". " + p.now.note)
	}
	list := []string{words.T("landing plane"), p.hereSays(), p.wishSays()}
	if p.now.Ghosted {
		list = append(list, p.says(target{kind: onGhost}))
	}
	for i := range p.now.Ways {
		if p.now.Ways[i].Dryness >= 0 {
			list = append(list, p.says(target{kind: onWay, way: i}))
		}
	}
	if p.focused {
		if i := p.chosenArrow(); i >= 0 {
			list = append(list, words.T("arrow chosen: {{.Word}}", map[string]any{"Word": p.now.arrows[i].Word}))
		} else {
			list = append(list, words.T("pin chosen"))
		}
	}
	return strings.Join(list, ". ")
}

// AccessibilityRole is text, as the label carries it all: Fyne 2.8 knows no
// role for what can be moved.
func (p *Plane) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }
