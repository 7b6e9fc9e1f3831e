// Package shell is the window without its places: the design that is edited,
// the person's units, what the ledger has taught, the line at the foot and the
// dialogs. It is the [ui.Host] that every place stands in.
//
// Edits and texts come in; the design, and what the window was told, go out. It
// must not know a place: what is to happen at a change, the window hangs in.
package shell

import (
	"time"

	"fyne.io/fyne/v2"

	"skep/app/disk"
	"skep/app/editor"
	"skep/app/look"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/learn"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/plotting/style"
)

// Shell holds what all places share. Its fields and methods belong to Fyne's
// goroutine, but for Do.
type Shell struct {
	App     fyne.App
	Prefs   *Preferences
	Editor  *editor.Editor
	Status  *Status
	Lessons *learn.Lessons // from the ledger; nil: nothing yet

	// OnChanged shows a changed design in the window, OnPost asks the place that
	// is shown for a new picture.
	OnChanged, OnPost func()
	OnStart           func()           // asks what the person has; nil: nobody does
	OnHelp            func()           // F1
	OnMend            func(key string) // leads to where a key's value is changed
	Demo              bool             // the design was opened as a demonstration

	Clock       func() time.Time // that readings and the beer go by
	Closing     bool             // the window is going: nothing more is shown
	Levers      lever.At         // which mash rest and which honey the levers move
	StrainsFile string           // a person's own strains
	OwnFolder   string           // of a person's own files: kits, and what is on their shelf

	window    fyne.Window
	catalogue assets.Catalogue
	own       []design.Yeast    // a person's own strains, as they were read last
	notes     map[string]string // what strains taste of, by name
	say       ui.Formatter
	read      ui.Parser
	overs     []*over
	glasses   glasses // what was tasted blind; nothing until it is read
	moving    bool    // a lever is on its way
	disk      *disk.Disk
	visit     int             // see Visit
	lost      map[string]bool // the files of which was said what a save could not keep
	do        func(func())
}

var _ ui.Host = (*Shell)(nil)

// New makes a window on a demonstration. do hands work over to Fyne's
// goroutine: fyne.Do, or a queue that a test empties itself.
func New(a fyne.App, p *Preferences, do func(func())) *Shell {
	s := &Shell{App: a, Prefs: p, window: a.NewWindow("Skep"), do: do, StrainsFile: userfile.StrainsPath(), OwnFolder: userfile.Folder(), Clock: time.Now, glasses: hear(userfile.Glasses{}, nil),
		OnChanged: func() {}, OnPost: func() {}, Demo: true}
	s.SetUnits()
	s.window.Canvas().SetOnTypedKey(s.typedKey)
	var err error
	if s.catalogue, err = assets.LoadCatalogue(); err != nil {
		fyne.LogError("the catalogue inside the program can't be read", err)
	}
	s.catalogue.Translate(words.Listed)
	src, err := assets.Demo(assets.DemoMiddle)
	if err == nil {
		s.Editor, err = editor.New(assets.DemoMiddle, src)
	}
	if err != nil {
		// Only a broken build comes here; an empty window would be worse.
		panic(err)
	}
	s.Editor.Changed = func() { s.Changed() }
	s.Status = newStatus(s)
	return s
}

// SetUnits makes the one formatter and the one parser for the chosen units.
func (s *Shell) SetUnits() {
	s.say, s.read = ui.NewFormatter(s.Prefs.Units), ui.NewParser(s.Prefs.Units)
	if s.Status != nil {
		s.Status.update()
	}
}

// Say writes in the person's units.
func (s *Shell) Say() ui.Formatter { return s.say }

// Read reads what a person typed.
func (s *Shell) Read() ui.Parser { return s.read }

// Hint shows what is under the pointer.
func (s *Shell) Hint(text string) { s.Status.hint(text) }

// ShowMessage says what was done.
func (s *Shell) ShowMessage(text string) { s.Status.show(text) }

// Warn says what could not be done, and why.
func (s *Shell) Warn(text string) { s.Status.warn(text) }

