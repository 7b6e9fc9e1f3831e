package userfile

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// KitsIn is where a person's kits lie, a file each, in the folder of their files.
func KitsIn(folder string) string { return filepath.Join(folder, "kits") }

// removedFolder is where the file of a kit goes that is removed: nothing of a
// person's is ever deleted.
const removedFolder = "removed"

// Kit is one of a person's kits.
type Kit struct {
	design.KitFile
	Path string
	doc  *file.KitDocument
}

// Name is what the person calls it.
func (k *Kit) Name() string { return strings.TrimSpace(k.Kit.Name) }

// SameName tells whether two names of things of one's own are the same: case and
// the blanks around them do not count.
func SameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// Kits are a folder's kits by name; a folder that is not there has none. Each
// problem is of one file, with its line where it has one: that kit is then left
// out, and its file stays as it is.
func Kits(folder string) (kits []Kit, problems []error) {
	entries, err := savefile.List(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, []error{message.NewError("the kits can't be read: {error}", savefile.Cause(err))}
	}
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") || !strings.EqualFold(filepath.Ext(e.Name()), ".toml") {
			continue
		}
		k, err := readKit(filepath.Join(folder, e.Name()))
		if err != nil {
			problems = append(problems, err)
			continue
		}
		if i := slices.IndexFunc(kits, func(o Kit) bool { return SameName(o.Name(), k.Name()) }); i >= 0 {
			problems = append(problems, design.Finding{File: k.Path, Line: max(k.doc.Line("kit.name"), 1), Severity: design.Error, Key: "kit.name",
				Message: message.New("the kit {name} is already in {file}; only that one can be chosen: give this one another name", strconv.Quote(k.Name()), filepath.Base(kits[i].Path))})
			continue
		}
		kits = append(kits, k)
	}
	slices.SortStableFunc(kits, func(a, b Kit) int { return strings.Compare(strings.ToLower(a.Name()), strings.ToLower(b.Name())) })
	return kits, problems
}

func readKit(path string) (Kit, error) {
	src, err := savefile.Read(path)
	if err != nil {
		return Kit{}, err
	}
	doc, findings := file.ParseKit(path, src)
	if err := design.FirstError(findings); err != nil {
		return Kit{}, err
	}
	return Kit{doc.Kit, path, doc}, nil
}

// KitNamed is the kit of that name, or else the one that bore it before.
func KitNamed(kits []Kit, name string) (Kit, bool) {
	for _, of := range []func(k *Kit) []string{func(k *Kit) []string { return k.Kit.Names()[:1] }, func(k *Kit) []string { return k.Kit.Names()[1:] }} {
		for i := range kits {
			if slices.ContainsFunc(of(&kits[i]), func(n string) bool { return SameName(n, name) }) {
				return kits[i], true
			}
		}
	}
	return Kit{}, false
}

// nameTaken says why a name can't be that of the kit in a file: another bears it, or
// bore it before, and what was brewed under it has taught that one.
func nameTaken(kits []Kit, name, path string) error {
	other, ok := KitNamed(kits, name)
	switch {
	case !ok || other.Path == path:
		return nil
	case SameName(other.Name(), name):
		return message.NewError("{name} is among your kits already ({path}); give this one another name", other.Name(), other.Path)
	}
	return message.NewError("{name} is what {kit} was called before, and what was brewed under that name has taught it; give this one another name", name, other.Name())
}

// AddKit writes a new kit into the folder, which is made if need be. A name that
// is there already is refused.
func AddKit(folder string, k design.KitFile) (Kit, error) {
	k.Kit.Name = strings.TrimSpace(k.Kit.Name)
	kits, _ := Kits(folder) // a broken file of another kit is no hindrance
	if err := nameTaken(kits, k.Kit.Name, ""); err != nil {
		return Kit{}, err
	}
	k.Kit.Formerly = "" // a copy is another kit
	src, err := file.EncodeKit(k)
	if err != nil {
		return Kit{}, err
	}
	path, err := freePath(folder, k.Kit.Name)
	if err != nil {
		return Kit{}, err
	}
	if err := savefile.MakeFolder(folder, folderMode); err != nil {
		return Kit{}, &savefile.Error{Doing: savefile.Saving, Path: path, Err: err}
	}
	if err := savefile.Write(path, src); err != nil {
		return Kit{}, err
	}
	return readKit(path)
}

const folderMode = 0o755

// SaveKit writes other values, or another name, into a kit's own file; what a
// person wrote beside them stays. A file that has a mistake, or was changed since
// it was read so that it says something else, is left as it is.
func SaveKit(k Kit, now design.KitFile) (Kit, error) {
	now.Kit.Name = strings.TrimSpace(now.Kit.Name)
	is, err := readKit(k.Path)
	if err != nil {
		return k, err
	}
	if string(is.doc.Source()) != string(k.doc.Source()) {
		return is, message.NewError("{path} was changed by another program since it was read: it is left as it is and read anew, look at it and try again", k.Path)
	}
	kits, _ := Kits(filepath.Dir(k.Path))
	if err := nameTaken(kits, now.Kit.Name, k.Path); err != nil {
		return k, err
	}
	name := now.Kit.Name
	now.Kit.Name, now.Kit.Formerly = is.Kit.Name, is.Kit.Formerly
	if SameName(is.Name(), name) {
		now.Kit.Name = name
	} else {
		now.Kit.Rename(name)
	}
	src, err := is.doc.Write(now)
	if err != nil {
		return k, err
	}
	if string(src) == string(is.doc.Source()) {
		return is, nil
	}
	if err := savefile.Write(k.Path, src); err != nil {
		return k, err
	}
	return readKit(k.Path)
}

// RemoveKit moves a kit's file to the folder "removed" beside the others, and says
// where it is now.
func RemoveKit(k Kit) (string, error) {
	folder := filepath.Join(filepath.Dir(k.Path), removedFolder)
	if err := savefile.MakeFolder(folder, folderMode); err != nil {
		return "", message.NewError("{name} is not removed: {error}", k.Name(), savefile.Cause(err))
	}
	to, err := freePath(folder, strings.TrimSuffix(filepath.Base(k.Path), filepath.Ext(k.Path)))
	if err != nil {
		return "", err
	}
	if err := savefile.Move(k.Path, to); err != nil {
		return "", message.NewError("{name} is not removed: {error}", k.Name(), savefile.Cause(err))
	}
	return to, nil
}

// RestoreKit moves the file of a removed kit back to where it stood; nothing is
// written over.
func RestoreKit(from, to string) error {
	if savefile.IsThere(to) {
		return message.NewError("{path} is there again: the removed kit stays {removed}", to, from)
	}
	if err := savefile.Move(from, to); err != nil {
		return message.NewError("the kit is not put back: {error}", savefile.Cause(err))
	}
	return nil
}

// freePath is a path in the folder that nothing stands at, named after a thing.
func freePath(folder, name string) (string, error) {
	path, err := savefile.FreePath(folder, slug(name)+".toml")
	if err != nil {
		return "", &savefile.Error{Doing: savefile.Saving, Path: filepath.Join(folder, slug(name)+".toml"), Err: err}
	}
	return path, nil
}

// slug is a name that every file system takes.
func slug(name string) string {
	const most = 60
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	s := []rune(strings.Join(words, "-"))
	if len(s) == 0 {
		return "kit"
	}
	return strings.TrimRight(string(s[:min(len(s), most)]), "-")
}
