// Package calculations is the drawer of the small calculations of `skep reckon`,
// one at a time. In comes what a person types, in their units; out goes package
// reckon's answer while they type. It must know no design and no formula.
package calculations

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/quantity"
	"skep/calc/reckon"
)

// drawer is the calculations of `skep reckon`, one at a time.
type drawer struct {
	*ui.Drawer
	host    ui.Host
	at      reckon.Calculation
	pick    *ui.Choice
	about   *ui.Paragraph
	source  *ui.Paragraph
	fields  *fyne.Container
	inputs  map[string]func() string
	results *ui.Paragraph
	wrong   *ui.Paragraph
}

// Open shows the first of them.
func Open(host ui.Host) { newDrawer(host).show(reckon.List()[0]) }

func newDrawer(host ui.Host) *drawer {
	r := &drawer{host: host}
	r.pick = ui.NewChoice("", true, r.choose)
	r.pick.Ink, r.pick.TextSize, r.pick.Bold, r.pick.Name = ui.InkFull, look.TextSize, true, words.T("calculation")
	r.about, r.source = ui.NewParagraph("", 13, ui.InkFull), ui.NewParagraph("", look.CaptionSize, ui.InkQuiet)
	r.fields = container.New(&ui.FieldsLayout{})
	r.results, r.wrong = ui.NewParagraph("", look.TextSize+1, ui.InkFull), ui.NewParagraph("", 13, ui.InkWarning)
	r.results.Bold = true
	r.Drawer = ui.NewDrawer(host, words.T("Calculations"), 500, container.NewHBox(r.pick), r.about, r.fields, r.wrong, r.results, r.source)
	return r
}

// choose offers the list.
func (r *drawer) choose() {
	var items []*fyne.MenuItem
	for _, c := range reckon.List() {
		m := fyne.NewMenuItem(words.Listed(c.Title()), func() { r.show(c) })
		m.Checked = c.Name == r.at.Name
		items = append(items, m)
	}
	ui.PopUp(r.host, r.pick, items...)
}

func fieldLabel(f reckon.Field) string { return words.Listed(f.Label()) }

// show puts a calculation's fields up.
func (r *drawer) show(c reckon.Calculation) {
	r.at = c
	r.pick.SetText(words.Listed(c.Title()))
	r.about.SetText(words.Listed(c.About))
	r.source.SetText(words.T("Source: {source}", words.Listed(c.Source)))
	r.inputs = map[string]func() string{}
	r.fields.RemoveAll()
	var first fyne.Focusable
	for _, f := range c.In {
		label := fieldLabel(f)
		if span := r.span(f); span != "" {
			label = words.T("{name}, {range}", label, span)
		}
		name := ui.NewCaption(label, look.CaptionSize, false, ui.InkQuiet)
		name.Yields = true
		r.fields.Add(name)
		if len(f.Words) > 0 {
			word := ui.NewChoice("", true, nil)
			word.Ink, word.TextSize, word.Name = ui.InkFull, 13, label
			now := f.Default
			if now == "" {
				now = f.Words[0]
			}
			word.SetText(words.Listed(now))
			word.OnTap = func() {
				var items []*fyne.MenuItem
				for _, w := range f.Words {
					items = append(items, fyne.NewMenuItem(words.Listed(w), func() { now = w; word.SetText(words.Listed(w)); r.work() }))
				}
				ui.PopUp(r.host, word, items...)
			}
			r.inputs[f.Key] = func() string { return now }
			r.fields.Add(word)
			continue
		}
		e := ui.NewEntry(r.host)
		e.Leave = func() { r.Close() }
		e.Name = label
		e.Hint = words.Listed(f.Note)
		if f.Default != "" {
			e.SetPlaceHolder(r.defaultText(f))
		} else if f.Optional {
			e.SetPlaceHolder(words.T("may be left out"))
		}
		e.OnChanged = func(string) { r.work() }
		r.inputs[f.Key] = func() string { return strings.TrimSpace(e.Text) }
		r.fields.Add(e)
		if first == nil {
			first = e
		}
	}
	r.work()
	if first != nil {
		r.host.Window().Canvas().Focus(first)
	}
}

// span is a field's range in the person's units.
func (r *drawer) span(f reckon.Field) string {
	if len(f.Words) > 0 {
		return ""
	}
	if kind, ok := ui.KindOfUnit(f.Key, f.Unit); ok {
		return r.host.Say().FormatRange(kind, f.Min, f.Max)
	}
	return ui.WithUnit(r.host.Say().PlainNumber(f.Min)+"–"+r.host.Say().PlainNumber(f.Max), words.Listed(f.Unit))
}

func (r *drawer) defaultText(f reckon.Field) string {
	v, err := strconv.ParseFloat(f.Default, 64)
	if err != nil {
		return words.Listed(f.Default)
	}
	if kind, ok := ui.KindOfUnit(f.Key, f.Unit); ok {
		return r.host.Say().Format(kind, v)
	}
	return ui.WithUnit(r.host.Say().PlainNumber(v), words.Listed(f.Unit))
}

// work does the calculation with what is typed so far. What is missing is no
// fault; what can't be read is.
func (r *drawer) work() {
	b := r.host
	in := map[string]string{}
	missing := ""
	fault := func(f reckon.Field, err error) {
		r.answer("", words.T("{name}: {why}", fieldLabel(f), r.host.Say().Why(err)))
	}
	for _, f := range r.at.In {
		text := r.inputs[f.Key]()
		switch {
		case text == "" && f.Required():
			missing = fieldLabel(f)
			continue
		case text == "":
			continue
		case len(f.Words) > 0:
			in[f.Key] = text
			continue
		}
		v, err := r.read(f, text)
		if err != nil {
			fault(f, err)
			return
		}
		in[f.Key] = strconv.FormatFloat(v, 'f', -1, 64)
	}
	if missing != "" {
		r.answer(words.T("Type {name}", missing), "")
		return
	}
	out, err := reckon.Do(r.at.Name, in)
	if err != nil {
		r.answer("", r.host.Say().Why(err))
		return
	}
	var lines []string
	for i, v := range out {
		text := ui.WithUnit(b.Say().Marked(v.String()), words.Listed(v.Unit))
		if kind, ok := ui.KindOfUnit(v.Key, v.Unit); ok && b.Say().Shown(kind, 1) != 1 {
			text = b.Say().Format(kind, v.Value)
		}
		lines = append(lines, words.T("{name}: {value}", fieldLabel(r.at.Out[i]), text))
	}
	r.answer(strings.Join(lines, "\n"), "")
}

// read reads a number in the person's units where there is a choice of them.
func (r *drawer) read(f reckon.Field, text string) (float64, error) {
	if kind, ok := ui.KindOfUnit(f.Key, f.Unit); ok {
		v, err := r.host.Read().Parse(kind, text, quantity.Limits{Low: f.Min, High: f.Max})
		return v.Value, err
	}
	if f.Unit == "SG" && !strings.ContainsAny(text, ".,") && len(text) == 4 { // 1048
		if v, err := strconv.ParseFloat(text, 64); err == nil {
			text = strconv.FormatFloat(v/1000, 'f', -1, 64)
		}
	}
	return r.host.Read().Plain(text, f.Unit, f.Min, f.Max)
}

func (r *drawer) answer(result, wrong string) {
	r.results.SetText(result)
	r.wrong.SetText(wrong)
	r.Fit()
}
