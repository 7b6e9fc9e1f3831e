package app

import (
	"path/filepath"

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
	b.Warn(words.Error(err))
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

// offerLeft asks about the unsaved work of windows that died; false when there
// is none.
func (b *bench) offerLeft() bool {
	all, err := b.keeper.Left()
	if err != nil {
		b.Warn(words.Error(err))
	}
	b.offer(all)
	return len(all) > 0 || err != nil
}

// askLeft is offerLeft when a person asks for it.
func (b *bench) askLeft() {
	b.guard(func() {
		if !b.offerLeft() {
			b.Tell(words.T("No unsaved work of a crash is there"))
		}
	})
}

// offer asks about the first of what was left, then about the next. Closing the
// question without an answer is Later: nothing goes unasked.
func (b *bench) offer(all []*recovery.Left) {
	if len(all) == 0 {
		return
	}
	l := all[0]
	later := func() {
		for _, l := range all {
			l.Release()
		}
	}
	text := words.T("Skep ended before {name} was saved. Its last change, at {when}, was: {step}.", leftName(l), l.When.Format("2006-01-02 15:04"), l.Step)
	if n := len(all) - 1; n > 0 {
		text += " " + words.N("There is {count} more.", "There are {count} more.", n)
	}
	ui.Ask(b, words.T("Unsaved work was found"), text,
		ui.Answer{Text: words.T("Later"), Do: later},
		ui.Answer{Text: words.T("Throw it away"), Do: func() { b.askDiscard(all) }},
		ui.Answer{Text: words.T("Take it back"), Do: func() {
			for _, other := range all[1:] {
				other.Release() // for the next start: this window holds one design
			}
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
			if err := all[0].Discard(); err != nil {
				b.Warn(words.Error(err))
			}
			b.offer(all[1:])
		}})
}

func (b *bench) takeBack(l *recovery.Left) {
	if err := b.keeper.TakeBack(l); err != nil {
		l.Release()
		b.Warn(words.Error(err))
		return
	}
	b.opened()
	if path := b.Editor.Path(); path != "" {
		b.remember(path)
	}
	b.Tell(words.T("Taken back as it was; it is not saved yet"))
	b.Changed()
	b.place().FocusFirst()
	if busy := b.keeper.Busy(); busy != nil {
		b.askBusy(busy)
	}
}

// openPrevious opens what the file held before its last save, as an unsaved
// copy.
func (b *bench) openPrevious() {
	path, ok := b.keeper.Previous()
	if !ok {
		b.Tell(words.T("No earlier version of this design is kept"))
		return
	}
	b.guard(func() {
		src, err := savefile.Read(path)
		if err == nil {
			err = b.Editor.Replace(path, src)
		}
		if err != nil {
			b.Warn(words.Error(err))
			return
		}
		b.opened()
		b.Tell(words.T("A copy of the version before the last save; it has no file yet"))
		b.Changed()
	})
}
