package shell

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"github.com/BurntSushi/toml"

	"skep/app/disk"
	"skep/app/locale"
	"skep/app/look"
	"skep/app/savefile"
	"skep/calc/quantity"
)

// Preferences are a person's own, kept between starts in a file of theirs; a
// design file knows nothing of them.
type Preferences struct {
	Units         quantity.Units
	Language      string // as BCP 47 tags it, "de"; empty: the system's
	Mode          look.Mode
	Strong        bool     // more contrast
	ReducedMotion bool     // nothing glides
	SizePct       int      // of all that is drawn; 0: as the desktop says
	Whole         bool     // the landing plane shows 0 to 100, not the closer look
	Ledger        string   // the folder of finished batches; empty: the usual one
	LeftOut       []string // batches not to learn from, by file
	LessonsOff    []string // lessons not to use, by key
	Kit           string   // the name of the kit that was used last
	Last          string   // the file that was open when the window closed
	Recent        []string // files that were open, the latest first

	path string
	read map[string]any // what the file held, unknown keys too
}

const (
	keyUnits      = "units"
	keyLanguage   = "language"
	keyMode       = "appearance"
	keyStrong     = "high_contrast"
	keyStill      = "reduced_motion"
	keySize       = "size_pct"
	keyLast       = "last_file"
	keyKit        = "last_kit"
	keyWhole      = "whole_plane"
	keyLedger     = "ledger_folder"
	keyLeftOut    = "batches_left_out"
	keyLessonsOff = "lessons_left_out"
	keyRecent     = "recent_files"
)

// MostSizePct is how large everything can be drawn (WCAG 2.2, 1.4.4).
const MostSizePct = 200

// Theme is how the window looks.
func (p *Preferences) Theme() fyne.Theme {
	if p.Strong {
		return look.NewStrong(p.Mode)
	}
	return look.New(p.Mode)
}

// LoadPreferences reads what was kept at a path. Where nothing is there yet it
// takes over what can be read of old, the toolkit's file in which they were kept
// before. What can't be read is as if it had never been chosen: a lost choice is
// no disaster, a window that does not open is one.
func LoadPreferences(path, old string) *Preferences {
	p := &Preferences{path: path}
	src, err := savefile.Read(path)
	if err != nil {
		p.read = readOld(old)
	} else {
		p.read = readLenient(string(src))
	}
	p.Language = textOf(p.read[keyLanguage])
	p.Units, _ = quantity.DecodeUnits(textOf(p.read[keyUnits]))
	p.Mode = look.ModeFrom(textOf(p.read[keyMode]))
	p.Strong, _ = p.read[keyStrong].(bool)
	p.ReducedMotion, _ = p.read[keyStill].(bool)
	if size, _ := p.read[keySize].(int64); size >= 100 && size <= MostSizePct {
		p.SizePct = int(size)
	}
	p.Last, p.Kit = textOf(p.read[keyLast]), textOf(p.read[keyKit])
	p.Whole, _ = p.read[keyWhole].(bool)
	p.Ledger = textOf(p.read[keyLedger])
	p.LeftOut = textsOf(p.read[keyLeftOut])
	p.LessonsOff = textsOf(p.read[keyLessonsOff])
	p.Recent = textsOf(p.read[keyRecent])
	return p
}

// readLenient reads a file of preferences: as a whole, or, where a person's hand
// broke it, each line that can be read.
func readLenient(src string) map[string]any {
	all := map[string]any{}
	if _, err := toml.Decode(src, &all); err == nil {
		return all
	}
	all = map[string]any{}
	for line := range strings.Lines(src) {
		one := map[string]any{}
		if _, err := toml.Decode(line, &one); err == nil {
			maps.Copy(all, one)
		}
	}
	return all
}

