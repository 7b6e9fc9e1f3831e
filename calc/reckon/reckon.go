package reckon

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"skep/calc/message"
)

// Field is one argument or one result.
type Field struct {
	Key  string
	Unit string
	// Min and Max bound an argument that is a number; Why says whose range it is.
	Min, Max float64
	Why      string
	// Words are the values of an argument that is no number.
	Words []string
	// Default is taken when an argument is left out; Optional without a default
	// may be left out and then does not count.
	Default  string
	Optional bool
	Note     string
	// Digits are the decimals worth showing of a result.
	Digits int
}

// Required says that the argument cannot be left out.
func (f Field) Required() bool { return f.Default == "" && !f.Optional }

// Range is the argument's range with its unit, or its words, to be read by a person.
func (f Field) Range() message.Message {
	switch low, high := plain(f.Min), plain(f.Max); {
	case len(f.Words) > 0:
		return message.Plain(strings.Join(f.Words, ", "))
	case f.Unit == "":
		return message.New("{low} to {high}", low, high)
	default:
		return message.New("{low} to {high} {unit}", low, high, message.Message{Text: f.Unit})
	}
}

// Texts are what the calculations say of themselves: for the list of texts to
// translate.
func Texts() []string {
	var list []string
	for _, c := range all {
		list = append(list, c.Title(), c.About, c.Source)
		for _, f := range slices.Concat(c.In, c.Out) {
			list = append(append(list, f.Label(), f.Note, f.Why, f.Unit), f.Words...)
		}
	}
	slices.Sort(list)
	return slices.DeleteFunc(slices.Compact(list), func(text string) bool { return text == "" })
}

// Title is the calculation's name as it is read, in English.
func (c Calculation) Title() string {
	if title, ok := titles[c.Name]; ok {
		return title
	}
	return spaced(c.Name)
}

// titles are the names of calculations that are read otherwise than their keys.
var titles = map[string]string{
	"plato": "SG to °P", "gravity": "°P to SG", "co2-water": "CO2 in water",
	"isomerise": "isomerisation of hops", "brix-temperature": "Brix and temperature",
}

// labels are the names of fields that are read otherwise than their keys.
var labels = map[string]string{
	"sg": "gravity", "plato": "extract", "real_extract_plato": "real extract",
	"abw_pct": "alcohol by weight", "energy_kj_per_l": "energy", "honey_density_kg_l": "honey density",
	"ibu": "bitterness", "iso_pct": "isomerised", "surface_cm2": "surface",
	"pressure_kpa": "pressure", "pressure_bar_gauge": "gauge pressure", "pressure_bar_absolute": "absolute pressure",
	"volumes_co2": "volumes of CO2", "volumes_co2_high": "volumes of CO2, high", "fall_points_high": "fall in points, high",
	"g_per_l": "dissolved CO2", "primer_g_per_l": "primer per litre", "hops_g_per_l": "hops per litre", "sugar_g_per_l": "sugar per litre",
	"calcium_mg_l": "calcium", "magnesium_mg_l": "magnesium", "sodium_mg_l": "sodium",
	"chloride_mg_l": "chloride", "sulphate_mg_l": "sulphate", "bicarbonate_mg_l": "bicarbonate",
}

// Label is the field's name as it is read, in English, without the unit at its end,
// which stands beside it.
func (f Field) Label() string {
	if label, ok := labels[f.Key]; ok {
		return label
	}
	name := f.Key
	for _, unit := range []string{"_c", "_l", "_g", "_kg", "_ml", "_pct", "_min", "_h", "_m", "_sg", "_bx", "_ebc", "_w", "_bar", "_mm", "_ppm", "_kj_per_k", "_l_per_kg", "_l_per_h", "_l_per_min", "_kw"} {
		if s, ok := strings.CutSuffix(name, unit); ok && len(s) > 2 {
			name = s
			break
		}
	}
	return spaced(name)
}

// spaced is a key as it is read: "duty strength".
func spaced(key string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(key) }

// Calculation is one of the list.
type Calculation struct {
	Name   string
	About  string // what it does and when not to trust it
	Source string // where the formula comes from
	In     []Field
	Out    []Field

	do func(a *args) []float64 // one result for each of Out
}

// Value is one result.
type Value struct {
	Key    string
	Value  float64
	Unit   string
	Digits int // decimals worth showing
}

// String is the value as a person reads it, without its unit.
func (v Value) String() string { return strconv.FormatFloat(v.Value, 'f', v.Digits, 64) }

