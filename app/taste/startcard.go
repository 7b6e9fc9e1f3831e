package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"skep/app/begin"
	"skep/app/frames"
	"skep/app/lever"
	"skep/app/look"
	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/start"
)

// startCard asks what one has, in the place of the levers: each answer has a
// first value, Enter takes the next, and the pictures move while one answers. The
// design that comes of it is an ordinary one.
type startCard struct {
	b      *Place
	worker *frames.Worker[startAsk, startAnswer]
	shown  bool

	choices begin.Choices
	answers start.Answers
	kit     design.KitFile

	title, kitName, litres, honey, honeyMass, yeast, strength *ui.Entry
	buy, anywhere, leave                                      *ui.Choice
	done                                                      *enterButton
	note                                                      *ui.Paragraph
	column                                                    *ui.Column
	object                                                    fyne.CanvasObject
	fields                                                    []*ui.Entry // in the order of the questions
	read                                                      map[*ui.Entry]func(text string) error
}

// enterButton is a button that Enter presses too: it is the next question's Enter.
type enterButton struct{ widget.Button }

func newEnterButton(text string, tap func()) *enterButton {
	b := &enterButton{}
	b.Text, b.OnTapped, b.Importance = text, tap, widget.HighImportance
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey presses the button by Enter as by the space bar.
func (b *enterButton) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		k = &fyne.KeyEvent{Name: fyne.KeySpace, Physical: k.Physical}
	}
	if !lever.PassKey(b, k) {
		b.Button.TypedKey(k)
	}
}

// cardText is a paragraph as a part of the card.
type cardText struct{ *ui.Paragraph }

// Objects is nothing where there is nothing to say.
func (t cardText) Objects() []fyne.CanvasObject {
	if t.Text == "" {
		return nil
	}
	return []fyne.CanvasObject{t.Paragraph}
}

// startAsk is what the worker needs to make a design.
type startAsk struct {
	answers start.Answers
	larder  start.Larder
	teach   func(design.Design) ui.Taught
}

// startAnswer is what came of it.
type startAnswer struct {
	begun start.Begun
	err   error
}

func newStartCard(t *Place) *startCard {
	c := &startCard{b: t, read: map[*ui.Entry]func(string) error{}}
	c.title = c.field(words.T("its name"), c.readTitle, nil)
	c.kitName = c.field(words.T("kit, or how much the kettle holds"), c.readKit, c.pickKit)
	c.litres = c.field(words.T("litres into the fermenter"), c.readLitres, nil)
	c.honey = c.field(words.T("kind of honey"), c.readHoney, c.pickHoney)
	c.honeyMass = c.field(words.T("honey at hand"), c.readHoneyMass, nil)
	c.yeast = c.field(words.T("yeast, or “find one”"), c.readYeast, c.pickYeast)
	c.strength = c.field(words.T("strength"), c.readStrength, nil)
	c.buy = ui.NewChoice("", false, func() { c.answers.MayBuy = !c.answers.MayBuy; c.changed() })
	c.anywhere = ui.NewChoice("", false, c.freePlane)
	c.buy.Name, c.anywhere.Name = words.T("honey"), words.T("where it lands")
	c.leave = ui.NewChoice(words.T("by levers instead"), false, c.Close)
	c.done = newEnterButton(words.T("Make it my design"), c.finish)
	c.note = ui.NewParagraph("", look.CaptionSize, ui.InkQuiet)
	label := func(text string) *ui.Head { return ui.NewHead(text) }
	wide := func(e fyne.CanvasObject) ui.Part { return ui.NewFlow(e).Wide(e, 1000) }
	// Both fit the narrowest column of the window.
	pair := func(a, b *ui.Entry) ui.Part { return ui.NewFlow(a, b).Wide(a, 120).Wide(b, 78) }
	c.column = ui.NewColumn(
		label(words.T("Start from what you have")),
		label(words.T("1  Its name")), wide(c.title),
		label(words.T("2  Kit and litres")), pair(c.kitName, c.litres),
		label(words.T("3  Honey at hand")), pair(c.honey, c.honeyMass), ui.NewFlow(c.buy),
		label(words.T("4  Yeast")), wide(c.yeast),
		label(words.T("5  Strength and landing")), wide(c.strength), ui.NewFlow(c.anywhere),
		cardText{c.note}, wide(c.done), ui.NewFlow(c.leave))
	c.object = c.column.Object()
	c.object.Hide()
	return c
}

