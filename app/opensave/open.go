// Package opensave is what becomes of the window's design on the disk: opened, saved,
// brought back after a crash, and asked about before changes of it are lost.
//
// Paths and answers of the person come in; what the rest of the window has to do about
// it goes out through [Hooks]. It must not know a place, nor how a file is written.
package opensave

import (
	"errors"
	"path/filepath"

	"fyne.io/fyne/v2"

	"skep/app/begin"
	"skep/app/disk"
	"skep/app/editor"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/ui/filedialog"
	"skep/app/ui/picker"
	"skep/app/words"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/start"
)

// Hooks are what the rest of the window does when its design is another.
type Hooks struct {
	Opened  func() // another design stands in the editor
	Saved   func() // the design is on the disk
	ToTaste func() // shows the first place
	Focus   func() // gives the keyboard to the place that is shown
	// Card asks for the answers of a first design.
	Card func(begin.Choices, start.Answers, design.KitFile)
}

// Files are the design of one window on the disk. They belong to the toolkit's
// goroutine; the disk is waited for beside it.
type Files struct {
	*shell.Shell
	Keeper *editor.Keeper // of the editor's work: recovery file, lock, previous version
	Hooks  Hooks

	demoBeer   bool   // the club's fermentation is shown
	beforeDemo string // the file that was open before it; empty: none

	reading   int      // files that were asked for and have not come yet
	openings  int      // counts what was asked to be opened: the newest wins
	saving    bool     // a save is on its way
	afterSave []func() // what waits for it
	agreed    bool     // the person closed the window and was asked about unsaved work
}

// New are the files of a window whose state lies in a folder.
func New(s *shell.Shell, state *recovery.Store) *Files {
	f := &Files{Shell: s}
	f.Keeper = editor.NewKeeper(f.Editor, state, func(err error) { f.Do(func() { f.troubled(err) }) })
	f.Keeper.Beside = func(j editor.Job, then func(error)) {
		f.Disk().Ask(disk.Design, words.T("Waiting for the disk of the design…"), func() func() {
			end := j()
			return func() { then(end()) }
		})
	}
	return f
}

// Agreed says that the window was closed by the person, who was asked about what is
// not saved.
func (f *Files) Agreed() bool { return f.agreed }

// DemoBeer says that the club's fermentation is shown.
func (f *Files) DemoBeer() bool { return f.demoBeer && f.Path() == "" }

// opened takes a newly opened design.
func (f *Files) opened() {
	f.demoBeer = false
	f.MoveOn()
	f.Hooks.Opened()
}

// Open reads a design file in place of the present design, whose changes the
// person has agreed to lose or has saved.
func (f *Files) Open(path string) { f.OpenThen(path, func() {}) }

// OpenThen is open, and goes on once the file is there.
func (f *Files) OpenThen(path string, then func()) {
	f.read(path, then, func(findings []design.Finding, err error) { f.refuseFile(path, findings, err) })
}

// read reads a design file beside the window. What has come of it is thrown away where
// the person has opened or changed something meanwhile.
func (f *Files) read(path string, then func(), refused func(findings []design.Finding, err error)) {
	f.openings++
	n, was, at := f.openings, f.Design(), f.Path()
	wanted := func() bool {
		switch {
		case n != f.openings:
			return false
		case f.Path() != at || !f.Design().Equal(was):
			f.Warn(words.T("{path} was not opened: the design here was changed before it was read. Open it again.", path))
			return false
		}
		return true
	}
	f.reading++
	f.Keeper.Run(f.Keeper.Opening(path, wanted, func(o *editor.Opened, err error) {
		if err != nil {
			refused(o.Findings, err)
			return
		}
		f.came(path, o.Findings)
		then()
	}), func(error) { f.reading-- })
}

// Reading says that a file was asked to be opened and has not come yet.
func (f *Files) Reading() bool { return f.reading > 0 }

// came takes up a file that was opened.
func (f *Files) came(path string, findings []design.Finding) {
	f.opened()
	f.remember(f.Path())
	switch {
	case f.ReadOnly() != nil:
		f.Warn(words.Error(f.ReadOnly()))
	case len(findings) > 0:
		f.Warn(moreFindings(findings))
	default:
		f.ShowMessage(words.T("Opened {path}", path))
	}
	f.remarkOnBatch()
	f.Changed()
	if busy := f.Keeper.Busy(); busy != nil {
		f.askBusy(busy)
	}
}

// moreFindings is the first remark on a file, and that there are others.
func moreFindings(findings []design.Finding) string {
	if n := len(findings) - 1; n > 0 {
		return words.N("{finding} (and {count} more; skep check lists them)", "{finding} (and {count} more; skep check lists them)", n, findings[0])
	}
	return words.Error(findings[0])
}

// Reopen is open for the file of the last time. One that is gone was renamed, moved,
// or is on a disk that is not here: said once, and another design stands here.
func (f *Files) Reopen(path string) {
	f.read(path, func() {}, func(findings []design.Finding, err error) {
		var failed *savefile.Error
		if !errors.As(err, &failed) || !failed.Missing() {
			f.refuseFile(path, findings, err)
			return
		}
		f.Warn(words.T("{path} was open last and is not there now: renamed, moved, or on a disk that is not here. Open it with Ctrl+O; this is a demonstration.", path))
		f.Prefs.Last = ""
		f.SavePrefs()
	})
}

