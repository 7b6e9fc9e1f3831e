package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/brew/mashcourse"
	"skep/app/brew/vessel"
	"skep/app/table"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/crush"
	"skep/calc/design"
	"skep/calc/recipe"
)

// makeCards makes the steps in the order of the day, each with what is set
// there and what goes in there.
func (p *Place) makeCards() {
	add := func(key brewday.Key, title, why string, fill func(c *stepCard)) {
		c := p.newCard(len(p.cards)+1, key, title, why)
		fill(c)
		p.cards = append(p.cards, c)
	}
	add(brewday.Crush, words.T("Crush"), "", func(c *stepCard) {
		p.crushSettings(c.settings)
	})
	add(brewday.Liquor, words.T("Liquor"), "", func(c *stepCard) {
		p.liquorSettings(c.settings)
		c.tables = append(c.tables, p.saltTable())
	})
	add(brewday.MashIn, words.T("Mash-in"), "", func(c *stepCard) {
		c.settings.Field(words.T("liquor on grain"), words.T("mash liquor on grain"), "mash.liquor_l_per_kg", 96)
		c.settings.Field(words.T("grain is at"), words.T("temperature of the grain"), "mash.grain_c", 84)
		c.drop("grain at")
		level := vessel.NewLevel(p.host)
		c.picture, c.drawn = level, func(f *dayFrame) { level.Fill(&f.design) }
		c.tables = append(c.tables, p.grainTable())
	})
	add(brewday.Rests, words.T("Mash rest"), "", func(c *stepCard) {
		c.drop("mash", "hold")
		mash := mashcourse.New(p.host)
		c.picture, c.drawn = mash, func(f *dayFrame) { mash.Fill(f.mash) }
		c.tables = append(c.tables, p.restTable())
	})
	add(brewday.Sparge, words.T("Sparge"), "", func(*stepCard) {})
	add(brewday.Boil, words.T("Boil"), "", func(c *stepCard) {
		c.drop("boil")
		c.settings.Field(words.T("boil"), words.T("length of the boil"), "boil.minutes", 84)
		c.tables = append(c.tables, p.hopTable("boil"), p.honeyTable(design.MomentBoil))
	})
	add(brewday.Whirlpool, words.T("Whirlpool and stand"), words.T("No whirlpool and no stand: the wort is run off at once."), func(c *stepCard) {
		c.drop("start", "stir", "stand")
		c.settings.Field(words.T("stir from"), words.T("start of the whirlpool"), "boil.whirlpool_start_c", 84)
		c.settings.Field(words.T("whirlpool"), words.T("whirlpool"), "boil.whirlpool_minutes", 84)
		c.settings.Field(words.T("stand"), words.T("stand"), "boil.stand_minutes", 84)
		c.tables = append(c.tables, p.hopTable("whirlpool"), p.honeyTable(design.MomentWhirlpool))
	})
	add(brewday.RunOff, words.T("Run-off"), "", func(c *stepCard) {
		c.drop("tap water")
		c.settings.Field(words.T("tap water"), words.T("tap water"), "kit.tap_c", 84)
	})
	add(brewday.Pitching, words.T("Pitch"), "", func(c *stepCard) {
		c.drop("pitch at")
		p.yeastSettings(c.settings)
		c.tables = append(c.tables, p.honeyTable(design.MomentPitching))
	})
	add(brewday.Ferment, words.T("Ferment"), "", func(*stepCard) {})
	add(brewday.Honey, words.T("The honey"), words.T("No honey goes in while it ferments."), func(c *stepCard) {
		c.tables = append(c.tables, p.honeyTable(design.MomentFermenting))
	})
	add(brewday.Packaging, words.T("Bottle"), "", func(c *stepCard) {
		c.drop("made for")
		p.packageSettings(c.settings)
	})
}

// drop leaves leading numbers out that are set here anyway.
func (c *stepCard) drop(labels ...string) {
	for _, l := range labels {
		c.drops[l] = true
	}
}

func (p *Place) crushSettings(s *table.Settings) {
	s.Add(words.T("how it is milled"), p.parts.Link("crush", words.T("how it is milled"), true, p.chooseCrush, func(d *design.Design) string {
		word := ui.WordText("by_eye", recipe.Crush(d.Crush).Word())
		switch {
		case d.Crush == nil:
			return words.T("not looked at: a sound crush is assumed")
		case len(d.Crush.OnSievePct) > 0:
			return words.T("by sieves: {word}", word)
		}
		return words.T("by eye: {word}", word)
	}), 240)
	sieves := s.Field(words.T("on 1.27, 1.0, 0.6, 0.25, 0.15 mm, and through, %"), words.T("what stays on the sieves"), "crush.on_sieve_pct", 260)
	sieves.Shows = func(d *design.Design) bool { return d.Crush != nil && len(d.Crush.OnSievePct) > 0 }
}