// UsageError says that the question itself is wrong: an unknown or missing name.
type UsageError struct{ message.Message }

func (e *UsageError) Error() string { return e.String() }

// AsMessage is for a person's language.
func (e *UsageError) AsMessage() message.Message { return e.Message }

// InputError says that a value is wrong.
type InputError struct {
	Key string
	message.Message
}

func (e *InputError) Error() string { return e.String() }

// AsMessage is for a person's language.
func (e *InputError) AsMessage() message.Message { return e.Message }

// List is every calculation, in the order of a brew.
func List() []Calculation { return slices.Clone(all) }

// find gives a calculation by its name.
func find(name string) (Calculation, error) {
	for _, c := range all {
		if c.Name == name {
			return c, nil
		}
	}
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = c.Name
	}
	return Calculation{}, &UsageError{message.New("there is no calculation {name}; there are {names}", strconv.Quote(name), strings.Join(names, ", "))}
}

// Do runs a calculation on arguments as they were typed.
func Do(name string, in map[string]string) ([]Value, error) {
	c, err := find(name)
	if err != nil {
		return nil, err
	}
	a, err := c.read(in)
	if err != nil {
		return nil, err
	}
	results := c.do(a)
	if a.err != nil {
		return nil, a.err
	}
	if len(results) != len(c.Out) {
		return nil, message.Fault("%s gave %d results for %d names", name, len(results), len(c.Out))
	}
	out := make([]Value, len(results))
	for i, r := range results {
		if math.IsNaN(r) || math.IsInf(r, 0) {
			return nil, &InputError{c.Out[i].Key, message.New("{key} cannot be computed from these values", c.Out[i].Key)}
		}
		out[i] = Value{c.Out[i].Key, r + 0, c.Out[i].Unit, c.Out[i].Digits} // + 0: no negative zero
	}
	return out, nil
}

// read checks what was typed against the calculation's arguments.
func (c Calculation) read(in map[string]string) (*args, error) {
	known := make([]string, len(c.In))
	for i, f := range c.In {
		known[i] = f.Key
	}
	given := make([]string, 0, len(in))
	for key := range in {
		given = append(given, key)
	}
	slices.Sort(given)
	for _, key := range given {
		if !slices.Contains(known, key) {
			return nil, &UsageError{message.New("{name} knows no {key}; it takes {keys}", c.Name, strconv.Quote(key), strings.Join(known, ", "))}
		}
	}
	a := &args{numbers: map[string]float64{}, words: map[string]string{}}
	var missing []string
	for _, f := range c.In {
		text, ok := in[f.Key]
		text = strings.TrimSpace(text)
		switch {
		case !ok && f.Required():
			missing = append(missing, f.Key)
			continue
		case !ok && f.Default == "":
			a.numbers[f.Key] = math.NaN()
			continue
		case !ok:
			text = f.Default
		}
		if err := a.take(f, text); err != nil {
			return nil, err
		}
	}
	if len(missing) > 0 {
		return nil, &UsageError{message.New("{name} also needs {keys}", c.Name, strings.Join(missing, ", "))}
	}
	return a, nil
}

// args are the arguments of one run. A calculation that finds more wrong with
// them says so by fail.
type args struct {
	numbers map[string]float64
	words   map[string]string
	err     error
}

func (a *args) num(key string) float64 { return a.numbers[key] }
func (a *args) word(key string) string { return a.words[key] }

// fail keeps the first error and gives nothing.
func (a *args) fail(key, text string, with ...any) []float64 {
	if a.err == nil {
		a.err = &InputError{key, message.New(text, with...)}
	}
	return nil
}

func (a *args) take(f Field, text string) error {
	if len(f.Words) > 0 {
		word := strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(text))
		if !slices.Contains(f.Words, word) {
			return &InputError{f.Key, message.New("{key} = {value} is none of {words}", f.Key, strconv.Quote(text), f.Range())}
		}
		a.words[f.Key] = word
		return nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) {
		if strings.Contains(text, ",") {
			return &InputError{f.Key, message.New("{key} = {value} is not a number; write decimals with a point; it takes {range}", f.Key, strconv.Quote(text), f.Range())}
		}
		return &InputError{f.Key, message.New("{key} = {value} is not a number; it takes {range}", f.Key, strconv.Quote(text), f.Range())}
	}
	if !(v >= f.Min && v <= f.Max) {
		return &InputError{f.Key, message.New("{key} = {value} is outside {range}: {why}", f.Key, text, f.Range(), message.Message{Text: f.Why})}
	}
	a.numbers[f.Key] = v
	return nil
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