// run begins the worker; its engine is its own.
func (c *startCard) run() {
	var knower ui.Knower
	c.worker = frames.New(func(q startAsk) startAnswer {
		hands := func(d design.Design) (*calc.Engine, design.Design, error) {
			taught := q.teach(d)
			beer, err := knower.Know(&taught)
			return beer.Engine, beer.Design, err
		}
		b, err := start.Design(nil, q.answers, q.larder, hands)
		return startAnswer{b, err}
	}, func(q startAsk, a startAnswer) { c.b.Do(func() { c.show(q, a) }) })
}

// field is one answer that is typed; pick opens a list of what may be answered.
func (c *startCard) field(name string, read func(string) error, pick func()) *ui.Entry {
	e := ui.NewEntry(c.b)
	e.Name, e.Hint = name, words.T("Enter takes what stands here and goes on to the next question")
	if pick != nil {
		e.Hint = words.T("Enter takes what stands here and goes on; the arrow down lists what there is")
		e.Down = pick
	}
	e.Leave = c.Close
	e.Restored = func() { c.say("", false) }
	e.OnSubmitted = func(string) {
		if c.take(e) {
			c.next(e)
		}
	}
	c.read[e] = read
	c.fields = append(c.fields, e)
	return e
}

// Open shows the card with its first answers, on the design that was made of them.
func (c *startCard) Open(choices begin.Choices, answers start.Answers, kit design.KitFile) {
	c.choices, c.answers, c.kit, c.shown = choices, answers, kit, true
	if c.worker == nil {
		c.run()
	}
	c.b.left(true)
	for _, e := range c.fields {
		e.SetText(e.Rest) // of the time before
	}
	c.fill()
	c.say(words.T("Enter goes from question to question; each answer moves the pictures."), false)
	c.ask(c.title)
}

// Close leaves the design as it stands.
func (c *startCard) Close() {
	if !c.shown {
		return
	}
	c.shown = false
	c.b.left(false)
	c.b.EndMove()
	c.b.Changed()
	c.b.FocusFirst()
}

// finish is the end of the questions: an ordinary design.
func (c *startCard) finish() {
	for _, e := range c.fields {
		if !c.take(e) {
			c.ask(e)
			return
		}
	}
	c.b.KeepKit(c.kit)
	title := c.answers.Title
	c.Close()
	c.b.ShowMessage(words.T("“{title}” is yours: Ctrl+S keeps it in a file, and every lever moves it from here.", title))
}

// take reads a field; what can't be read is said, and nothing changes.
func (c *startCard) take(e *ui.Entry) bool {
	if e.Text == e.Rest {
		return true
	}
	if err := c.read[e](e.Text); err != nil {
		c.say(ui.FirstUpper(c.b.Say().Why(err)), true)
		return false
	}
	e.Rest = e.Text // it is shown as it was understood
	c.changed()
	return true
}

