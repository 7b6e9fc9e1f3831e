package table

import (
	"skep/app/ui"
	"skep/calc/design"
)

// Link is a setting that is a choice of its own kind.
type Link struct {
	Choice
	key  string // the part of the design that it changes
	show func(d *design.Design) string
}

// Link makes one; tap is what it opens.
func (p *Parts) Link(key, name string, list bool, tap func(l *Link), show func(d *design.Design) string) *Link {
	l := &Link{key: key, show: show}
	l.p = p
	l.List, l.Ink, l.TextSize, l.Height, l.Choice.Name = list, ui.InkFull, 13, ui.ChoiceHeight, name
	if !list {
		l.Ink = ui.InkAccent
	}
	l.OnTap = func() { tap(l) }
	l.Extend(l)
	return l
}

// Sync shows what the design says.
func (l *Link) Sync(d *design.Design) { l.SetText(l.show(d)) }

// Path is the part of the design that it changes.
func (l *Link) Path() string { return l.key }