// SaySaved says that a file is saved, and, once for each file, what of the one that was
// there could not be kept.
func (s *Shell) SaySaved(path string, lost savefile.Lost) {
	if lost.None() || s.lost[path] {
		s.ShowMessage(words.T("Saved {path}", path))
		return
	}
	if s.lost == nil {
		s.lost = map[string]bool{}
	}
	s.lost[path] = true
	s.Warn(s.Say().Message(lost.Of(path)))
}

// Withdraw takes back a warning that holds no more.
func (s *Shell) Withdraw(text string) {
	if shown, bad := s.Status.Shown(); bad && shown == text {
		s.Status.show("")
	}
}

// Window is for dialogs and the keyboard.
func (s *Shell) Window() fyne.Window { return s.window }

// Do runs f on Fyne's goroutine, unless the window is going.
func (s *Shell) Do(f func()) {
	s.do(func() {
		if !s.Closing {
			f()
		}
	})
}

// Changed shows the design anew.
func (s *Shell) Changed() {
	if !s.Closing {
		s.OnChanged()
	}
}

// Post asks for a new picture.
func (s *Shell) Post() {
	if !s.Closing {
		s.OnPost()
	}
}

// Catalogue is what the program knows of ingredients.
func (s *Shell) Catalogue() assets.Catalogue { return s.catalogue }

// Offers reads the strains that may be brewed with.
func (s *Shell) Offers(take func(list []userfile.Offer, err error)) {
	path, catalogue := s.StrainsFile, s.catalogue
	s.disk.Ask(disk.Own, words.T("Reading {file}…", path), func() func() {
		list, err := userfile.Offers(path, catalogue)
		return func() {
			s.offered(list)
			if err != nil {
				err = message.NewError("Your own strains are left out: {why}", err)
			}
			take(list, err)
		}
	})
}

// offered keeps what is asked of strains at every move of a lever.
func (s *Shell) offered(list []userfile.Offer) {
	s.own, s.notes = nil, map[string]string{}
	for _, o := range list {
		if _, known := s.notes[o.Strain.Name]; !known {
			s.notes[o.Strain.Name] = o.Note
		}
		if o.Own {
			s.own = append(s.own, o.Strain)
		}
	}
}

// StrainNote is what a strain tastes of, as it was read last.
func (s *Shell) StrainNote(name string) string { return s.notes[name] }

// AddOwn writes a strain to the person's own file.
func (s *Shell) AddOwn(y design.Yeast, then func(error)) {
	path := s.StrainsFile
	s.Write(disk.Own, path, func() error { return userfile.AddStrain(path, y, design.About{}) }, then)
}

// OwnPath is that file.
func (s *Shell) OwnPath() string { return s.StrainsFile }

// Own are a person's own strains as they were read last.
func (s *Shell) Own() []design.Yeast { return s.own }

// ShelfFolder is where those files lie.
func (s *Shell) ShelfFolder() string { return s.OwnFolder }

// KeepKit keeps the kit of a new design among the person's own, if none of that
// name is there, and as the one used last.
func (s *Shell) KeepKit(k design.KitFile) {
	folder := userfile.KitsIn(s.OwnFolder)
	s.Write(disk.Own, folder, func() error {
		kits, _ := userfile.Kits(folder)
		if _, ok := userfile.KitNamed(kits, k.Kit.Name); ok {
			return nil
		}
		_, err := userfile.AddKit(folder, k)
		return err
	}, func(err error) {
		if err != nil {
			s.Warn(s.Say().Why(err))
			return
		}
		s.UseKit(k.Kit.Name)
	})
}

// UseKit keeps which kit was used last: the next new design takes it.
func (s *Shell) UseKit(name string) {
	s.Prefs.Kit = name
	s.SavePrefs()
}

// Unsaved says whether there is anything that a save would keep.
func (s *Shell) Unsaved() bool { return s.Editor.Unsaved() }

// Palette is the pictures' palette on the panels' own ground.
func (s *Shell) Palette() style.Palette {
	l := look.PaletteOf(s.App.Settings().Theme(), s.App.Settings().ThemeVariant())
	p := style.Light()
	if l.Dark {
		p = style.Dark()
	}
	p.Ground, p.Ink, p.Muted, p.Grid, p.Accent, p.Ghost = l.Panel, l.Ink, l.Quiet, l.Grid, l.Accent, l.Ghost
	return p
}