// ask gives a question the keyboard; what is typed takes the place of what stands
// there.
func (c *startCard) ask(e *ui.Entry) {
	ui.Focus(c.b, e)
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func (c *startCard) next(e *ui.Entry) {
	for i, f := range c.fields {
		if f != e {
			continue
		}
		if i+1 < len(c.fields) {
			c.ask(c.fields[i+1])
		} else {
			ui.Focus(c.b, c.done)
		}
	}
}

// changed shows the answers as they were understood and asks for the design.
func (c *startCard) changed() {
	c.fill()
	c.worker.Post(startAsk{c.answers, c.choices.Larder(), c.b.Teacher()})
}

// fill writes the answers into the fields, but for what is typed there and not taken yet.
func (c *startCard) fill() {
	say := c.b.Say()
	put := func(e *ui.Entry, text string) {
		if e.Text != e.Rest {
			return
		}
		e.Rest = text
		e.SetText(text)
	}
	put(c.title, c.answers.Title)
	put(c.kitName, c.kit.Kit.Name)
	put(c.litres, say.Format(quantity.Volume, c.answers.LitresL))
	put(c.honey, c.answers.Honey.Name)
	put(c.honeyMass, say.Format(quantity.MassKg, c.answers.Honey.MassKg))
	if c.answers.Find {
		put(c.yeast, words.T("find one"))
	} else {
		put(c.yeast, c.answers.Yeast[0].Name)
	}
	put(c.strength, say.Format(quantity.Strength, c.answers.StrengthPct))
	if c.answers.MayBuy {
		c.buy.SetText(words.T("☑ more of it may be bought"))
	} else {
		c.buy.SetText(words.T("☐ more of it may be bought"))
	}
	if c.answers.Dryness == nil && c.answers.Body == nil {
		c.anywhere.SetText(words.T("wherever; or point at the plane"))
	} else {
		c.anywhere.SetText(words.T("as pointed at; take that back"))
	}
	c.column.Relayout()
}

// show puts the design that came of the answers into the window.
func (c *startCard) show(q startAsk, a startAnswer) {
	if !c.shown {
		return
	}
	if a.err != nil {
		c.say(ui.FirstUpper(c.b.Say().Why(a.err)), true)
		return
	}
	if err := c.b.Start(func(d *design.Design) {
		honey, hold, ghost := d.Taste.Honey, d.Taste.Hold, d.Ghost // asked for beside the card
		*d = a.begun.Design.Clone()
		d.Taste.Honey, d.Taste.Hold, d.Ghost = honey, hold, ghost
	}); err != nil {
		c.say(c.b.Say().Why(err), true)
		return
	}
	d := &a.begun.Design
	grain := 0.0
	for _, g := range d.Grain {
		grain += g.MassKg
	}
	say := c.b.Say()
	text := words.T("{grain} of grain gives {strength} in {litres}.", say.Format(quantity.MassKg, grain),
		say.Format(quantity.Strength, a.begun.Prediction.StrengthPct.Mid), say.Format(quantity.Volume, d.Batch.IntoFermenterL))
	if q.answers.Find {
		text += " " + words.T("Found: {yeast}.", d.Yeast[0].Name)
	}
	for _, n := range a.begun.Notes {
		text += " " + ui.FirstUpper(say.Sentence(n)) + "."
	}
	c.say(text, len(a.begun.Notes) > 0)
}

func (c *startCard) say(text string, bad bool) {
	c.note.Ink = ui.InkFull
	if bad {
		c.note.Ink = ui.InkWarning
	}
	c.note.SetText(text)
	c.note.Refresh()
	c.column.Relayout()
}

// point takes a place on the plane as the answer.
func (c *startCard) point(dryness, body *float64) {
	c.answers.Dryness, c.answers.Body = dryness, body
	_ = c.b.Start(func(d *design.Design) { d.Taste.Dryness, d.Taste.Body = dryness, body }) // what is refused comes back with the answer
	c.changed()
}

// wish takes what is wanted, typed beside the card, as its answer; false: the card does
// not ask for it, and it is the design's.
func (c *startCard) wish(key string, v *float64) bool {
	a := &c.answers
	switch {
	case key == plane.DrynessKey:
		c.point(v, a.Body)
	case key == plane.BodyKey:
		c.point(a.Dryness, v)
	case key == plane.StrengthKey && v != nil:
		a.StrengthPct = min(max(*v, start.LeastStrengthPct), start.MostStrengthPct)
		c.changed()
	case key == plane.AtHandKey && v != nil:
		a.Honey.MassKg = *v
		c.changed()
	default:
		return false
	}
	return true
}

func (c *startCard) freePlane() { c.point(nil, nil) }
