package vessel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/disk"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/start"
)

// kitChoice is the part of the vessel's drawer that says which kit the design has
// a copy of and where the copy differs, and in which kits are chosen, made, copied,
// renamed and removed.
type kitChoice struct {
	k     *kitDrawer
	kits  []userfile.Kit
	known bool // they were read

	pick                           *ui.Choice // the kit's name, over all kits
	take, keep, add, rename, leave *ui.Choice
	test                           *ui.Choice // the water test
	back                           *ui.Choice // undoes what was done to a kit's file
	message                        *ui.Paragraph
	did                            *ui.Paragraph
	name                           *ui.Entry
	nameRow                        *fyne.Container
	named                          func(name string) // what the name that is typed is for
	undo                           func() error
}

func newKitChoice(k *kitDrawer) *kitChoice {
	c := &kitChoice{k: k}
	c.pick = ui.NewChoice("", true, c.choose)
	c.pick.TextSize, c.pick.Bold, c.pick.Ink, c.pick.Name = look.TextSize, true, ui.InkFull, words.T("kit")
	link := func(text string, tap func()) *ui.Choice {
		l := ui.NewChoice(text, false, tap)
		l.Ink, l.TextSize = ui.InkAccent, look.CaptionSize+1
		return l
	}
	c.take, c.keep = link(words.T("take the kit's"), c.takeKits), link(words.T("keep these for the kit"), c.keepThese)
	c.add, c.rename, c.leave = link("", c.askAdd), link(words.T("rename…"), c.askRename), link(words.T("remove"), c.remove)
	c.test = link(words.T("the water test…"), func() { k.Close(); k.v.openWaterTest() })
	c.back = link(words.T("take that back"), c.takeBack)
	c.message, c.did = ui.NewParagraph("", 13, ui.InkQuiet), ui.NewParagraph("", 13, ui.InkFull)
	c.name = ui.NewEntry(k.host)
	c.name.Name, c.name.Hint = words.T("name of the kit"), words.T("Enter takes the name, Escape leaves it")
	c.name.Leave = func() { c.askName("", nil) }
	c.name.OnSubmitted = func(text string) { c.takeName(text) }
	c.nameRow = container.NewGridWrap(fyne.NewSize(300, ui.FieldHeight()), c.name)
	c.nameRow.Hide()
	c.back.Hide()
	return c
}

// parts are what stands above the vessel's values.
func (c *kitChoice) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{choices(c.pick), c.message, choices(c.take, c.keep), choices(c.test, c.add, c.rename, c.leave), c.nameRow, c.did, choices(c.back)}
}

// choices are a row of them whose text begins where that of a paragraph does.
func choices(o ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(0, 0, -ui.ChoicePad, 0), container.NewHBox(o...))
}

// folder is where the kits lie.
func (c *kitChoice) folder() string { return userfile.KitsIn(c.k.host.ShelfFolder()) }

// read reads the kits anew; what is wrong with a file is said, and that kit can't
// be chosen.
func (c *kitChoice) read(then func()) {
	c.k.v.kits(func(kits []userfile.Kit, problems []error) {
		c.took(kits, problems)
		then()
	})
}

func (c *kitChoice) took(kits []userfile.Kit, problems []error) {
	c.kits, c.known = kits, true
	if len(problems) > 0 {
		c.say(words.T("Left out: {why}", c.k.host.Say().Why(problems[0])), true)
	}
}

// write changes a kit's file, reads all of them anew, and shows what came of it.
func (c *kitChoice) write(change func() (userfile.Kit, error), then func(kit userfile.Kit)) {
	folder := c.folder()
	c.k.host.Disk().Ask(disk.Own, words.T("Writing {file}…", folder), func() func() {
		kit, err := change()
		kits, problems := userfile.Kits(folder)
		return func() {
			c.took(kits, problems)
			if err != nil {
				c.say(c.k.host.Say().Why(err), true)
			} else {
				then(kit)
			}
			c.k.sync()
		}
	})
}

// kitState is how a design's copy stands to the kits.
type kitState struct {
	kit     userfile.Kit
	there   bool // a kit of that name is among the person's
	differs []string
}

// stateOf looks a design's kit up, and lists the keys in which the copy differs.
func stateOf(kits []userfile.Kit, d *design.Design) kitState {
	kit, there := userfile.KitNamed(kits, d.Kit.Name)
	if !there || strings.TrimSpace(d.Kit.Name) == "" {
		return kitState{}
	}
	s := kitState{kit: kit, there: true}
	with := d.Clone()
	kit.Into(&with)
	for _, path := range design.KitKeys() {
		here, errHere := d.Get(path)
		its, errIts := with.Get(path)
		if path != "kit.name" && path != "kit.formerly" && (here != its || (errHere == nil) != (errIts == nil)) {
			s.differs = append(s.differs, path)
		}
	}
	return s
}

