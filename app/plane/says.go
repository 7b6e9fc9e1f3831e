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

// describe tells what a thing is, with its numbers.
func (p *Plane) describe(t target) string {
	switch t.kind {
	case onPin:
		return words.T("{wish} – drag the pin, or use the arrow keys; Delete takes it away", p.wishSays())
	case onArrow:
		for i := range p.now.arrows {
			if p.now.arrows[i].Lever == t.lever {
				return p.arrowSays(&p.now.arrows[i])
			}
		}
	case onWay:
		return words.T("way {number} lands at dryness {dryness}, body {body}", t.way+1, index(p.now.Ways[t.way].Dryness), index(p.now.Ways[t.way].Body))
	case onGhost:
		if p.now.than != nil {
			return words.T("{name}: dryness {dryness}, body {body}; beside it this design is: {differences}",
				p.now.GhostName, index(p.now.Ghost.Dryness), index(p.now.Ghost.Body), p.now.than())
		}
		return words.T("{name}: dryness {dryness}, body {body}", p.now.GhostName, index(p.now.Ghost.Dryness), index(p.now.Ghost.Body))
	case onHere:
		return p.hereSays()
	case onPlane:
		return words.T("dryness {dryness}, body {body} – click to want this", index(t.at.Dryness), index(t.at.Body))
	}
	return ""
}

func (p *Plane) hereSays() string {
	if b := p.cloudExtent(); !b.empty() {
		return words.T("this design: dryness {dryness}, body {body}; most of the cloud lies within dryness {driest} to {sweetest}, body {lightest} to {fullest}",
			index(p.now.Here.Dryness), index(p.now.Here.Body), index(b.dLow), index(b.dHigh), index(b.bLow), index(b.bHigh))
	}
	return words.T("this design: dryness {dryness}, body {body}", index(p.now.Here.Dryness), index(p.now.Here.Body))
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
		return words.T("wanted: dryness {dryness}, body {body}", index(*d), index(*b))
	case d != nil:
		return words.T("wanted: dryness {dryness}, any body", index(*d))
	case b != nil:
		return words.T("wanted: body {body}, any dryness", index(*b))
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
	dryness, body := signed(a.To.Dryness-p.now.Here.Dryness), signed(a.To.Body-p.now.Here.Body)
	if a.Does != nil {
		return words.T("{word}, {step}: {differences} – pull the arrow to move the lever", a.Word, a.Step, a.Does())
	}
	if a.Step == "" {
		return words.T("{word}: dryness {dryness}, body {body} a step – pull the arrow to move the lever", a.Word, dryness, body)
	}
	return words.T("{word}, {step}: dryness {dryness}, body {body} – pull the arrow to move the lever", a.Word, a.Step, dryness, body)
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
		p.hint(words.T("{arrow}; left and right pull it, Space for the next", p.arrowSays(&p.now.arrows[i])))
		return
	}
	p.hint(words.T("{wish}; arrow keys move the pin, Space chooses an arrow", p.wishSays()))
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
		list = append(list, p.describe(target{kind: onGhost}))
	}
	for i := range p.now.Ways {
		if p.now.Ways[i].Dryness >= 0 {
			list = append(list, p.describe(target{kind: onWay, way: i}))
		}
	}
	if p.focused {
		if i := p.chosenArrow(); i >= 0 {
			list = append(list, words.T("arrow chosen: {word}", p.now.arrows[i].Word))
		} else {
			list = append(list, words.T("pin chosen"))
		}
	}
	return strings.Join(list, ". ")
}

// AccessibilityRole is text, as the label carries it all: Fyne 2.8 knows no
// role for what can be moved.
func (p *Plane) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }
