package brew

import (
	"cmp"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"

	"skep/app/table"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/quantity"
)

func inList(list, key string) func(r *table.Row) string {
	return func(r *table.Row) string { return itemPath(list, r.At, key) }
}

func itemPath(list string, at int, key string) string {
	return list + "." + strconv.Itoa(at) + "." + key
}

// grainTable is the grist.
func (p *Place) grainTable() *table.Table {
	named := p.parts.Typed(words.T("grain"), words.T("name"), 130, inList("grain", "name"))
	named.Flex = true
	moisture := p.parts.Typed(words.T("moisture"), words.T("moisture"), 70, inList("grain", "moisture_pct"))
	moisture.Wide = true
	t := p.parts.Table(words.T("Goes in: grain"), words.T("No grain: the wort is honey and water."),
		named,
		p.parts.Typed(words.T("mass"), words.T("mass"), 92, inList("grain", "mass_kg")),
		p.parts.ShownOnly(words.T("share"), 44, func(r *table.Row, d *design.Design) string {
			all := 0.0
			for _, g := range d.Grain {
				all += g.MassKg
			}
			if all <= 0 || r.At >= len(d.Grain) {
				return ""
			}
			return p.host.Say().Number(quantity.Index, 100*d.Grain[r.At].MassKg/all) + " %"
		}),
		p.parts.Typed(words.T("extract"), words.T("extract"), 76, inList("grain", "extract_pct")),
		moisture,
		p.parts.Typed(words.T("colour"), words.T("colour"), 84, inList("grain", "colour_ebc")),
		p.parts.Worded(words.T("enzymes"), words.T("enzymes"), 104, inList("grain", "enzymes")))
	t.Which = func(d *design.Design) []int { return upTo(len(d.Grain)) }
	t.Name = func(d *design.Design, at int) string {
		if at >= len(d.Grain) {
			return ""
		}
		return ui.OrUnnamed(d.Grain[at].Name)
	}
	ordered(p, t, func(d *design.Design) *[]design.Grain { return &d.Grain })
	t.Least = 1
	t.Add(words.T("add grain"), "", func(under fyne.CanvasObject) { p.pickGrain() })
	return t
}

// hopTable is the hops of the boil or of the whirlpool.
func (p *Place) hopTable(when string) *table.Table {
	named := p.parts.Typed(words.T("hop"), words.T("name"), 140, inList("hop", "name"))
	named.Flex = true
	columns := []table.Column{named,
		p.parts.Typed(words.T("mass"), words.T("mass"), 84, inList("hop", "mass_g")),
		p.parts.Typed(words.T("alpha"), words.T("alpha acid"), 76, inList("hop", "alpha_pct"))}
	if when == "boil" {
		columns = append(columns, p.parts.Typed(words.T("left to boil"), words.T("minutes"), 84, inList("hop", "minutes")))
	}
	columns = append(columns,
		p.parts.ShownOnly(words.T("gives"), 70, func(r *table.Row, _ *design.Design) string { return p.gives("hop", r.At) }),
		p.parts.Worded(words.T("goes in at"), words.T("when it goes in"), 92, inList("hop", "when")))
	t := p.parts.Table(words.T("Goes in: hops"), "", columns...)
	t.Which = func(d *design.Design) []int {
		var which []int
		for i, h := range d.Hop {
			if h.When == when {
				which = append(which, i)
			}
		}
		if when == "boil" { // along the time line
			slices.SortStableFunc(which, func(a, b int) int { return cmp.Compare(d.Hop[b].Minutes, d.Hop[a].Minutes) })
		}
		return which
	}
	t.Name = func(d *design.Design, at int) string {
		if at >= len(d.Hop) {
			return ""
		}
		return ui.OrUnnamed(d.Hop[at].Name)
	}
	ordered(p, t, func(d *design.Design) *[]design.Hop { return &d.Hop })
	t.Add(words.T("add a hop"), "", func(fyne.CanvasObject) { p.pickHop(when) })
	return t
}

