package ledger

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/glasstest"
	"skep/calc/message"
	"skep/calc/quantity"
)

// glassTest is one blind tasting: two beers are chosen, Skep says to who pours which
// glass gets which, and asks the taster without a name on the screen.
type glassTest struct {
	p      *Place
	dialog *dialog.CustomDialog
	Box    *fyne.Container
	three  bool
	wrong  fyne.CanvasObject // what is wrong with the choice; nil: nothing

	batches [2]*ui.Select
	bought  [2][3]*ui.Entry // name, original and final gravity
	beers   [2]userfile.GlassBeer

	Glasses       []int // which of the two beers is in each glass
	Drier, Fuller glasstest.Answer
}

// tasters are the batches that can be tasted: those whose gravities are measured.
func (p *Place) tasters() (names []string, beers []userfile.GlassBeer) {
	if p.Answer.Demo { // nobody has these in a bottle
		return nil, nil
	}
	for i := range p.Answer.Entries {
		e := &p.Answer.Entries[i]
		if !e.Measured.MadeKnown {
			continue
		}
		name := e.Title
		if slices.Contains(names, name) {
			name = words.T("{title}, {date}", e.Title, dateOf(e.At))
		}
		names = append(names, name)
		beers = append(beers, userfile.NewGlassBeer(name, e.Measured.Made))
	}
	return names, beers
}

// StartTest begins with the choice of the two beers.
func (p *Place) StartTest(three bool) {
	t := &glassTest{p: p, three: three, Box: container.NewVBox()}
	p.Test = t
	title := words.T("Two glasses")
	if three {
		title = words.T("Three glasses")
	}
	names, _ := p.tasters()
	bought := words.T("a bought beer")
	t.text(words.T("Alcohol: of age only, small glasses, water between, not before driving, not when pregnant. Two or three tastings are enough for one day."))
	for i, name := range []string{words.T("The first beer"), words.T("The second beer")} {
		t.batches[i] = ui.NewSelect(append(slices.Clone(names), bought), nil)
		figures := container.NewGridWithColumns(3)
		for k, holder := range []string{words.T("name"), words.T("original gravity"), words.T("final gravity")} {
			t.bought[i][k] = ui.NewEntry(p.host)
			t.bought[i][k].SetHolder(holder)
			t.bought[i][k].Leave = func() { t.dialog.Hide() }
			t.bought[i][k].Restored = func() { t.warn("") }
			figures.Add(t.bought[i][k])
		}
		figures.Hide()
		t.batches[i].OnChanged = func(chosen string) {
			figures.Hide()
			if chosen == bought {
				figures.Show()
			}
		}
		t.batches[i].SetSelectedIndex(min(i, len(names)))
		t.Box.Add(ui.Heading(name))
		t.Box.Add(t.batches[i])
		t.Box.Add(figures)
	}
	t.button(words.T("Go on: somebody pours"), t.Pour)
	scroll := container.NewVScroll(t.Box)
	scroll.SetMinSize(fyne.NewSize(560, 380))
	t.dialog = dialog.NewCustomWithoutButtons(title, scroll, p.host.Window())
	t.dialog.SetButtons([]fyne.CanvasObject{ui.NewButton(words.T("Stop"), t.dialog.Hide)})
	t.dialog.SetOnClosed(func() { p.Test = nil })
	ui.ShowModal(p.host, t.dialog, t.dialog.Hide)
	ui.Focus(p.host, t.batches[0])
}

func (t *glassTest) text(text string) {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	t.Box.Add(l)
}

func (t *glassTest) button(text string, tap func()) {
	t.Box.Add(ui.NewButton(text, tap))
}

// Choose takes a bought beer by its figures as one of the two.
func (t *glassTest) Choose(which int, name, original, final string) {
	t.batches[which].SetSelected(words.T("a bought beer"))
	for k, text := range [...]string{name, original, final} {
		t.bought[which][k].SetText(text)
	}
}

// chosen reads the two beers.
func (t *glassTest) chosen() error {
	names, beers := t.p.tasters()
	for i := range t.beers {
		if k := slices.Index(names, t.batches[i].Selected); k >= 0 {
			t.beers[i] = beers[k]
			continue
		}
		var gravity [2]float64
		for k := range gravity {
			r, err := t.p.host.Read().Parse(quantity.Gravity, t.bought[i][k+1].Text, quantity.Limits{Low: 0.98, High: 1.15})
			if err != nil {
				return message.NewError("{name}: {why}", t.bought[i][k+1].PlaceHolder, err)
			}
			gravity[k] = r.Value
		}
		glass, err := glasstest.Bought(gravity[0], gravity[1])
		if err != nil {
			return err
		}
		name := strings.TrimSpace(t.bought[i][0].Text)
		if name == "" {
			name = words.T("a bought beer")
		}
		t.beers[i] = userfile.NewGlassBeer(name, glass)
	}
	if t.beers[0].Name == t.beers[1].Name {
		return message.NewError("choose two different beers")
	}
	return nil
}

