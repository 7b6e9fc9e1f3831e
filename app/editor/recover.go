package editor

import (
	"path/filepath"

	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// base is what the unsaved work started from, for the recovery.
func (e *Editor) base() recovery.Base {
	b := recovery.Base{Path: e.path, Print: e.print, OnDisk: e.onDisk, Fresh: e.fresh}
	if e.saving != nil && e.saving.path == e.path {
		print := savefile.PrintOf(e.saving.doc.Source())
		b.Saving = &print
	}
	if b.Path != "" {
		// The next start may happen in another folder.
		if full, err := filepath.Abs(b.Path); err == nil {
			b.Path = full
		}
	}
	if e.doc != nil {
		b.Text = string(e.doc.Source())
	}
	return b
}

// entry is the unsaved work as it stands, for the recovery. It shares only what
// no later change alters, so its Text may run beside the window.
func (e *Editor) entry() recovery.Entry {
	doc, now := e.doc, e.now
	step, _ := e.UndoName()
	return recovery.Entry{Base: e.base(), Step: step, Language: words.Speaks().Tag.String(), Text: func() ([]byte, error) {
		if doc != nil {
			if text, err := doc.Write(now); err == nil {
				return text, nil
			}
		}
		// A layout that can't be changed in place will be refused at saving,
		// with advice; the work itself must survive a crash all the same.
		return file.Encode(now)
	}}
}

// Restore takes unsaved work that a recovery file gave back in place of the present
// design: unsaved as it was, on the same file as it was read then, so that a
// save still notices another hand. Undo leads back to what that file held. On
// an error nothing changes.
func (e *Editor) Restore(w recovery.Work) error {
	name := w.Base.Path
	if name == "" {
		name = "recovered"
	}
	work, findings := file.Parse(name, w.Text)
	if err := design.FirstError(findings); err != nil {
		return message.NewError("the unsaved work can't be taken back: {error}", err)
	}
	if work.ReadOnly != nil {
		return message.NewError("the unsaved work can't be taken back: {error}", work.ReadOnly)
	}
	doc, findings := file.Parse(name, []byte(w.Base.Text))
	if w.Base.Text == "" || design.HasErrors(findings) || doc == nil || doc.ReadOnly != nil {
		// Another version of Skep wrote it and read it otherwise: the work
		// stands alone then, with no file that it could harm, and nothing that
		// it could equal so as to count as saved.
		e.take(work, "", true)
		e.doc, e.saved, e.onDisk = nil, design.Design{}, false
		e.notify()
		return nil
	}
	e.take(doc, w.Base.Path, w.Base.Fresh)
	e.print, e.onDisk = w.Base.Print, w.Base.OnDisk
	if next := work.Design.Clone(); !next.Equal(e.now) {
		e.undo = []step{{name: w.Step, before: e.now, after: next}}
		e.now = next
	}
	e.notify()
	return nil
}
