package savefile

import (
	"io/fs"
	"strings"
	"unicode"

	"skep/calc/message"
)

// accessList is the attribute in which Linux keeps who else may read and write a file.
const accessList = "system.posix_acl_access"

// anyAttribute stands for attributes of which not even the names could be read.
const anyAttribute = "*"

// mostNamed is how many attributes are named before they are only counted.
const mostNamed = 3

// Lost is what a save could not keep of the file that it took the place of. The new
// text is saved all the same; the zero value is a save that kept everything.
type Lost struct {
	Owner, Group bool
	Attributes   []string // by the system's names, access lists among them
	Links        int      // other names of the old file, which go on with the old text
}

// None tells whether everything was kept.
func (l Lost) None() bool { return !l.Owner && !l.Group && len(l.Attributes) == 0 && l.Links == 0 }

// Of says what was not kept of the file at a path; empty where everything was.
func (l Lost) Of(path string) message.Message {
	if l.None() {
		return message.Message{}
	}
	var list []message.Message
	if l.Owner {
		list = append(list, message.New("its owner, who is now whoever saved it"))
	}
	if l.Group {
		list = append(list, message.New("its group, without which the group's rights are everybody's"))
	}
	if len(l.Attributes) > mostNamed {
		list = append(list, message.Counted("{count} attribute", "{count} attributes", len(l.Attributes)))
	} else {
		for _, name := range l.Attributes {
			switch name {
			case anyAttribute:
				list = append(list, message.New("its attributes"))
			case accessList:
				list = append(list, message.New("its access list"))
			default:
				list = append(list, message.New("its attribute {name}", strings.Map(visible, name)))
			}
		}
	}
	if l.Links > 0 {
		list = append(list, message.Counted("{count} other hard link, which has the old text", "{count} other hard links, which have the old text", l.Links))
	}
	return message.New("{path} is saved, but this could not be kept: {what}", path, message.Joined(list...))
}

// visible leaves out of a name what a terminal would obey.
func visible(r rune) rune {
	if !unicode.IsPrint(r) {
		return '?'
	}
	return r
}

// withoutGroup is a file's mode when its group could not be kept: another group has
// taken that one's place, and may do no more than everybody.
func withoutGroup(mode fs.FileMode) fs.FileMode {
	const group, others = 0o070, 0o007
	return mode&^group | mode&((mode&others)<<3)
}
