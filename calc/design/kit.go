package design

import (
	"reflect"
	"strings"
	"sync"

	"skep/calc/design/internal/schema"
	"skep/calc/message"
)

// KitFile is a vessel under a name that a person gave it, with the water that it
// is filled with and how high it stands. Its keys are those of the design file;
// what is left out has the design's default.
type KitFile struct {
	Format int      `toml:"format"`
	Batch  KitPlace `toml:"batch"`
	Kit    Kit      `toml:"kit"`
	Water  *Water   `toml:"water"` // nil: not told
}

// KitPlace is what of a batch belongs to the kit.
type KitPlace struct {
	AltitudeM float64 `toml:"altitude_m"`
}

var kitSchema = sync.OnceValue(func() *schema.Schema {
	var keys []Key
	for _, k := range keyTable() {
		switch {
		case k.Path == "format":
			k.Required = false
		case k.Path == "kit.name":
			k.Required = true
		case k.Path == "batch.altitude_m", strings.HasPrefix(k.Path, "kit."), strings.HasPrefix(k.Path, "water."):
		default:
			continue
		}
		keys = append(keys, k)
	}
	return schema.New(reflect.TypeOf(KitFile{}), keys)
})

// KitSchema is how the keys belong to the fields of a [KitFile]: for package file.
func KitSchema() *schema.Schema { return kitSchema() }

// NewKit is a kit with every default and no name.
func NewKit() KitFile { return kitSchema().Root.Fresh().Interface().(KitFile) }

// Judge finds fault with a kit; report is that of [Design.Judge].
func (k *KitFile) Judge(_ func(path string) bool, report func(sev Severity, path string, msg message.Message)) {
	c := &checker{report, longList}
	c.table(kitSchema().Root, reflect.ValueOf(k).Elem(), nil)
	if strings.TrimSpace(k.Kit.Name) == "" {
		c.error("kit.name", "a kit needs a name to be chosen by")
	}
}

// KitOf is the kit of a design. What is added to the water belongs to the brew,
// and stays there.
func KitOf(d Design) KitFile {
	k := NewKit()
	k.Kit, k.Batch.AltitudeM = d.Kit, d.Batch.AltitudeM
	if d.Water != nil {
		w := liquor(*d.Water)
		k.Water = &w
	}
	return k
}

// Into puts a kit in the place of a design's own.
func (k *KitFile) Into(d *Design) {
	d.Kit, d.Batch.AltitudeM = k.Kit, k.Batch.AltitudeM
	switch {
	case k.Water == nil:
	case d.Water == nil:
		w := liquor(*k.Water)
		d.Water = &w
	default:
		w, was := liquor(*k.Water), *d.Water
		w.GypsumG, w.CalciumChlorideG, w.EpsomG, w.TableSaltG, w.BakingSodaG = was.GypsumG, was.CalciumChlorideG, was.EpsomG, was.TableSaltG, was.BakingSodaG
		w.LacticAcid88ML, w.MashPHWanted = was.LacticAcid88ML, was.MashPHWanted
		d.Water = &w
	}
}

// Names are what the kit is called and was called before.
func (k *Kit) Names() []string {
	names := []string{strings.TrimSpace(k.Name)}
	for _, was := range strings.Split(k.Formerly, formerlyGap) {
		if was = strings.TrimSpace(was); was != "" {
			names = append(names, was)
		}
	}
	return names
}

// formerlyGap stands between the names that a kit had before.
const formerlyGap = ";"

// Rename gives the kit another name and remembers the one it had.
func (k *Kit) Rename(name string) {
	was := strings.ReplaceAll(k.Names()[0], formerlyGap, ",")
	if all := strings.Trim(k.Formerly+formerlyGap+" "+was, formerlyGap+" "); len([]rune(all)) <= nameLimit {
		k.Formerly = all
	}
	k.Name = name
}

// KitKeys are the paths of what a kit is, in its file's order. What is added to the
// water, and the pH that is wanted, belong to a brew.
func KitKeys() (paths []string) {
	for _, k := range Keys() {
		if strings.HasPrefix(k.Path, "kit.") || k.Path == "batch.altitude_m" ||
			strings.HasPrefix(k.Path, "water.") && k.Unit != "g" && k.Unit != "mL" && k.Name() != "mash_ph_wanted" {
			paths = append(paths, k.Path)
		}
	}
	return paths
}

// liquor is a water before additions, with the acid at hand.
func liquor(w Water) Water {
	return Water{Calcium: w.Calcium, Magnesium: w.Magnesium, Sodium: w.Sodium, Chloride: w.Chloride, Sulphate: w.Sulphate,
		Bicarbonate: w.Bicarbonate, Acid: w.Acid}
}

// Same tells whether a design brews with just these values.
func (k *KitFile) Same(d *Design) bool {
	with := d.Clone()
	k.Into(&with)
	return with.Equal(*d)
}
