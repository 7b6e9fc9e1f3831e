// Package vessel has what the Brew place says and asks about the vessel: its picture
// with the mash in it, and the drawers of its values, of the person's kits, of the
// water test and of scaling.
//
// The design comes from the window; edits go to it, and kits to the person's folder.
// It must not know the day, nor the physics behind a number.
package vessel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/disk"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/scale"
)

// Window is what the vessel asks of the window beside what every place does.
type Window interface {
	ui.Host
	Unsaved() bool      // there is something that a save would keep
	UseKit(name string) // the next new design takes this kit
}

// Vessel has the drawers, of which one is open at a time.
type Vessel struct {
	host  Window
	kit   *kitDrawer        // as last opened; nil: not yet
	typed map[string]string // into the water test, by measurement
}

// New is a vessel whose drawers are closed.
func New(host Window) *Vessel { return &Vessel{host: host, typed: map[string]string{}} }

// Sync shows the design in the drawer that is open.
func (v *Vessel) Sync() {
	if v.kit != nil && v.kit.Shown() {
		v.kit.sync()
	}
}

// Differs hands over the name of the kit from which the design's copy differs, if it
// does.
func (v *Vessel) Differs(take func(kit string)) {
	v.kits(func(kits []userfile.Kit, _ []error) {
		d := v.host.Design()
		if s := stateOf(kits, &d); len(s.differs) > 0 {
			take(s.kit.Name())
		}
	})
}

// kits reads the person's kits.
func (v *Vessel) kits(take func(kits []userfile.Kit, problems []error)) {
	folder := userfile.KitsIn(v.host.ShelfFolder())
	v.host.Disk().Ask(disk.Own, words.T("Reading {file}…", folder), func() func() {
		kits, problems := userfile.Kits(folder)
		return func() { take(kits, problems) }
	})
}

// kitDrawer is the vessel, and scaling to another volume or strength.
type kitDrawer struct {
	*ui.Drawer
	v      *Vessel
	host   Window
	choice *kitChoice
	fields map[string]*ui.Field
	note   *ui.Paragraph

	remarks ui.Remarks

	volume, strength *ui.Entry
	message          *ui.Paragraph
	engine           *calc.Engine
}

// kitKeys are what the vessel has, in the order of the day.
func kitKeys() [][2]string {
	return [][2]string{
		{"kit.vessel_l", words.T("mash vessel")}, {"kit.heater_w", words.T("heater")},
		{"kit.vessel_heat_kj_per_k", words.T("heat the vessel takes")}, {"kit.rest_error_c", words.T("error of the rest")},
		{"kit.mash_efficiency_pct", words.T("mash efficiency")}, {"kit.under_the_bed_l", words.T("under the bed")},
		{"kit.held_by_grain_l_per_kg", words.T("held by grain")}, {"kit.steam_l_per_h", words.T("boils away")},
		{"kit.left_with_break_l", words.T("left with hops and break")}, {"kit.left_in_chiller_l", words.T("left in the chiller")},
		{"kit.tap_c", words.T("tap water")}, {"kit.fermenter_l", words.T("fermenter")},
		{"kit.thermometer_reads_high_k", words.T("thermometer reads too high by")},
	}
}

// Open opens the drawer of its values, at a key where one is given.
func (v *Vessel) Open(key string) { v.open(key) }

