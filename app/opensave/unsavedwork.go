package opensave

import (
	"path/filepath"

	"skep/app/disk"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
)

// troubled is what the keeper says of the disk: on Fyne's goroutine.
func (f *Files) troubled(err error) {
	if f.Closing {
		return
	}
	if err == nil {
		f.ShowMessage(words.T("Unsaved changes survive a crash again"))
		return
	}
	f.Warn(f.Say().Why(err))
}

// askBusy tells of another window that has the file open.
func (f *Files) askBusy(busy *recovery.Busy) {
	text := words.T("{path} is open in another Skep window. You can look and try here; to keep what you change, save it beside the file under another name.", busy.Path)
	if busy.PID != 0 {
		text = words.T("{path} is open in another Skep window (process {pid}). You can look and try here; to keep what you change, save it beside the file under another name.", busy.Path, busy.PID)
	}
	ui.Ask(f, words.T("The file is open elsewhere"), text, ui.Answer{Text: words.T("Go on"), Do: func() { f.Hooks.Focus() }, Main: true})
}

// askElsewhere is said when a save would go over another window's file.
func (f *Files) askElsewhere(busy *recovery.Busy, then func()) {
	ui.Ask(f, words.T("The file is open elsewhere"),
		words.T("{path} is open in another Skep window, so it is not written over.", busy.Path),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Open the other version"), Do: func() { f.Open(busy.Path) }},
		ui.Answer{Text: words.T("Save under another name…"), Do: func() { f.SaveAs(then) }, Main: true})
}

// askOther says why a file can't be written, which may be for good: it is
// write-protected, or its disk is full or gone. Another place is a press away.
func (f *Files) askOther(why error, then func()) {
	ui.Ask(f, words.T("The design is not saved"), ui.SentenceOf(f.Say().Why(why)),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Save under another name…"), Do: func() { f.SaveAs(then) }, Main: true})
}

// leftLane is where the work of windows that died is asked for.
const leftLane = "left"

// OfferLeft asks about the unsaved work of windows that died; none runs where there is
// none.
func (f *Files) OfferLeft(none func()) {
	f.Disk().Ask(leftLane, words.T("Looking for unsaved work…"), func() func() {
		all, err := f.Keeper.Left()
		return func() {
			if err != nil {
				f.Warn(f.Say().Why(err))
			}
			f.offer(all)
			if len(all) == 0 && err == nil {
				none()
			}
		}
	})
}

// AskLeft is offerLeft when a person asks for it.
func (f *Files) AskLeft() {
	f.Guard(func() {
		f.OfferLeft(func() { f.ShowMessage(words.T("No unsaved work of a crash is there")) })
	})
}

// release lets go of left work, for the next start.
func (f *Files) release(all ...*recovery.Left) {
	f.Disk().Ask(leftLane, "", func() func() {
		for _, l := range all {
			l.Release()
		}
		return nil
	})
}

// offer asks about the first of what was left, then about the next. Closing the
// question without an answer is Later: nothing goes unasked.
func (f *Files) offer(all []*recovery.Left) {
	if len(all) == 0 {
		return
	}
	l := all[0]
	later := func() { f.release(all...) }
	when := l.When.Format("2006-01-02 15:04")
	text := words.T("Skep ended before {name} was saved. Its last change, at {when}, was: {step}.", leftName(l), when, l.Step)
	if l.Language != words.Speaks().Tag.String() {
		// The name of the change is kept as it was shown.
		text = words.T("Skep ended before {name} was saved. Its last change was at {when}.", leftName(l), when)
		l.Step = words.T("what was taken back")
	}
	if n := len(all) - 1; n > 0 {
		text += " " + words.N("There is {count} more.", "There are {count} more.", n)
	}
	ui.Ask(f, words.T("Unsaved work was found"), text,
		ui.Answer{Text: words.T("Later"), Do: later},
		ui.Answer{Text: words.T("Throw it away"), Do: func() { f.askDiscard(all) }},
		ui.Answer{Text: words.T("Take it back"), Do: func() {
			f.release(all[1:]...) // for the next start: this window holds one design
			f.takeBack(l)
		}, Main: true})
}

func leftName(l *recovery.Left) string {
	if l.Base.Path == "" {
		return words.T("a design without a file")
	}
	return filepath.Base(l.Base.Path)
}

// askDiscard asks once more: this can't be undone.
func (f *Files) askDiscard(all []*recovery.Left) {
	ui.Ask(f, words.T("Throw the unsaved work away?"),
		words.T("The unsaved changes of {name} can't be brought back then.", leftName(all[0])),
		ui.Answer{Text: words.T("Keep it"), Do: func() { f.offer(all) }, Main: true},
		ui.Answer{Text: words.T("Throw it away"), Do: func() {
			f.Write(leftLane, all[0].File, all[0].Discard, func(err error) {
				if err != nil {
					f.Warn(f.Say().Why(err))
				}
				f.offer(all[1:])
			})
		}})
}

func (f *Files) takeBack(l *recovery.Left) {
	job, err := f.Keeper.TakingBack(l)
	if err != nil {
		f.release(l)
		f.Warn(f.Say().Why(err))
		return
	}
	f.opened()
	if path := f.Editor.Path(); path != "" {
		f.remember(path)
	}
	f.ShowMessage(words.T("Taken back as it was; it is not saved yet"))
	f.Changed()
	f.Hooks.Focus()
	f.Keeper.Run(job, func(err error) {
		if err != nil {
			f.Warn(f.Say().Why(err))
		}
		if busy := f.Keeper.Busy(); busy != nil {
			f.askBusy(busy)
		}
	})
}

// OpenPrevious opens what the file held before its last save, as an unsaved
// copy.
func (f *Files) OpenPrevious() {
	of, wanted := f.Editor.Path(), ui.Wanted(f)
	f.Disk().Ask(disk.Design, words.T("Waiting for the disk of the design…"), func() func() {
		path, ok := f.Keeper.Previous(of)
		var src []byte
		var err error
		if ok {
			src, err = savefile.Read(path)
		}
		return func() {
			switch {
			case !wanted():
			case !ok:
				f.ShowMessage(words.T("No earlier version of this design is kept"))
			case err != nil:
				f.Warn(f.Say().Why(err))
			default:
				f.Guard(func() { f.showPrevious(path, src) })
			}
		}
	})
}

func (f *Files) showPrevious(path string, src []byte) {
	if err := f.Editor.Replace(path, src); err != nil {
		f.Warn(f.Say().Why(err))
		return
	}
	f.opened()
	f.ShowMessage(words.T("A copy of the version before the last save; it has no file yet"))
	f.Changed()
}
