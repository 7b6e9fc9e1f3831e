package app

import (
	"path/filepath"

	"skep/app/disk"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
)

// troubled is what the keeper says of the disk: on Fyne's goroutine.
func (b *bench) troubled(err error) {
	if b.Closing {
		return
	}
	if err == nil {
		b.Tell(words.T("Unsaved changes survive a crash again"))
		return
	}
	b.Warn(b.Say().Why(err))
}

// askBusy tells of another window that has the file open.
func (b *bench) askBusy(busy *recovery.Busy) {
	text := words.T("{path} is open in another Skep window. You can look and try here; to keep what you change, save it beside the file under another name.", busy.Path)
	if busy.PID != 0 {
		text = words.T("{path} is open in another Skep window (process {pid}). You can look and try here; to keep what you change, save it beside the file under another name.", busy.Path, busy.PID)
	}
	ui.Ask(b, words.T("The file is open elsewhere"), text, ui.Answer{Text: words.T("Go on"), Do: func() { b.place().FocusFirst() }, Main: true})
}

// askElsewhere is said when a save would go over another window's file.
func (b *bench) askElsewhere(busy *recovery.Busy, then func()) {
	ui.Ask(b, words.T("The file is open elsewhere"),
		words.T("{path} is open in another Skep window, so it is not written over.", busy.Path),
		ui.Answer{Text: words.T("Cancel"), Do: func() {}},
		ui.Answer{Text: words.T("Take theirs"), Do: func() { b.open(busy.Path) }},
		ui.Answer{Text: words.T("Save beside"), Do: func() { b.saveAs(then) }, Main: true})
}

// leftLane is where the work of windows that died is asked for.
const leftLane = "left"

// offerLeft asks about the unsaved work of windows that died; none runs where there is
// none.
func (b *bench) offerLeft(none func()) {
	b.Disk().Ask(leftLane, words.T("Looking for unsaved work…"), func() func() {
		all, err := b.keeper.Left()
		return func() {
			if err != nil {
				b.Warn(b.Say().Why(err))
			}
			b.offer(all)
			if len(all) == 0 && err == nil {
				none()
			}
		}
	})
}

// askLeft is offerLeft when a person asks for it.
func (b *bench) askLeft() {
	b.guard(func() {
		b.offerLeft(func() { b.Tell(words.T("No unsaved work of a crash is there")) })
	})
}

// release lets go of left work, for the next start.
func (b *bench) release(all ...*recovery.Left) {
	b.Disk().Ask(leftLane, "", func() func() {
		for _, l := range all {
			l.Release()
		}
		return nil
	})
}

// offer asks about the first of what was left, then about the next. Closing the
// question without an answer is Later: nothing goes unasked.
func (b *bench) offer(all []*recovery.Left) {
	if len(all) == 0 {
		return
	}
	l := all[0]
	later := func() { b.release(all...) }
	text := words.T("Skep ended before {name} was saved. Its last change, at {when}, was: {step}.", leftName(l), l.When.Format("2006-01-02 15:04"), l.Step)
	if n := len(all) - 1; n > 0 {
		text += " " + words.N("There is {count} more.", "There are {count} more.", n)
	}
	ui.Ask(b, words.T("Unsaved work was found"), text,
		ui.Answer{Text: words.T("Later"), Do: later},
		ui.Answer{Text: words.T("Throw it away"), Do: func() { b.askDiscard(all) }},
		ui.Answer{Text: words.T("Take it back"), Do: func() {
			b.release(all[1:]...) // for the next start: this window holds one design
			b.takeBack(l)
		}, Main: true})
}

func leftName(l *recovery.Left) string {
	if l.Base.Path == "" {
		return words.T("a design without a file")
	}
	return filepath.Base(l.Base.Path)
}

// askDiscard asks once more: this can't be undone.
func (b *bench) askDiscard(all []*recovery.Left) {
	ui.Ask(b, words.T("Throw the unsaved work away?"),
		words.T("The unsaved changes of {name} can't be brought back then.", leftName(all[0])),
		ui.Answer{Text: words.T("Keep it"), Do: func() { b.offer(all) }, Main: true},
		ui.Answer{Text: words.T("Throw it away"), Do: func() {
			b.Write(leftLane, all[0].File, all[0].Discard, func(err error) {
				if err != nil {
					b.Warn(b.Say().Why(err))
				}
				b.offer(all[1:])
			})
		}})
}

func (b *bench) takeBack(l *recovery.Left) {
	job, err := b.keeper.TakingBack(l)
	if err != nil {
		b.release(l)
		b.Warn(b.Say().Why(err))
		return
	}
	b.opened()
	if path := b.Editor.Path(); path != "" {
		b.remember(path)
	}
	b.Tell(words.T("Taken back as it was; it is not saved yet"))
	b.Changed()
	b.place().FocusFirst()
	b.keeper.Run(job, func(err error) {
		if err != nil {
			b.Warn(b.Say().Why(err))
		}
		if busy := b.keeper.Busy(); busy != nil {
			b.askBusy(busy)
		}
	})
}

// openPrevious opens what the file held before its last save, as an unsaved
// copy.
func (b *bench) openPrevious() {
	of, still := b.Editor.Path(), ui.Wanted(b)
	b.Disk().Ask(disk.Design, words.T("Waiting for the disk of the design…"), func() func() {
		path, ok := b.keeper.Previous(of)
		var src []byte
		var err error
		if ok {
			src, err = savefile.Read(path)
		}
		return func() {
			switch {
			case !still():
			case !ok:
				b.Tell(words.T("No earlier version of this design is kept"))
			case err != nil:
				b.Warn(b.Say().Why(err))
			default:
				b.guard(func() { b.showPrevious(path, src) })
			}
		}
	})
}

func (b *bench) showPrevious(path string, src []byte) {
	if err := b.Editor.Replace(path, src); err != nil {
		b.Warn(b.Say().Why(err))
		return
	}
	b.opened()
	b.Tell(words.T("A copy of the version before the last save; it has no file yet"))
	b.Changed()
}
