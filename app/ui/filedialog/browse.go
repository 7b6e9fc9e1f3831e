// Package filedialog asks for a file or a folder, and where to write one. A folder to
// begin in comes in, a path goes out; a file that is asked about before it is written
// over is written by what the asker hands in. It must not know what is in a file.
package filedialog

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/words"
)

// OpenFolder asks for a folder, beginning in one.
func OpenFolder(h ui.Host, folder string, take func(path string)) {
	b := &browser{host: h, take: take}
	b.show(words.T("Choose a folder"), folder)
}

// Open asks for a file with one of some endings, beginning in a folder.
func Open(h ui.Host, folder string, endings []string, take func(path string)) {
	b := &browser{host: h, endings: endings, take: take}
	b.show(words.T("Open a file"), folder)
}

// browser looks for a file or a folder. The toolkit's dialog of files reads the disk
// with the window waiting, opens what is chosen, a pipe too, and keeps Escape to
// itself.
type browser struct {
	host    ui.Host
	endings []string // of the files that may be taken; nil: a folder is looked for
	take    func(path string)

	picker *picker.Picker
	asked  int // which folder was asked for last
}

func (b *browser) show(title, folder string) {
	if full, err := filepath.Abs(folder); err == nil {
		folder = full
	}
	b.picker = picker.New(b.host, title, words.T("search, or type a path"), nil)
	b.picker.Show()
	b.enter(folder)
}

// enter shows what is in a folder, once its disk has answered.
func (b *browser) enter(folder string) {
	b.asked++
	asked := b.asked
	b.picker.Say(words.T("Reading {file}…", filepath.Base(folder)))
	b.host.Disk().Ask(folder, words.T("Reading {file}…", folder), func() func() {
		items, err := b.items(folder)
		return func() {
			if asked != b.asked || !b.picker.Shown() {
				return
			}
			if err != nil {
				b.host.Warn(b.host.Say().Why(err))
			}
			b.picker.Own = func(typed string) picker.Item { return b.typed(folder, typed) }
			b.picker.Fill(folder, items)
		}
	})
}

// items are the ways out of a folder, and what is in it.
func (b *browser) items(folder string) (items []picker.Item, err error) {
	way := func(name, to string) picker.Item {
		return picker.Item{Name: name, Figures: words.T("folder"), Stay: true, Take: func() { b.enter(to) }}
	}
	if b.endings == nil {
		items = append(items, picker.Item{Name: words.T("Take this folder"), Note: folder, Take: func() { b.take(folder) }})
	}
	if above := filepath.Dir(folder); above != folder {
		items = append(items, way(words.T("(folder above)"), above))
	}
	if home, err := os.UserHomeDir(); err == nil && home != folder && home != filepath.Dir(folder) {
		items = append(items, way(words.T("(your home folder)"), home))
	}
	entries, err := savefile.List(folder)
	var files []picker.Item
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		mode := e.Type()
		if mode&fs.ModeSymlink != 0 {
			if at, err := savefile.Stat(path); err == nil {
				mode = at.Mode().Type()
			}
		}
		switch {
		case mode.IsDir():
			items = append(items, way(e.Name(), path))
		case mode.IsRegular() && slices.Contains(b.endings, strings.ToLower(filepath.Ext(e.Name()))):
			files = append(files, picker.Item{Name: e.Name(), Figures: changed(e), Take: func() { b.take(path) }})
		}
	}
	return append(items, files...), err
}

// changed is the day on which a file was written last.
func changed(e fs.DirEntry) string {
	at, err := e.Info()
	if err != nil {
		return "" // it has gone meanwhile
	}
	return words.Date(at.ModTime(), "2 Jan 2006")
}

// typed is what a path stands for: a folder is entered, anything else is for who asked,
// who says what is wrong with it.
func (b *browser) typed(folder, text string) picker.Item {
	path := text
	if !filepath.IsAbs(path) {
		path = filepath.Join(folder, path)
	}
	return picker.Item{Name: words.T("Open {path}", path), Stay: true, Take: func() {
		b.asked++
		asked := b.asked
		b.host.Disk().Ask(filepath.Dir(path), words.T("Reading {file}…", path), func() func() {
			at, err := savefile.Stat(path)
			return func() {
				switch {
				case asked != b.asked || !b.picker.Shown():
				case err == nil && at.IsDir():
					b.enter(path)
				case b.endings == nil:
					b.host.Warn(words.T("{path} is no folder", path))
				default:
					b.picker.Hide()
					b.take(path)
				}
			}
		})
	}}
}

// FolderOf is where a design's file lies; where it has none, the person's home.
func FolderOf(path string) string {
	if path != "" {
		return filepath.Dir(path)
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// FileName makes a design's title into a file's name without its ending.
func FileName(title string) string {
	keep := func(r rune) rune {
		switch {
		case r == ' ' || r == '_' || r == '/' || r == '\\':
			return '-'
		case strings.ContainsRune(`<>:"|?*`, r) || r < ' ':
			return -1
		}
		return r
	}
	name := strings.Trim(strings.Map(keep, strings.ToLower(title)), "-. ")
	if name == "" {
		name = "design"
	}
	return name
}
