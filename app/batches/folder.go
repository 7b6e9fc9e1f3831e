package batches

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"unicode"

	"github.com/adrg/xdg"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
)

// DefaultFolder is proposed where the person has chosen none: "Skep batches"
// among their documents. It need not be there.
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

var errNotFolder = errors.New("it is a file, not a folder")

func (e *FolderError) Error() string {
	why, advice := e.Err.Error(), "choose another folder"
	var path *fs.PathError
	if errors.As(e.Err, &path) {
		why = path.Err.Error()
	}
	switch {
	case e.Missing():
		why, advice = "it is not there", "make it, or choose another folder"
	case errors.Is(e.Err, syscall.EROFS):
		why = "the disk is read-only"
	case errors.Is(e.Err, fs.ErrPermission) && e.Doing == "read":
		why, advice = "no permission to read it", "change the permission, or choose another folder"
	case errors.Is(e.Err, fs.ErrPermission):
		why, advice = "no permission to write there", "change the permission, or choose another folder; what is in it can still be read"
	}
	return fmt.Sprintf("can't %s the ledger's folder %s: %s; %s", e.Doing, e.Folder, why, advice)
}

// Make makes the folder, and those above it, if it is not there.
func Make(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
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
	Why  string
}

func (s Skipped) String() string { return s.File + ": " + s.Why }

// files are the names of the design files, in order; what can't be one is
// skipped at once. Hidden files and folders are not looked at.
func files(folder string) (names []string, skipped []Skipped, err error) {
	entries, err := os.ReadDir(folder)
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
			info, err := os.Stat(filepath.Join(folder, name))
			if err != nil {
				skipped = append(skipped, Skipped{name, "the file that it links to can't be found"})
				continue
			}
			if mode = info.Mode().Type(); mode.IsDir() {
				continue
			}
		}
		// A pipe would keep everybody waiting.
		if !mode.IsRegular() {
			skipped = append(skipped, Skipped{name, "it is not a plain file"})
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
		return "", fmt.Errorf("not added to the ledger: %w", err)
	}
	if doc == nil {
		return "", errors.New("not added to the ledger: it does not read as a design")
	}
	if info, err := os.Stat(folder); err != nil {
		return "", &FolderError{"add to", folder, err}
	} else if !info.IsDir() {
		return "", &FolderError{"add to", folder, errNotFolder}
	}
	base := fileName(doc.Design)
	for n := 1; ; n++ {
		name := base
		if n > 1 {
			name += "-" + strconv.Itoa(n)
		}
		path = filepath.Join(folder, name+".toml")
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			break
		} else if err != nil {
			return "", &FolderError{"add to", folder, err}
		}
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
