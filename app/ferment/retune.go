package ferment

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"skep/app/look"
	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/honeyways"
	table "skep/calc/lever"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// retune is the re-tune: what is spent, with its measured value, and what
// can still be moved, where it stands to be typed over, with what the honey
// that is left would do.
type retune struct {
	p     *Place
	spent *ui.Texts

	honey                        int // the honey that is left; -1: none
	mass, hours, warmth, volumes *ui.Field
	massRow, hoursRow            *ui.Flow
	warmRow, volumesRow          *ui.Flow
	warm                         *ui.Texts
	notes                        [4]*ui.Texts // what is wrong with each field, below it
	land                         *landingPlane
	ways                         *ui.Grid
	near                         *ui.Texts
	use                          *ui.Choice
	nearest                      honeyways.Way
}

func newRetune(p *Place) *retune {
	l := &retune{p: p, honey: -1}
	l.spent = &ui.Texts{Gap: 2, Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkQuiet) }}
	path := func(format string) func() string {
		return func() string { return fmt.Sprintf(format, max(l.honey, 0)) }
	}
	for i := range l.notes {
		l.notes[i] = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkWarning) }}
	}
	fields := 0
	field := func(path func() string, name string) *ui.Field {
		f := ui.NewField(p.host, path, func() string { return name })
		note := l.notes[fields]
		fields++
		f.Note = func(text string, _ bool) {
			note.SetOne(text)
			p.relayout()
		}
		return f
	}
	fixed := func(s string) func() string { return func() string { return s } }
	l.mass = field(path("honey.%d.mass_kg"), words.T("honey still to go in"))
	l.hours = field(path("honey.%d.hours_after_height"), words.T("honey, hours after the height"))
	l.warmth = field(fixed("yeast.0.temperature_c"), words.T("fermentation temperature"))
	l.volumes = field(fixed("package.volumes_co2"), words.T("carbonation"))
	row := func(f *ui.Field, before, after string) *ui.Flow {
		quiet := func(text string) *ui.Caption { return ui.NewCaption(text, look.CaptionSize+1, false, ui.InkQuiet) }
		r := ui.NewFlow(quiet(before), f).Wide(f, 80)
		if after != "" {
			r.Items = append(r.Items, quiet(after))
		}
		r.Lead = 88
		return r
	}
	l.use = ui.NewChoice("", false, l.take)
	l.use.Ink, l.use.TextSize, l.use.Hidden = ui.InkAccent, 13, true
	l.massRow = row(l.mass, words.T("honey to come"), "")
	l.massRow.Items = append(l.massRow.Items, l.use)
	l.hoursRow = row(l.hours, words.T("it goes in"), words.T("after the height"))
	l.warmRow = row(l.warmth, words.T("fermenting at"), "")
	l.volumesRow = row(l.volumes, words.T("carbonation"), "")
	l.ways = &ui.Grid{Columns: 5}
	l.near = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", 13, ui.InkFull) }}
	l.warm = &ui.Texts{Gap: 2, Make: func() *ui.Paragraph { return ui.NewParagraph("", look.CaptionSize+1, ui.InkQuiet) }}
	l.land = newLandingPlane(p)
	return l
}

func (l *retune) parts() []ui.Part {
	return []ui.Part{l.near, l.massRow, l.notes[0], l.land, l.hoursRow, l.notes[1], l.warmRow, l.notes[2], l.volumesRow, l.notes[3], l.warm, l.spent, l.ways}
}

func (l *retune) sync(d *design.Design) {
	if l.honey >= len(d.Honey) {
		l.honey = -1
	}
	l.massRow.Off = l.honey < 0
	l.hoursRow.Off = l.honey < 0 || d.Honey[l.honey].Moment != design.MomentFermenting
	if l.honey >= 0 {
		l.mass.Sync(d)
		l.hours.Sync(d)
	}
	l.warmth.Sync(d)
	for f, row := range map[*ui.Field]*ui.Flow{l.mass: l.massRow, l.hours: l.hoursRow, l.warmth: l.warmRow} {
		if row.Off {
			f.Forget() // it is spent: what was typed has nowhere to go
		}
	}
	l.land.sync(d)
	l.volumes.Sync(d)
}

func (l *retune) show(f *frame) {
	b := f.batch
	c := &b.Conditioned
	l.honey = -1
	if len(c.HoneyLeft) > 0 && b.Timeline.Pitched {
		l.honey = c.HoneyLeft[0]
	}
	d := l.p.host.Design()
	// Where the beer's temperature was measured the plan's no longer counts.
	read := slices.ContainsFunc(b.Timeline.Points, func(p measured.Point) bool { return p.Used && p.What == measured.BeerTemperature })
	l.warmRow.Off = read || slices.ContainsFunc(c.Spent, func(s measured.Spent) bool { return s.Lever == design.LeverYeastC })
	l.warm.Set(l.warmthWords(f, read))
	l.land.show(f)
	l.spent.Set(l.spentWords(c))
	l.sync(&d)
	l.showWays(f)
}

// refuse takes away what was worked out for another design.
func (l *retune) refuse() {
	l.honey = -1
	for _, t := range []*ui.Texts{l.near, l.warm, l.spent} {
		t.Set(nil)
	}
	l.use.Hidden = true
	l.ways.Set(nil)
	l.land.plane.Set(plane.Data{Note: ui.NoNumber})
}

