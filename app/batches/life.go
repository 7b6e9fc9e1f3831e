package batches

import (
	"errors"
	"io/fs"
	"path/filepath"
	"time"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// Text is a design as a text: its file's own, comments and all, with what is
// unsaved in it; or a fresh one where there is no file.
func Text(path string, d *design.Design) ([]byte, error) {
	if path == "" {
		return file.Encode(*d)
	}
	src, err := savefile.Read(path)
	var gone *savefile.Error
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.As(err, &gone) && gone.Missing():
		return file.Encode(*d)
	case err != nil:
		return nil, err
	}
	doc, findings := file.Parse(path, src)
	if doc == nil || design.HasErrors(findings) {
		return file.Encode(*d)
	}
	return doc.Write(*d)
}

// DayOf is a moment's day, where it was.
func DayOf(t time.Time) design.Day { return design.Day(t.Format(time.DateOnly)) }

// Begin writes a new batch of a design into the folder and says where: the design
// with the day and the name of the file that it came from, which stays as it is. The
// usual folder is made if need be; one that a person has chosen is not, as it may be
// on a disk that is not there.
func Begin(folder, from string, d design.Design, day time.Time) (string, error) {
	if d.Batch.Brewed != "" {
		return "", message.NewError("this is a batch already, brewed on {day}", string(d.Batch.Brewed))
	}
	d.Batch.Brewed, d.Batch.Closed, d.Batch.Design = DayOf(day), "", ""
	if from != "" {
		d.Batch.Design = filepath.Base(from)
	}
	return Keep(folder, from, d)
}

// Keep writes a batch into the folder as a new file and says where.
func Keep(folder, from string, d design.Design) (string, error) {
	src, err := Text(from, &d)
	if err != nil {
		return "", err
	}
	if folder == "" || folder == DefaultFolder() {
		folder = DefaultFolder()
		if err := Make(folder); err != nil {
			return "", err
		}
	}
	return add(folder, src)
}

// Again is a batch's design to be brewed anew: the plan without what was measured.
func Again(d design.Design) design.Design {
	d = d.Clone()
	d.Batch.Brewed, d.Batch.Closed, d.Batch.Design = "", "", ""
	d.Reading = nil
	return d
}

// ToCome says that a batch bears a day, or a reading a moment, that is still to
// come; empty where none does.
func ToCome(d *design.Design, now time.Time) string {
	today := DayOf(now)
	for _, day := range []design.Day{d.Batch.Brewed, d.Batch.Closed} {
		if day > today {
			return string(day)
		}
	}
	for _, r := range d.Reading {
		if r.At.After(now.Add(time.Hour)) { // clocks differ by a little
			return r.At.Format("2006-01-02 15:04")
		}
	}
	return ""
}
