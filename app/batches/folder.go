package batches

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"unicode"

	"github.com/adrg/xdg"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// DefaultFolder is proposed where the person has chosen none: "Skep batches"
// among their documents, in every language. A folder named in the language of the day
// would leave the batches behind when the language changes. It need not be there.
func DefaultFolder() string { return filepath.Join(xdg.UserDirs.Documents, "Skep batches") }

// FolderError says why the folder can't be used, and what to do.
type FolderError struct {
	Doing  string // "read", "make" or "add to"
	Folder string
	Err    error
}

func (e *FolderError) Unwrap() error { return e.Err }

// Missing tells whether the folder is just not there.
func (e *FolderError) Missing() bool { return errors.Is(e.Err, fs.ErrNotExist) }

var errNotFolder = message.NewError("it is a file, not a folder")

func (e *FolderError) Error() string { return e.AsMessage().String() }

// AsMessage says it in a person's language.
func (e *FolderError) AsMessage() message.Message {
	why := savefile.Cause(e.Err)
	advice := message.New("choose another folder")
	switch {
	case e.Missing():
		why, advice = message.New("it is not there"), message.New("make it, or choose another folder")
	case errors.Is(e.Err, fs.ErrPermission) && e.Doing == "read":
		why, advice = message.New("no permission to read it"), message.New("change the permission, or choose another folder")
	case errors.Is(e.Err, fs.ErrPermission):
		why, advice = message.New("no permission to write there"), message.New("change the permission, or choose another folder; what is in it can still be read")
	}
	switch e.Doing {
	case "read":
		return message.New("can't read the ledger's folder {folder}: {why}; {advice}", e.Folder, why, advice)
	case "make":
		return message.New("can't make the ledger's folder {folder}: {why}; {advice}", e.Folder, why, advice)
	}
	return message.New("can't add to the ledger's folder {folder}: {why}; {advice}", e.Folder, why, advice)
}

// Make makes the folder, and those above it, if it is not there.
func Make(folder string) error {
	if err := savefile.MakeFolder(folder, 0o755); err != nil {
		if errors.Is(err, syscall.ENOTDIR) {
			err = errNotFolder
		}
		return &FolderError{"make", folder, err}
	}
	return nil
}

// Skipped is a file of the folder that is not listed, and why.
type Skipped struct {
	File string // its name in the folder
	Why  error
}

func (s Skipped) Error() string { return s.AsMessage().String() }

// AsMessage names the file before the reason.
func (s Skipped) AsMessage() message.Message { return message.After(s.File+": ", s.Why) }

// files are the names of the design files, in order; what can't be one is
// skipped at once. Hidden files and folders are not looked at.
func files(folder string) (names []string, skipped []Skipped, err error) {
	entries, err := savefile.List(folder)
	if err != nil {
		if errors.Is(err, syscall.ENOTDIR) {
			err = errNotFolder
		}
		return nil, nil, &FolderError{"read", folder, err}
	}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") || !strings.EqualFold(filepath.Ext(name), ".toml") || e.IsDir() {
			continue
		}
		mode := e.Type()
		if mode&fs.ModeSymlink != 0 {
			info, err := savefile.Stat(filepath.Join(folder, name))
			if err != nil {
				skipped = append(skipped, Skipped{name, message.NewError("the file that it links to can't be found")})
				continue
			}
			if mode = info.Mode().Type(); mode.IsDir() {
				continue
			}
		}
		// A pipe would keep everybody waiting.
		if !mode.IsRegular() {
			skipped = append(skipped, Skipped{name, message.NewError("it is not a plain file")})
			continue
		}
		names = append(names, name)
	}
	slices.Sort(names)
	return names, skipped, nil
}

// nameLimit is how many characters of a title go into a file's name.
const nameLimit = 60

// add puts a finished batch into the folder as a new file, named by its date
// and title, and returns its path. The text is written as it is, comments and
// all; it must read as a design. No file is ever written over.
func add(folder string, src []byte) (path string, err error) {
	doc, findings := file.Parse("the batch", src)
	if err := design.FirstError(findings); err != nil {
		return "", message.NewError("not added to the ledger: {error}", err)
	}
	if doc == nil {
		return "", message.NewError("not added to the ledger: it does not read as a design")
	}
	if info, err := savefile.Stat(folder); err != nil {
		return "", &FolderError{"add to", folder, err}
	} else if !info.IsDir() {
		return "", &FolderError{"add to", folder, errNotFolder}
	}
	path, err = savefile.FreePath(folder, fileName(doc.Design)+".toml")
	if err != nil {
		return "", &FolderError{"add to", folder, err}
	}
	if err := savefile.Write(path, src); err != nil {
		if errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) {
			return "", &FolderError{"add to", folder, err}
		}
		return "", err
	}
	return path, nil
}

// fileName is a name that every file system takes, without its ending.
func fileName(d design.Design) string {
	var b strings.Builder
	if d.Batch.Brewed != "" {
		b.WriteString(string(d.Batch.Brewed))
	} else if at := brewedAt(d); !at.IsZero() {
		b.WriteString(at.Format("2006-01-02"))
	}
	gap, n := b.Len() > 0, 0
	for _, r := range strings.ToLower(d.Title) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = gap || b.Len() > 0
			continue
		}
		if n++; n > nameLimit {
			break
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "batch"
	}
	return b.String()
}