// warmthWords says what another temperature from now on would do.
func (l *retune) warmthWords(f *frame, read bool) []string {
	b := f.batch
	var out []string
	if read {
		first, now := b.Conditioned.Design.Yeast[0].TemperatureC, b.Conditioned.NowC()
		shown := func(c float64) string { return l.p.host.Say().Format(quantity.Temperature, c) }
		if now == first {
			out = append(out, words.T("The beer was measured at {temperature} on average.", shown(first)))
		} else {
			out = append(out, words.T("The beer was measured at {temperature} to begin with, and is at {now} since.", shown(first), shown(now)))
		}
	}
	if f.cooler != nil && f.warmer != nil {
		from := func(x *follow.Bands) string {
			now := b.Timeline.NowHours
			v := x.FinishedHours
			return l.p.fromNow(calc.Band{Low: v.Low - now, Mid: v.Mid - now, High: v.High - now})
		}
		step := l.p.host.Say().Format(quantity.TemperatureDifference, warmthStepC)
		out = append(out, words.T("Finished {now}. Kept {step} warmer from now on: {warmer}; {step} cooler: {cooler}.", from(&b.After), step, from(f.warmer), from(f.cooler)))
	}
	return out
}

// spentWords names what can't be moved any more, by the reason, with what was
// measured.
func (l *retune) spentWords(c *measured.Conditioned) []string {
	if len(c.Spent) == 0 {
		return []string{words.T("Nothing is spent yet: the whole design can still be tuned in Taste.")}
	}
	var reasons []measured.Reason
	by := map[measured.Reason][]string{}
	for _, s := range c.Spent {
		name := l.spentName(s)
		if _, ok := by[s.Why]; !ok {
			reasons = append(reasons, s.Why)
		}
		if !slices.Contains(by[s.Why], name) {
			by[s.Why] = append(by[s.Why], name)
		}
	}
	var out []string
	for _, why := range reasons {
		out = append(out, words.T("Locked: {levers} ({why}).", strings.Join(by[why], ", "), ui.SpentWhy(why)))
	}
	return out
}

func (l *retune) spentName(s measured.Spent) string {
	name := s.Lever
	if which, ok := table.Named(s.Lever); ok {
		name = l.p.host.Say().Sentence(which.Name())
	}
	switch {
	case s.Lever == design.LeverGrain && s.Key != "":
		name = words.T("volume")
	case s.Lever == s.Key: // one of several honeys
		name = l.p.host.Say().Sentence(table.Honey.Name())
	}
	if s.Key == "" {
		return name
	}
	k, ok := design.KeyOf(s.Key)
	if !ok {
		return name
	}
	return words.T("{name} {value}", name, l.p.host.Say().KeyNumber(k, s.Value))
}

// showWays is where the honey that is left can still bring the beer.
func (l *retune) showWays(f *frame) {
	l.near.Set(nil)
	l.use.Hidden = true
	l.ways.Set(nil)
	if !f.left || l.honey < 0 {
		return
	}
	say := l.p.host.Say()
	l.nearest = f.ways.Nearest
	if planned := f.ways.Planned(f.batch.Conditioned.Design.Honey[l.honey].MassKg); !math.IsNaN(l.nearest.Miss) {
		amount := say.Format(quantity.MassKg, l.nearest.MassKg)
		lands := words.T("{strength}, dryness {dryness}, body {body}", say.Format(quantity.Strength, l.nearest.Lands[calc.Strength].Mid), say.Number(quantity.Index, l.nearest.Lands[calc.Dryness].Mid), say.Number(quantity.Index, l.nearest.Lands[calc.Body].Mid))
		switch {
		case planned:
			l.near.Set([]string{words.T("The honey as planned lands nearest to what is wanted: {lands}.", lands)})
		case l.nearest.Reached:
			l.near.Set([]string{words.T("{amount} would land on what is wanted: {lands}.", amount, lands)})
		default:
			l.near.Set([]string{words.T("What is wanted is out of reach of honey alone. {amount} comes nearest, {miss} points off: {lands}.", amount, l.p.host.Say().PlainNumber(math.Round(l.nearest.Miss)), lands)})
		}
		l.use.Hidden = planned
		l.use.SetText(words.T("use {amount}", amount))
		l.use.Name = words.T("honey")
	} else {
		l.near.Set([]string{words.T("Say in Taste where the beer should land, and the amount of honey for it stands here.")})
	}
	rows := [][]string{{words.T("honey"), words.T("final"), words.T("strength"), words.T("dryness"), words.T("body")}}
	all := f.ways.Ladder
	for i := 0; i < len(all); i += 3 {
		w := &all[i]
		rows = append(rows, []string{say.Format(quantity.MassKg, w.MassKg), say.Number(quantity.Gravity, w.Lands[calc.FinalGravity].Mid),
			say.Format(quantity.Strength, w.Lands[calc.Strength].Mid), say.Number(quantity.Index, w.Lands[calc.Dryness].Mid), say.Number(quantity.Index, w.Lands[calc.Body].Mid)})
	}
	l.ways.Set(rows)
}

// take puts the nearest amount into the design.
func (l *retune) take() {
	if l.honey < 0 || math.IsNaN(l.nearest.Miss) {
		return
	}
	at, kg := l.honey, l.nearest.MassKg
	if ui.Change(l.p.host, words.T("honey still to go in"), func(d *design.Design) {
		if at < len(d.Honey) {
			d.Honey[at].MassKg = kg
		}
	}) {
		l.p.host.ShowMessage(words.T("{amount} of honey is planned now. Undo brings the old amount back.", l.p.host.Say().Format(quantity.MassKg, kg)))
	}
}