// honeyTable is the honey of one moment.
func (p *Place) honeyTable(moment string) *table.Table {
	named := p.parts.Typed(words.T("honey"), words.T("name"), 140, inList("honey", "name"))
	named.Flex = true
	columns := []table.Column{named,
		p.parts.Typed(words.T("mass"), words.T("mass"), 84, inList("honey", "mass_kg")),
		p.parts.Typed(words.T("water in it"), words.T("water"), 76, inList("honey", "moisture_pct"))}
	if moment == design.MomentFermenting {
		columns = append(columns, p.parts.Typed(words.T("after the height"), words.T("hours after the height"), 84, inList("honey", "hours_after_height")))
	}
	columns = append(columns,
		p.parts.Worded(words.T("goes in at"), words.T("when it goes in"), 104, inList("honey", "moment")),
		p.parts.Worded(words.T("it is"), words.T("raw or heated"), 76, inList("honey", "raw")))
	t := p.parts.Table(words.T("Goes in: honey"), "", columns...)
	t.Which = func(d *design.Design) []int {
		var which []int
		for i, h := range d.Honey {
			if h.Moment == moment {
				which = append(which, i)
			}
		}
		return which
	}
	t.Name = func(d *design.Design, at int) string {
		if at >= len(d.Honey) {
			return ""
		}
		return words.T("{name} honey", ui.OrUnnamed(d.Honey[at].Name))
	}
	ordered(p, t, func(d *design.Design) *[]design.Honey { return &d.Honey })
	t.Add(words.T("add honey"), words.T("add honey at {moment}", ui.WordText("moment", moment)),
		func(fyne.CanvasObject) { p.pickHoney(moment) })
	return t
}

// restTable is the mash rests, in order.
func (p *Place) restTable() *table.Table {
	t := p.parts.Table(words.T("The rests"), "",
		p.parts.ShownOnly(words.T("rest"), 40, func(r *table.Row, _ *design.Design) string { return strconv.Itoa(r.At + 1) }),
		p.parts.Typed(words.T("temperature"), words.T("temperature"), 92, inList("mash.rest", "temperature_c")),
		p.parts.Typed(words.T("time"), words.T("time"), 84, inList("mash.rest", "minutes")))
	t.Which = func(d *design.Design) []int { return upTo(len(d.Mash.Rest)) }
	t.Name = func(_ *design.Design, at int) string {
		return words.T("rest {n}", strconv.Itoa(at+1))
	}
	ordered(p, t, func(d *design.Design) *[]design.Rest { return &d.Mash.Rest })
	t.Least, t.Slim = 1, true
	t.Add(words.T("add a rest"), "", func(fyne.CanvasObject) {
		ui.Change(p.host, words.T("add a rest"), func(d *design.Design) {
			r := design.NewRest()
			if n := len(d.Mash.Rest); n > 0 { // a warmer one after the last
				r.TemperatureC, r.Minutes = min(d.Mash.Rest[n-1].TemperatureC+6, 78), 15
			}
			d.Mash.Rest = append(d.Mash.Rest, r)
		})
	})
	return t
}

// salt is one thing that can be stirred into the liquor.
type salt struct {
	key, name string
	usual     string // what a new one begins with
	amount    func(w *design.Water) *float64
}

func salts() []salt {
	return []salt{
		{"water.gypsum_g", words.T("Gypsum"), "2", func(w *design.Water) *float64 { return &w.GypsumG }},
		{"water.calcium_chloride_g", words.T("Calcium chloride, dihydrate"), "2", func(w *design.Water) *float64 { return &w.CalciumChlorideG }},
		{"water.epsom_g", words.T("Epsom salt"), "1", func(w *design.Water) *float64 { return &w.EpsomG }},
		{"water.table_salt_g", words.T("Table salt, without iodine"), "1", func(w *design.Water) *float64 { return &w.TableSaltG }},
		{"water.baking_soda_g", words.T("Baking soda"), "1", func(w *design.Water) *float64 { return &w.BakingSodaG }},
		{"water.lactic_acid_88_ml", words.T("Lactic acid, 88 %"), "2", func(w *design.Water) *float64 { return &w.LacticAcid88ML }},
	}
}