// readOld reads the toolkit's preferences, whose keys have spaces.
func readOld(path string) map[string]any {
	all := map[string]any{}
	src, err := savefile.Read(path)
	if err != nil {
		return all
	}
	was := map[string]any{}
	_ = json.Unmarshal(src, &was) // what can't be read is not there
	for _, key := range []string{keyUnits, keyMode, keyLast, keyWhole, keyLedger, keyLeftOut, keyLessonsOff} {
		if v, ok := was[strings.ReplaceAll(key, "_", " ")]; ok {
			all[key] = v
		}
	}
	return all
}

func textOf(v any) string {
	s, _ := v.(string)
	return s
}

// textsOf are the texts of a list, whatever else is in it.
func textsOf(v any) (all []string) {
	list, _ := v.([]any)
	for _, e := range list {
		if s, ok := e.(string); ok {
			all = append(all, s)
		}
	}
	return all
}

// Speak makes the language that was chosen that of the process, before its first
// text, and takes over what people who speak it are used to where no units were
// ever chosen. Fyne's own texts follow where it reads the environment.
func (p *Preferences) Speak() {
	if p.Language != "" && os.Getenv(locale.Variable) == "" {
		_ = os.Setenv(locale.Variable, p.Language) // fails for a name with = or NUL only
	}
	speakToolkit()
	if _, chosen := p.read[keyUnits]; !chosen {
		p.Units = locale.Current().Units
	}
}

// Save keeps them, whole or not at all.
func (p *Preferences) Save() error { return p.saving()() }

// saving is Save as they are now, to be done beside the window.
func (p *Preferences) saving() (save func() error) {
	all := maps.Clone(p.read)
	// Units that nobody chose follow the language.
	if all[keyUnits] = p.Units.Encode(); p.Units == locale.Current().Units {
		delete(all, keyUnits)
	}
	if all[keyLanguage] = p.Language; p.Language == "" {
		delete(all, keyLanguage)
	}
	all[keyMode] = p.Mode.String()
	all[keyLast] = strings.ToValidUTF8(p.Last, "?")
	all[keyKit] = strings.ToValidUTF8(p.Kit, "?")
	all[keyStrong], all[keyStill] = p.Strong, p.ReducedMotion
	delete(all, keySize)
	if p.SizePct != 0 {
		all[keySize] = p.SizePct
	}
	all[keyWhole] = p.Whole
	all[keyLedger] = p.Ledger
	all[keyLeftOut] = append([]string{}, p.LeftOut...)
	all[keyLessonsOff] = append([]string{}, p.LessonsOff...)
	recent := []string{}
	for _, path := range p.Recent {
		recent = append(recent, strings.ToValidUTF8(path, "?"))
	}
	all[keyRecent] = recent
	path := p.path
	return func() error { return writeValues(path, all) }
}

func writeValues(path string, all map[string]any) error {
	var text bytes.Buffer
	text.WriteString("# What was chosen in Skep's window.\n")
	if err := toml.NewEncoder(&text).Encode(all); err != nil {
		return &savefile.Error{Doing: savefile.Saving, Path: path, Err: err}
	}
	if was, err := savefile.Read(path); err == nil && bytes.Equal(was, text.Bytes()) {
		return nil
	}
	const folderMode = 0o755
	if err := savefile.MakeFolder(filepath.Dir(path), folderMode); err != nil {
		return &savefile.Error{Doing: savefile.Saving, Path: path, Err: err}
	}
	return savefile.Write(path, text.Bytes())
}

// Opened notes the file that is open, for the next start and for opening it again.
func (p *Preferences) Opened(path string) {
	const most = 10
	p.Last = path
	p.Recent = append([]string{path}, slices.DeleteFunc(p.Recent, func(r string) bool { return r == path })...)
	p.Recent = p.Recent[:min(len(p.Recent), most)]
}

// SavePrefs keeps the preferences; the foot of the window says why it can't.
func (s *Shell) SavePrefs() {
	s.Write(disk.Own, s.Prefs.path, s.Prefs.saving(), func(err error) {
		if err != nil {
			s.Warn(s.Say().Why(err))
		}
	})
}