// sync shows how the design's copy stands.
func (c *kitChoice) sync(d *design.Design) {
	s := stateOf(c.kits, d)
	c.pick.SetText(d.Kit.Name)
	if strings.TrimSpace(d.Kit.Name) == "" {
		c.pick.SetText(words.T("no kit of yours"))
	}
	show := func(o *ui.Choice, on bool) { o.Hidden = !on; o.Refresh() }
	show(c.take, len(s.differs) > 0)
	show(c.keep, len(s.differs) > 0)
	show(c.rename, s.there)
	show(c.leave, s.there)
	text := words.T("copy under another name…")
	if !s.there {
		text = words.T("keep these values as a kit…")
	}
	c.add.SetText(text)
	c.message.SetText(c.standing(&s, d))
	c.k.refit()
}

// standing says how the copy stands to its kit.
func (c *kitChoice) standing(s *kitState, d *design.Design) string {
	name := strings.TrimSpace(d.Kit.Name)
	switch {
	case !c.known:
		return "" // until they are read
	case name == "":
		return words.T("The values are this design's own: no kit of yours is named.")
	case !s.there:
		return words.T("There is no “{kit}” among your kits: this design keeps its own copy of the values.", name)
	case len(s.differs) == 0:
		return words.T("As your kit has it.")
	}
	with := d.Clone()
	s.kit.Into(&with)
	const most = 4
	var list []string
	for _, path := range s.differs[:min(len(s.differs), most)] {
		list = append(list, c.difference(path, d, &with))
	}
	text := words.T("This copy differs from your kit: {differences}.", strings.Join(list, "; "))
	if more := len(s.differs) - most; more > 0 {
		text += " " + words.N("{count} more value differs.", "{count} more values differ.", more)
	}
	return text
}

// difference is one value here and in the kit.
func (c *kitChoice) difference(path string, d, with *design.Design) string {
	say := c.k.host.Say()
	text := func(d *design.Design) string {
		v, err := d.Get(path)
		if err != nil {
			return words.T("not given")
		}
		return say.KeyText(path, v)
	}
	label := path
	for _, pair := range kitKeys() {
		if pair[0] == path {
			label = pair[1]
		}
	}
	switch {
	case path == "batch.altitude_m":
		label = words.T("height above the sea")
	case strings.HasPrefix(path, "water."):
		k, _ := design.KeyOf(path)
		label = k.Name()
	}
	return words.T("{value} {here}, in the kit {there}", label, text(d), text(with))
}

// say tells what was done or why not; undo takes it back, nil: it can't be.
func (c *kitChoice) say(text string, bad bool) {
	c.back.Hide()
	c.undo = nil
	c.k.answer(c.did, text, bad)
}

func (c *kitChoice) done(text string, undo func() error) {
	c.say(text, false)
	c.undo = undo
	c.back.Show()
	c.k.refit()
}

// choose offers the person's kits.
func (c *kitChoice) choose() {
	wanted := ui.Wanted(c.k.host)
	c.read(func() {
		if wanted() {
			c.offer()
		}
	})
}

func (c *kitChoice) offer() {
	host := c.k.host
	if len(c.kits) == 0 {
		c.say(words.T("No kit is kept yet: keep these values as the first."), false)
		return
	}
	var items []picker.Item
	for i := range c.kits {
		kit := c.kits[i]
		items = append(items, picker.Item{Name: kit.Name(), Figures: host.Say().Format(quantity.Volume, kit.Kit.VesselL),
			Note: words.T("{efficiency} mash efficiency, boils away {steam}", host.Say().Format(quantity.Percent, kit.Kit.MashEfficiencyPct), host.Say().Format(quantity.LitresPerHour, kit.Kit.SteamLPerH)),
			Take: func() { c.use(kit) }})
	}
	picker.New(host, words.T("Your kits"), words.T("search"), items).Show()
}

// use puts a kit's values into the design.
func (c *kitChoice) use(kit userfile.Kit) {
	host := c.k.host
	if err := host.Edit(words.T("kit: {name}", kit.Name()), kit.Into); err != nil {
		c.say(c.k.host.Say().Why(err), true)
		return
	}
	host.UseKit(kit.Name())
	d := host.Design()
	text := words.T("The design brews on “{kit}” now. Undo takes it back.", kit.Name())
	if well := start.LitresFor(d.Kit); d.Batch.IntoFermenterL > well {
		text += " " + words.T("It brews {volume} without boiling over or foaming over: scale the beer below.", host.Say().Format(quantity.Volume, well))
	}
	c.say(text, false)
	c.k.sync()
}

