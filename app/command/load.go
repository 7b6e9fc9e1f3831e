package command

import (
	"strings"

	"skep/app/savefile"
	"skep/app/userfile"
	"skep/calc/design"
	designfile "skep/calc/design/file"
	"skep/calc/glasstest"
	"skep/calc/message"
)

// stdin is the FILE that stands for standard input.
const stdin = "-"

// read returns a design file's bytes.
func (s *session) read(file string) ([]byte, error) {
	if file == stdin {
		return savefile.ReadFrom("standard input", s.In)
	}
	return savefile.Read(file)
}

// write saves what a command made, and says on standard error what could not be kept of
// a file that was there.
func (s *session) write(path string, data []byte) error {
	lost, err := savefile.WriteOver(path, data)
	if err != nil {
		return broken(err)
	}
	if !lost.None() {
		s.advise(lost.Of(path))
	}
	return nil
}

// load reads a design that a command can work with. Findings go to standard
// error; with an error among them the command ends.
func (s *session) load(file string) (design.Design, error) {
	doc, err := s.document(file)
	if err != nil {
		return design.Design{}, err
	}
	return doc.Design, nil
}

// document is load with the text that the design was read from.
func (s *session) document(file string) (*designfile.Document, error) {
	doc, findings, err := s.parse(file)
	if err != nil {
		return nil, err
	}
	for _, f := range findings {
		s.finding(f)
	}
	if doc == nil || design.HasErrors(findings) {
		return nil, wrong(errSaid)
	}
	return doc, nil
}

func (s *session) parse(file string) (*designfile.Document, []design.Finding, error) {
	src, err := s.read(file)
	if err != nil {
		return nil, nil, err
	}
	doc, findings := designfile.Parse(file, src)
	return doc, findings, nil
}

// set applies KEY=VALUE settings in their order, and looks at the design that
// comes of them.
func set(d *design.Design, settings []string) error {
	for _, kv := range settings {
		key, value, ok := strings.Cut(kv, "=")
		if !ok || key == "" {
			return misused(message.NewError("--set {argument}: want KEY=VALUE, such as mash.rest.0.temperature_c=68", kv))
		}
		if err := d.Set(strings.TrimSpace(key), strings.TrimSpace(value)); err != nil {
			return wrong(err)
		}
	}
	return whole(*d)
}

// whole refuses a design whose values do not go together.
func whole(d design.Design) error {
	if err := design.FirstError(d.Validate()); err != nil {
		return wrong(err)
	}
	return nil
}

// ownStrains are the person's own strains. A file of them that can't be read is
// said and left aside: the command can do without.
func (s *session) ownStrains() []design.CatalogueYeast {
	if s.Folder == "" {
		return nil
	}
	own, err := userfile.LoadStrains(userfile.StrainsIn(s.Folder))
	if err != nil {
		s.advise(message.New("your own strains are left out: {error}", err))
	}
	return own
}

// shelf is the person's own grain, honey and hops; what can't be read of it is said.
func (s *session) shelf() userfile.Shelf {
	if s.Folder == "" {
		return userfile.Shelf{}
	}
	shelf := userfile.LoadShelf(s.Folder)
	for _, err := range shelf.Problems {
		s.advise(message.New("of your own shelf is left out: {error}", err))
	}
	return shelf
}

// palate is what the person's own glass test has told; nil where they have no files.
func (s *session) palate() (*glasstest.Palate, error) {
	if s.Folder == "" {
		return nil, nil
	}
	glasses, err := userfile.LoadGlasses(s.Folder)
	palate := glasstest.Hear(glasses.Pairs())
	return &palate, err
}
