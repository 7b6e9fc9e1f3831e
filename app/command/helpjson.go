package command

import (
	"strings"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/message"
)

// objects are what the commands answer with --json, in the order of the commands.
// A test holds every command with the flag against this list.
func objects() []document.Object {
	return []document.Object{
		{Command: "check", Of: document.Checked{}},
		{Command: "predict", Of: calc.Prediction{}},
		{Command: "compare", Of: document.SideBySide{}},
		{Command: "course", Of: document.Course{}},
		{Command: "sweep", Of: document.Sweep{}},
		{Command: "tune", Of: document.Tuned{}},
		{Command: "explain", Of: document.Explained{}},
		{Command: "start", Of: document.Begun{}},
		{Command: "follow", Of: document.Followed{}},
		{Command: "batches", Of: document.Batches{}},
		{Command: "learnt", Of: document.Learnt{}},
		{Command: "kit", Of: document.Kit{}},
		{Command: "kit", When: message.New("without a name"), Of: document.Kits{}},
		{Command: "catalogue", Of: document.Catalogue{}},
	}
}

// jsonKeys prints every object from its own type.
func (s *session) jsonKeys() {
	s.paragraph(message.New(`With --json a command prints one object, in English whatever your language. Each begins with "schema": {schema}; a change that could break a reader raises that number, a new key does not. A band is an object with low, mid and high, the 10th, 50th and 90th percentile. Keys carry their units. Lists are never null. reckon --json has the results of skep help reckon as its keys.`, document.Schema))
	for _, o := range objects() {
		s.printf("\n%s\n", o.Command)
		if !o.When.Empty() {
			s.printf("  %s\n", s.text(o.When))
		}
		rows := [][]string{{"  " + words.T("key"), words.T("holds"), ""}}
		for _, l := range document.Describe(o) {
			about := helptext.Wrap(words.Listed(l.About), jsonAboutWidth)
			for i, part := range about {
				row := []string{"", "", part}
				if i == 0 {
					row[0], row[1] = strings.Repeat("  ", l.Depth+1)+l.Key, s.text(l.Kind)
				}
				rows = append(rows, row)
			}
		}
		s.printf("%s", helptext.Grid(rows))
	}
}

// jsonAboutWidth keeps the list of keys readable in an ordinary terminal.
const jsonAboutWidth = 44
