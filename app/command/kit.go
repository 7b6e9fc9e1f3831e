package command

import (
	"slices"
	"strconv"
	"strings"

	"skep/app/begin"
	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

type kitCommand struct {
	Name   string   `arg:"" optional:"" name:"NAME" help:"The kit; left out, all of them are listed."`
	Values []string `arg:"" optional:"" name:"KEY=VALUE" help:"What to change: a key of [kit] (vessel_l=18), or water.KEY or batch.altitude_m, or test.MEASUREMENT of a water test. A kit that is not there yet is made."`
	Copy   string   `name:"copy" placeholder:"NEW" help:"Write the kit's values under another name, with the changes; the first one stays."`
	Remove bool     `name:"remove" help:"Move the kit's file aside, to the folder removed beside the others."`
	JSON   bool     `name:"json" help:"Print one JSON object."`
}

func (kitCommand) Detail(say helptext.Speaker) string {
	about := say(message.New(`A kit is a vessel with its losses, heater, thermometer and water, under a name of yours, one file each in your configuration folder. A new design takes a copy of its values. name=NEW gives it another name; "skep help design" has the keys.`))
	test := say(message.New("An hour with plain water fills a kit's numbers in; volumes in litres, °C, minutes:"))
	return about + "\n\n" + helptext.Worked(test+"\n"+testHelp(say), `skep kit "18 L kettle" steam_l_per_h=1.4`)
}

func (c *kitCommand) Run(s *session) error {
	if s.Folder == "" {
		return broken(message.NewError("kit: there is no folder for a person's own files here"))
	}
	folder := userfile.KitsIn(s.Folder)
	kits, problems := userfile.Kits(folder)
	for _, p := range problems {
		s.advise(message.OfError(p))
	}
	if c.Name == "" {
		if c.Copy != "" || c.Remove {
			return misused(message.NewError("kit: say which kit"))
		}
		return c.list(s, kits, folder, problems)
	}
	kit, there := userfile.KitNamed(kits, c.Name)
	switch {
	case !there && (len(c.Values) == 0 || c.Copy != "" || c.Remove):
		return wrong(message.NewError("kit: there is no kit {name}; skep kit lists yours, and {command} makes it", strconv.Quote(c.Name), "skep kit "+quoted(c.Name)+" vessel_l=18"))
	case c.Remove && (len(c.Values) > 0 || c.Copy != ""):
		return misused(message.NewError("kit: --remove stands alone"))
	case c.Remove:
		to, err := userfile.RemoveKit(kit)
		if err != nil {
			return broken(err)
		}
		s.line("{kit} is removed; its file is {path}", kit.Name(), to)
		return nil
	}
	now := kit.KitFile
	if !there {
		now = begin.UsualKit(design.New().Kit.VesselL)
		if v := vesselOf(c.Values); v > 0 { // the rest goes by it, as in the window
			now = begin.UsualKit(v)
		}
		now.Kit.Name = c.Name
	}
	values, measured := cutTest(c.Values)
	if err := setKit(&now, values); err != nil {
		return err
	}
	tested, err := testKit(&now, measured)
	if err != nil {
		return err
	}
	switch {
	case c.Copy != "":
		now.Kit.Name = c.Copy
		kit, err = userfile.AddKit(folder, now)
	case !there:
		kit, err = userfile.AddKit(folder, now)
	case len(c.Values) > 0:
		kit, err = userfile.SaveKit(kit, now)
	}
	if err != nil {
		return wrong(err)
	}
	object := kitObject(&kit)
	object.Test = tested
	if c.JSON {
		return s.json(object)
	}
	for _, r := range tested {
		s.printf("%s=%s: %s\n", r.Key, short(r.Value), s.text(r.Arithmetic))
		if !r.Note.Empty() {
			s.advise(r.Note)
		}
	}
	s.printf("%s\n", kit.Path)
	for _, key := range design.KitKeys() {
		if v := object.Values[key]; v != "" {
			s.printf("%s=%s\n", key, v)
		}
	}
	return nil
}

func (c *kitCommand) list(s *session, kits []userfile.Kit, folder string, problems []error) error {
	if c.JSON {
		all, wrongs := []document.Kit{}, []string{}
		for i := range kits {
			all = append(all, kitObject(&kits[i]))
		}
		for _, p := range problems {
			wrongs = append(wrongs, p.Error())
		}
		return s.json(document.Kits{Folder: folder, Kits: all, Problems: wrongs})
	}
	if len(kits) == 0 {
		s.line("No kit yet: {command} makes one in {folder}", `skep kit "18 L kettle" vessel_l=18`, folder)
		return nil
	}
	rows := [][]string{{words.T("kit"), words.T("vessel, {unit}", s.unit(quantity.Volume)), words.T("efficiency, {unit}", s.unit(quantity.Percent)), words.T("boils away, {unit}", s.unit(quantity.LitresPerHour)), words.T("file")}}
	for i := range kits {
		k := &kits[i]
		rows = append(rows, []string{k.Name(), s.say.Number(quantity.Volume, k.Kit.VesselL), s.say.Number(quantity.Percent, k.Kit.MashEfficiencyPct), s.say.Number(quantity.LitresPerHour, k.Kit.SteamLPerH), k.Path})
	}
	s.printf("%s", helptext.Grid(rows))
	return nil
}

// setKit sets KEY=VALUE, where a key without a table is one of [kit].
func setKit(k *design.KitFile, values []string) error {
	d := design.New()
	k.Into(&d)
	for _, kv := range values {
		key, value, ok := strings.Cut(kv, "=")
		if !ok || key == "" {
			return misused(message.NewError("kit: {argument}: want KEY=VALUE, such as steam_l_per_h=1.4", strconv.Quote(kv)))
		}
		if !strings.Contains(key, ".") {
			key = "kit." + key
		}
		if !slices.Contains(design.KitKeys(), key) {
			return wrong(message.NewError("kit: {key} is no key of a kit: they are those of [kit] and [water], and batch.altitude_m", key))
		}
		if strings.HasPrefix(key, "water.") && d.Water == nil {
			d.Water = design.NewWater()
		}
		if err := d.Set(key, strings.TrimSpace(value)); err != nil {
			return wrong(err)
		}
	}
	*k = design.KitOf(d)
	return nil
}

// vesselOf is the volume that is among the values; 0 where there is none.
func vesselOf(values []string) float64 {
	for _, kv := range values {
		if key, value, _ := strings.Cut(kv, "="); strings.TrimPrefix(key, "kit.") == "vessel_l" {
			v, err := litres(value)
			lim, _ := design.KeyOf("kit.vessel_l")
			if err == nil && v >= lim.Min && v <= lim.Max {
				return v
			}
		}
	}
	return 0
}

func kitObject(k *userfile.Kit) document.Kit {
	d := design.New()
	k.Into(&d)
	out := document.Kit{Name: k.Name(), File: k.Path, Values: map[string]string{}}
	for _, key := range design.KitKeys() {
		if v, err := d.Get(key); err == nil {
			out.Values[key] = v
		}
	}
	return out
}
