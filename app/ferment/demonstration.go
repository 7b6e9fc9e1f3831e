package ferment

import (
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// demonstration is the line that offers the club's fermentation where there is no
// reading yet, and puts it away again. Which design is open is the window's affair
// ([Place.Offer]).
type demonstration struct {
	row         *ui.Flow
	mark        *ui.Caption
	look, leave *ui.Choice // two, so that none turns into its opposite under the pointer
	showing     func() bool
	show, away  func()
}

func newDemonstration(p *Place) *demonstration {
	d := &demonstration{showing: func() bool { return false }, show: func() {}, away: func() {}}
	d.mark = ui.NewCaption(words.T("Gate Field's beer, to look at"), look.CaptionSize+1, true, ui.InkAccent)
	link := func(text, hint string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.TextSize, c.Hint, c.OnHint = ui.InkAccent, look.CaptionSize+1, hint, p.host.Hint
		return c
	}
	d.look = link(words.T("Look at a fermentation halfway through"), words.T("Opens a beer of the club at Gate Field; one click puts it away"), func() { d.show() })
	d.leave = link(words.T("put it away"), words.T("Brings back the design that was there before"), func() { d.away() })
	d.row = ui.NewFlow(d.look, d.mark, d.leave)
	d.row.Off = true
	return d
}

// Offer lets the place show the club's fermentation in the window: showing says that
// it is there, show opens it, away brings back what was there before.
func (p *Place) Offer(showing func() bool, show, away func()) {
	d := p.moment.demo
	d.showing, d.show, d.away = showing, show, away
}

// sync offers it where nothing is written down yet.
func (d *demonstration) sync(of *design.Design) {
	shown := d.showing()
	d.row.Off = !shown && len(of.Reading) > 0
	d.mark.Hidden, d.leave.Hidden, d.look.Hidden = !shown, !shown, shown
}