func (c *kitChoice) takeKits() {
	d := c.k.host.Design()
	if s := stateOf(c.kits, &d); s.there {
		c.use(s.kit)
	}
}

// keepThese writes the design's values into the kit's file.
func (c *kitChoice) keepThese() {
	d := c.k.host.Design()
	s := stateOf(c.kits, &d)
	if !s.there {
		return
	}
	was, now := s.kit.KitFile, design.KitOf(d)
	c.write(func() (userfile.Kit, error) { return userfile.SaveKit(s.kit, now) }, func(saved userfile.Kit) {
		c.done(words.T("“{kit}” has these values now.", saved.Name()), func() error {
			_, err := userfile.SaveKit(saved, was)
			return err
		})
	})
}

// askName opens the field for a name; nil closes it.
func (c *kitChoice) askName(text string, then func(name string)) {
	c.named = then
	c.name.Rest = text
	c.name.SetText(text)
	if then == nil {
		c.nameRow.Hide()
		ui.Focus(c.k.host, c.pick)
	} else {
		c.nameRow.Show()
		ui.Focus(c.k.host, c.name)
		c.name.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	c.k.refit()
}

func (c *kitChoice) takeName(text string) {
	if c.named != nil {
		c.named(strings.TrimSpace(text))
	}
}

// askAdd keeps the design's values as a kit under a name.
func (c *kitChoice) askAdd() {
	d := c.k.host.Design()
	text := strings.TrimSpace(d.Kit.Name)
	if text == "" {
		text = words.T("{volume} kettle", c.k.host.Say().Format(quantity.Volume, d.Kit.VesselL))
	}
	c.askName(text, func(name string) {
		folder, kit := c.folder(), design.KitOf(c.k.host.Design())
		kit.Kit.Name = name
		c.write(func() (userfile.Kit, error) { return userfile.AddKit(folder, kit) }, func(added userfile.Kit) {
			c.nowOn(added, words.T("“{kit}” is among your kits, and the design brews on it.", added.Name()))
		})
	})
}

// nowOn gives the design a kit's name and says what was done.
func (c *kitChoice) nowOn(kit userfile.Kit, text string) {
	host := c.k.host
	if err := host.Edit(words.T("kit: {name}", kit.Name()), func(d *design.Design) { d.Kit.Name, d.Kit.Formerly = kit.Name(), kit.Kit.Formerly }); err != nil {
		c.say(c.k.host.Say().Why(err), true)
		return
	}
	host.UseKit(kit.Name())
	c.say(text, false)
	if c.k.Shown() {
		c.askName("", nil)
	}
}

// askRename gives the kit another name, in its file and in the design.
func (c *kitChoice) askRename() {
	d := c.k.host.Design()
	s := stateOf(c.kits, &d)
	if !s.there {
		return
	}
	c.askName(s.kit.Name(), func(name string) {
		now := s.kit.KitFile
		now.Kit.Name = name
		c.write(func() (userfile.Kit, error) { return userfile.SaveKit(s.kit, now) }, func(saved userfile.Kit) {
			c.nowOn(saved, words.T("“{old}” is “{new}” now, and what was brewed on it has taught it still. Other designs and batches keep the old name in their files.", s.kit.Name(), saved.Name()))
		})
	})
}

// remove puts the kit's file aside, but never while a design is unsaved on it.
func (c *kitChoice) remove() {
	host := c.k.host
	d := host.Design()
	s := stateOf(c.kits, &d)
	if !s.there {
		return
	}
	if host.Unsaved() {
		c.say(words.T("“{kit}” stays: the design on it is not saved yet. Save it with Ctrl+S, then remove the kit.", s.kit.Name()), true)
		return
	}
	to := ""
	c.write(func() (_ userfile.Kit, err error) {
		to, err = userfile.RemoveKit(s.kit)
		return s.kit, err
	}, func(kit userfile.Kit) {
		c.done(words.T("“{kit}” is removed; its file is {path}. The design keeps its copy of the values.", kit.Name(), to), func() error {
			return userfile.RestoreKit(to, kit.Path)
		})
	})
}

// takeBack undoes what was done to a kit's file.
func (c *kitChoice) takeBack() {
	undo := c.undo
	if undo == nil {
		return
	}
	c.undo = nil
	c.write(func() (userfile.Kit, error) { return userfile.Kit{}, undo() }, func(userfile.Kit) {
		c.say(words.T("Taken back."), false)
	})
}