// chooseCrush says how the grist was judged.
func (p *Place) chooseCrush(l *table.Link) {
	now := p.host.Design().Crush
	set := func(name string, c *design.Crush) func() {
		return func() { ui.Change(p.host, name, func(d *design.Design) { d.Crush = c }) }
	}
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("Answer three questions…"), p.OpenCrush),
		fyne.NewMenuItem(words.T("Weigh it on sieves"), func() {
			c := design.NewCrush()
			c.OnSievePct = publishedSieving()
			set(words.T("crush by sieves"), c)()
			p.focusPath("crush.on_sieve_pct")
		}),
		fyne.NewMenuItemSeparator(),
	}
	for _, w := range crush.Words() {
		c := design.NewCrush()
		c.ByEye = w
		m := fyne.NewMenuItem(words.T("By eye: {word}", ui.WordText("by_eye", w)),
			set(words.T("crush by eye: {word}", ui.WordText("by_eye", w)), c))
		m.Checked = now != nil && len(now.OnSievePct) == 0 && now.ByEye == w
		items = append(items, m)
	}
	none := fyne.NewMenuItem(words.T("Not looked at"), set(words.T("crush not looked at"), nil))
	none.Checked = now == nil
	ui.PopUp(p.host, l, append(items, fyne.NewMenuItemSeparator(), none)...)
}

func (p *Place) liquorSettings(s *table.Settings) {
	s.Field(words.T("into the fermenter"), words.T("volume into the fermenter"), "batch.into_fermenter_l", 96)
	s.Field(words.T("above the sea"), words.T("height above the sea"), "batch.altitude_m", 84)
	s.Add(words.T("the water"), p.parts.Link("water", words.T("the water"), false, func(*table.Link) {
		given := p.host.Design().Water != nil
		name := words.T("give the water's ions")
		if given {
			name = words.T("forget the water")
		}
		ui.Change(p.host, name, func(d *design.Design) {
			d.Water = nil
			if !given {
				d.Water = design.NewWater()
			}
		})
	}, func(d *design.Design) string {
		if d.Water == nil {
			return words.T("give its ions…")
		}
		return words.T("forget its ions")
	}), 110)
	known := func(d *design.Design) bool { return d.Water != nil }
	for _, ion := range []struct{ label, key string }{
		{words.T("calcium"), "calcium"}, {words.T("magnesium"), "magnesium"}, {words.T("sodium"), "sodium"},
		{words.T("chloride"), "chloride"}, {words.T("sulphate"), "sulphate"}, {words.T("bicarbonate"), "bicarbonate"},
	} {
		s.Field(ion.label, ion.label, "water."+ion.key, 90).Shows = known
	}
}

func (p *Place) yeastSettings(s *table.Settings) {
	s.Add(words.T("yeast"), p.parts.Link("yeast", words.T("yeast brewed with"), true, func(*table.Link) { p.choosePitched() }, func(d *design.Design) string {
		if len(d.Yeast) == 0 {
			return ""
		}
		return ui.OrUnnamed(d.Yeast[0].Name)
	}), 120)
	s.Field(words.T("attenuates from"), words.T("lowest attenuation"), "yeast.0.attenuation_low_pct", 76)
	s.Field(words.T("to"), words.T("highest attenuation"), "yeast.0.attenuation_high_pct", 76)
	s.Field(words.T("pitch and keep at"), words.T("fermentation temperature"), "yeast.0.temperature_c", 84)
	s.Field(words.T("cells, a litre"), words.T("cells pitched"), "yeast.0.cells_billion_per_l", 84)
	s.Word(words.T("as"), words.T("form of the yeast"), "yeast.0.form", 64)
	s.Word(words.T("and"), words.T("dextrin"), "yeast.0.eats_dextrin", 100)
	s.Add(words.T("other strains"), p.parts.Link("", words.T("other strains"), false, func(*table.Link) { p.compare() },
		func(*design.Design) string { return words.T("compare…") }), 80)
}

func (p *Place) packageSettings(s *table.Settings) {
	bottle := func(d *design.Design) bool { return d.Package.Vessel != "keg" }
	s.Word(words.T("into"), words.T("bottles or keg"), "package.vessel", 76)
	s.Field(words.T("CO2 wanted"), words.T("CO2 wanted"), "package.volumes_co2", 84)
	s.Word(words.T("primed with"), words.T("primer"), "package.primer", 100).Shows = bottle
	s.Field(words.T("water in the honey"), words.T("water in the honey to prime with"), "package.primer_moisture_pct", 84).Shows = func(d *design.Design) bool {
		return bottle(d) && d.Package.Primer == "honey"
	}
	s.Field(words.T("warmest since it finished"), words.T("warmest since it finished"), "package.warmest_since_c", 84)
	s.Field(words.T("warmest it is kept"), words.T("warmest it is kept at"), "package.store_c", 84)
	s.Field(words.T("bottles made for"), words.T("what the bottles are made for"), "package.rated_volumes", 84).Shows = bottle
}