// saltTable is the salts and the acid of the liquor.
func (p *Place) saltTable() *table.Table {
	list := salts()
	t := p.parts.Table(words.T("Goes in: salts and acid"), words.T("Nothing is added to the water."),
		table.Column{Head: words.T("salt"), Width: 190, Flex: true, Make: func(r *table.Row) ui.Control {
			n := table.NewShown(14, func(*design.Design) string { return list[r.At].name })
			n.Ink = ui.InkFull
			return n
		}},
		p.parts.Typed(words.T("amount"), words.T("amount"), 84, func(r *table.Row) string { return list[r.At].key }))
	t.Slim = true
	t.Shows = func(d *design.Design) bool { return d.Water != nil }
	t.Which = func(d *design.Design) []int {
		var which []int
		for i, s := range list {
			if *s.amount(d.Water) > 0 {
				which = append(which, i)
			}
		}
		return which
	}
	t.Name = func(_ *design.Design, at int) string { return list[at].name }
	t.Drop = func(at int) {
		ui.Change(p.host, words.T("take {name} out", list[at].name), func(d *design.Design) { *list[at].amount(d.Water) = 0 })
	}
	t.Add(words.T("add a salt or acid"), "", func(under fyne.CanvasObject) { p.chooseSalt(under) })
	return t
}

// ordered gives a table the moves and the removal of a list of the design.
func ordered[T any](p *Place, t *table.Table, of func(d *design.Design) *[]T) {
	// way is the places in the list that a row passes by so many rows, its own
	// first; nil where there are none.
	way := func(at, by int) []int {
		k := slices.IndexFunc(t.Rows[:t.N], func(r *table.Row) bool { return r.At == at })
		if k < 0 || by == 0 || k+by < 0 || k+by >= t.N {
			return nil
		}
		var places []int
		for i := 0; i != by+cmp.Compare(by, 0); i += cmp.Compare(by, 0) {
			places = append(places, t.Rows[k+i].At)
		}
		return places
	}
	t.MayGo = func(at, by int) bool {
		places := way(at, by)
		d := p.host.Design()
		return places != nil && !apart(&d, any(of(&d)), at, places[len(places)-1])
	}
	t.Move = func(at, by int) bool {
		places := way(at, by)
		if places == nil {
			return false
		}
		d := p.host.Design()
		return ui.Change(p.host, words.T("move {name}", t.Name(&d, at)), func(d *design.Design) {
			l := *of(d)
			for i, to := range places[1:] {
				l[places[i]], l[to] = l[to], l[places[i]]
			}
		})
	}
	t.Drop = func(at int) {
		d := p.host.Design()
		name := t.Name(&d, at)
		if t.N <= t.Least {
			return
		}
		if ui.Change(p.host, words.T("take {name} out", name), func(d *design.Design) { *of(d) = slices.Delete(*of(d), at, at+1) }) {
			p.host.ShowMessage(words.T("{name} is out; undo brings it back", name))
		}
	}
}

// apart says that the time line keeps two rows apart: hops at different
// minutes.
func apart(d *design.Design, list any, at, to int) bool {
	if _, hops := list.(*[]design.Hop); !hops || at >= len(d.Hop) || to >= len(d.Hop) {
		return false
	}
	return d.Hop[at].When == "boil" && d.Hop[at].Minutes != d.Hop[to].Minutes
}

func upTo(n int) []int {
	which := make([]int, n)
	for i := range which {
		which[i] = i
	}
	return which
}

// gives is what an addition brings, as the day says.
func (p *Place) gives(list string, at int) string {
	path := list + "." + strconv.Itoa(at)
	for _, k := range []brewday.Key{brewday.Boil, brewday.Whirlpool} {
		if s, ok := p.day.Step(k); ok {
			for _, g := range s.Goes {
				if g.Path == path && g.Gives.Kind != quantity.None {
					return p.format.Quantity(g.Gives.Plain())
				}
			}
		}
	}
	return ""
}