func (f *Files) remember(path string) {
	f.Prefs.Opened(path)
	f.SavePrefs()
}

// demo opens a demonstration as an unsaved copy.
func (f *Files) demo(name string) {
	src, err := assets.Demo(name)
	if err == nil {
		err = f.Editor.Replace(name, src)
	}
	if err != nil {
		f.Warn(f.Say().Why(err))
		return
	}
	f.Demo = true
	f.opened()
	f.Prefs.Last = ""
	f.SavePrefs()
	f.ShowMessage(words.T("A copy of a Gate Field design: change it as you like, it has no file yet"))
	f.Changed()
}

// ShowDemoBeer opens the club's beer half way through its fermentation, and keeps in
// mind what was open.
func (f *Files) ShowDemoBeer() {
	before := f.Path()
	src, err := assets.DemoFermenting(f.Now())
	if err == nil {
		err = f.Editor.Replace("gate-field-fermenting.toml", src)
	}
	if err != nil {
		f.Warn(f.Say().Why(err))
		return
	}
	f.opened()
	f.Demo, f.demoBeer, f.beforeDemo = true, true, before
	f.ShowMessage(words.T("A beer of the club at Gate Field, to look at: one reading does not fit. Change what you like, nothing of it is kept."))
	f.Changed()
}

// PutDemoBeerAway brings back what was open before.
func (f *Files) PutDemoBeerAway() {
	if f.beforeDemo == "" {
		f.demo(assets.DemoMiddle)
		return
	}
	f.read(f.beforeDemo, func() {}, func([]design.Finding, error) { f.demo(assets.DemoMiddle) })
}

// askNew, askOpen and the demos first ask about unsaved changes.
func (f *Files) AskNew() { f.Guard(f.startFromWhatYouHave) }

// startFromWhatYouHave puts a new design in the place of the present one and
// opens the card that asks for the rest. What the person has is read, and the first
// design worked out, beside the window.
func (f *Files) startFromWhatYouHave() {
	folder, catalogue, usual, title := f.OwnFolder, f.Catalogue(), f.Prefs.Kit, words.T("Honey beer")
	wanted := ui.Wanted(f)
	f.Disk().Ask(disk.Own, words.T("Reading {file}…", folder), func() func() {
		choices, problems := begin.Load(folder, catalogue)
		answers, kit := choices.First(usual)
		answers.Title = title
		begun, err := start.Design(calc.NewEngine(), answers, choices.Larder(), nil)
		return func() {
			if !wanted() || !f.begin("a new design", begun.Design, err) {
				return
			}
			f.Hooks.Card(choices, answers, kit)
			f.Changed()
			if len(problems) > 0 {
				f.Warn(words.T("Left out: {why}", problems[0]))
			}
		}
	})
}

func (f *Files) AskDemo(name string) { f.Guard(func() { f.demo(name) }) }

func (f *Files) AskOpen() { f.Guard(f.chooseFile) }

// chooseFile offers the files that were open last; what is typed there may be a path.
func (f *Files) chooseFile() {
	if len(f.Prefs.Recent) == 0 {
		f.browse()
		return
	}
	var items []picker.Item
	for _, path := range f.Prefs.Recent {
		items = append(items, picker.Item{Name: filepath.Base(path), Note: filepath.Dir(path), Take: func() { f.Open(path) }})
	}
	p := picker.New(f, words.T("Open a design"), words.T("search, or type a path"), items)
	p.Own = func(path string) picker.Item {
		return picker.Item{Name: words.T("Open {path}", path), Take: func() { f.Open(path) }}
	}
	p.Foot = ui.NewButton(words.T("Look through the folders…"), func() { p.Hide(); f.browse() })
	p.Show()
}

// browse looks through the folders, beginning where the last design lies.
func (f *Files) browse() {
	folder := filedialog.FolderOf(f.Path())
	if f.Path() == "" && len(f.Prefs.Recent) > 0 {
		folder = filedialog.FolderOf(f.Prefs.Recent[0])
	}
	filedialog.Open(f, folder, []string{".toml"}, f.Open)
}

func (f *Files) Dropped(_ fyne.Position, uris []fyne.URI) {
	if len(uris) > 0 {
		path := uris[0].Path()
		f.Guard(func() { f.Open(path) })
	}
}

// begin puts a design that has no file in the place of the present one and shows the
// first place; an error, also of where the design came from, is told of instead.
func (f *Files) begin(name string, d design.Design, err error) bool {
	var src []byte
	if err == nil {
		src, err = file.Encode(d)
	}
	if err == nil {
		err = f.Editor.Replace(name, src)
	}
	if err != nil {
		f.Warn(f.Say().Why(err))
		return false
	}
	f.Demo = false
	f.opened()
	f.Prefs.Last = ""
	f.SavePrefs()
	f.Hooks.ToTaste()
	return true
}

// BrewAgain puts the next brew of a batch in the place of the present design, without
// a file yet, and shows the ways to what it was to be.
func (f *Files) BrewAgain(d design.Design) {
	f.Guard(func() {
		if !f.begin("the next brew", d, nil) {
			return
		}
		f.Changed()
		f.ShowMessage(words.T("The next brew of it, with what was learnt; it has no file yet"))
	})
}

// OpenBatch opens a finished batch from the ledger, and shows it.
func (f *Files) OpenBatch(path string) {
	f.Guard(func() { f.OpenThen(path, func() { f.Hooks.ToTaste() }) })
}