func (v *Vessel) open(key string) *kitDrawer {
	k := &kitDrawer{v: v, host: v.host, fields: map[string]*ui.Field{}, engine: calc.NewEngine()}
	leave := func() { k.Close() }
	k.note, k.message = ui.NewParagraph("", 13, ui.InkWarning), ui.NewParagraph("", 13, ui.InkFull)
	rows := container.New(&ui.FieldsLayout{})
	d := k.host.Design()
	k.choice = newKitChoice(k)
	for _, pair := range kitKeys() {
		path, label := pair[0], pair[1]
		f := ui.NewField(k.host, func() string { return path }, func() string { return label })
		f.Note = func(text string, bad bool) { k.answer(k.note, k.remarks.Note(f, text), bad) }
		f.Leave = leave
		f.SetSeen(func(o fyne.CanvasObject) {
			if k.Drawer != nil {
				k.Reveal(o)
			}
		})
		f.Sync(&d)
		k.fields[path] = f
		rows.Add(ui.NewCaption(label, 13, false, ui.InkQuiet))
		rows.Add(f)
	}
	k.volume, k.strength = ui.NewEntry(k.host), ui.NewEntry(k.host)
	k.volume.Leave, k.strength.Leave = leave, leave
	k.volume.Name, k.strength.Name = words.T("scale to a volume into the fermenter"), words.T("scale to a strength")
	k.volume.SetPlaceHolder(k.host.Say().Format(quantity.Volume, d.Batch.IntoFermenterL))
	k.strength.SetPlaceHolder(words.T("as it is"))
	scale := ui.NewButton(words.T("Scale"), k.scale)
	k.volume.Restored = func() { k.answer(k.message, "", false) }
	k.strength.Restored = k.volume.Restored
	k.volume.OnSubmitted = func(string) { k.scale() }
	k.strength.OnSubmitted = func(string) { k.scale() }
	scaling := container.New(&ui.FieldsLayout{},
		ui.NewCaption(words.T("into the fermenter"), 13, false, ui.InkQuiet), k.volume,
		ui.NewCaption(words.T("strength"), 13, false, ui.InkQuiet), k.strength)
	parts := append(k.choice.parts(), rows, k.note,
		ui.NewCaption(words.T("The same beer, scaled"), look.TitleSize, true, ui.InkFull),
		ui.NewParagraph(words.T("Grain and honey grow together until the strength comes out, hops until the bitterness is what it was, salts with the liquor."), 13, ui.InkQuiet),
		scaling, k.message, container.NewHBox(scale))
	k.Drawer = ui.NewDrawer(k.host, words.T("The vessel"), 500, parts...)
	v.kit = k
	k.choice.read(func() {
		d := k.host.Design()
		k.choice.sync(&d)
	})
	k.choice.sync(&d)
	first := k.fields["kit.vessel_l"]
	if f, ok := k.fields[key]; ok {
		first = f
	}
	k.host.Window().Canvas().Focus(first)
	return k
}

func (k *kitDrawer) answer(l *ui.Paragraph, text string, bad bool) {
	l.Ink = ui.InkFull
	if bad {
		l.Ink = ui.InkWarning
		k.host.Warn(text)
	} else if l.Text != text {
		k.host.Withdraw(l.Text)
	}
	l.SetText(text)
	k.refit()
	l.Refresh()
}

// refit shows the drawer at the height of what it has to say now.
func (k *kitDrawer) refit() {
	if k.Drawer != nil {
		k.Fit()
	}
}

// sync shows the design in the drawer.
func (k *kitDrawer) sync() {
	d := k.host.Design()
	for _, f := range k.fields {
		f.Sync(&d)
	}
	k.choice.sync(&d)
}

// scale makes the same beer in another volume or strength.
func (k *kitDrawer) scale() {
	b := k.host
	d := b.Design()
	volume, strength, err := k.wanted(&d)
	var out design.Design
	if err == nil {
		out, err = scale.To(k.engine, d, volume, strength)
	}
	if err != nil {
		k.answer(k.message, b.Say().Why(err), true)
		return
	}
	name := words.T("scale to {volume}", b.Say().Format(quantity.Volume, volume))
	if err := b.Edit(name, func(d *design.Design) { *d = out }); err != nil {
		k.answer(k.message, b.Say().Why(err), true)
		return
	}
	grain := 0.0
	for _, g := range out.Grain {
		grain += g.MassKg
	}
	k.answer(k.message, words.T("Scaled: {volume}, {grain} of grain, {honey} of honey. Undo takes it back.", b.Say().Format(quantity.Volume, volume), b.Say().Format(quantity.MassKg, grain), b.Say().Format(quantity.MassKg, out.HoneyBesideKg(-1))), false)
	k.volume.SetText("")
	k.strength.SetText("")
	k.volume.SetPlaceHolder(b.Say().Format(quantity.Volume, volume))
}

// wanted reads the two fields; an empty one stays as it is.
func (k *kitDrawer) wanted(d *design.Design) (volume, strength float64, err error) {
	b := k.host
	volume = d.Batch.IntoFermenterL
	if k.volume.Text != "" {
		key, _ := design.KeyOf("batch.into_fermenter_l")
		r, err := b.Read().Parse(quantity.Volume, k.volume.Text, ui.LimitsOf(key))
		if err != nil {
			return 0, 0, ui.Named(words.T("volume"), err)
		}
		volume = r.Value
	}
	if k.strength.Text != "" {
		r, err := b.Read().Parse(quantity.Strength, k.strength.Text, quantity.Limits{Low: 0.5, High: 20})
		if err != nil {
			return 0, 0, ui.Named(words.T("strength"), err)
		}
		strength = r.Value
	}
	if k.volume.Text == "" && k.strength.Text == "" {
		return 0, 0, message.NewError("type a volume, a strength, or both")
	}
	return volume, strength, nil
}