// Pour throws which glass gets which beer, and shows it to who pours.
func (t *glassTest) Pour() {
	if err := t.chosen(); err != nil {
		t.p.host.Warn(t.p.host.Say().Why(err))
		t.warn(t.p.host.Say().Why(err))
		return
	}
	if t.three {
		odd, place := t.p.Throw(2), t.p.Throw(3)
		t.Glasses = []int{1 - odd, 1 - odd, 1 - odd}
		t.Glasses[place] = odd
	} else {
		first := t.p.Throw(2)
		t.Glasses = []int{first, 1 - first}
	}
	t.Box.RemoveAll()
	t.Box.Add(ui.Heading(words.T("For who pours; the taster looks away")))
	for i, b := range t.Glasses {
		t.text(words.T("Glass {n}: {beer}", i+1, t.beers[b].Name))
	}
	t.text(words.T("Alike glasses, equally full, equally cold, from left to right."))
	t.button(words.T("Poured: the taster may look"), t.Ask)
	t.Box.Refresh()
}

// warn says what is wrong with the choice, above its button.
func (t *glassTest) warn(text string) {
	t.Box.Objects = slices.DeleteFunc(t.Box.Objects, func(o fyne.CanvasObject) bool { return o == t.wrong })
	t.wrong = nil
	if text != "" {
		l := widget.NewLabel(text)
		l.Wrapping, l.Importance = fyne.TextWrapWord, widget.WarningImportance
		t.wrong = l
		t.Box.Objects = slices.Insert(t.Box.Objects, len(t.Box.Objects)-1, t.wrong)
	}
	t.Box.Refresh()
}

// Ask shows the questions; nothing on the screen names a beer.
func (t *glassTest) Ask() {
	t.Box.RemoveAll()
	if t.three {
		t.Box.Add(ui.Heading(words.T("Two glasses hold the same beer: which is the odd one? Guess if you must.")))
		row := container.NewGridWithColumns(3)
		for i := range t.Glasses {
			row.Add(ui.NewButton(words.T("glass {n}", i+1), func() { t.Odd(i) }))
		}
		t.Box.Add(row)
		t.Box.Refresh()
		return
	}
	answers := []string{words.T("the left glass"), words.T("the right glass"), words.T("I can't tell")}
	save := ui.NewButton(words.T("Keep it"), t.Keep)
	save.Disable()
	ask := func(question string, answer *glasstest.Answer) {
		t.Box.Add(ui.Heading(question))
		t.Box.Add(ui.NewRadio(answers, -1, true, func(i int) {
			*answer = glasstest.Answer(i + 1) // the first is: not asked
			if t.Drier != glasstest.NotAsked && t.Fuller != glasstest.NotAsked {
				save.Enable()
			}
		}).Box)
	}
	ask(words.T("Which is drier?"), &t.Drier)
	ask(words.T("Which is fuller?"), &t.Fuller)
	t.Box.Add(save)
	t.Box.Refresh()
}

// Keep writes a pair down and tells what was in which glass.
func (t *glassTest) Keep() {
	pair := userfile.GlassPair{At: t.now(), First: t.beers[t.Glasses[0]], Second: t.beers[t.Glasses[1]],
		Drier: userfile.AnswerWord(t.Drier), Fuller: userfile.AnswerWord(t.Fuller)}
	t.p.host.KeepGlasses([]userfile.GlassPair{pair}, nil, func(err error) {
		t.done(err, words.T("Left was {left}, right was {right}. It is kept.", pair.First.Name, pair.Second.Name))
	})
}

// Odd takes the glass that the taster found odd.
func (t *glassTest) Odd(glass int) {
	beers := [2]string{t.beers[0].Name, t.beers[1].Name}
	slices.Sort(beers[:])
	right := t.Glasses[glass] != t.Glasses[(glass+1)%3] && t.Glasses[glass] != t.Glasses[(glass+2)%3]
	text := words.T("No: another glass was the odd one. It is kept.")
	if right {
		text = words.T("Yes, that was the odd one. It is kept.")
	}
	t.p.host.KeepGlasses(nil, []userfile.GlassTriangle{{At: t.now(), Beers: beers, Right: right}}, func(err error) { t.done(err, text) })
}

func (t *glassTest) now() time.Time { return t.p.host.Now().UTC().Truncate(time.Second) }

func (t *glassTest) done(err error, text string) {
	if err != nil {
		t.p.host.Warn(t.p.host.Say().Why(err))
		t.warn(t.p.host.Say().Why(err))
		return
	}
	t.Box.RemoveAll()
	t.text(text)
	for _, line := range t.p.palateWords(t.p.host.Palate()) {
		t.text(line)
	}
	t.button(words.T("Once more, with the same two beers"), t.Again)
	t.Box.Refresh()
	t.p.tastings = nil
	t.p.Fill()
}

// Again pours the same two in another order.
func (t *glassTest) Again() {
	t.Drier, t.Fuller = glasstest.NotAsked, glasstest.NotAsked
	t.Pour()
}
