package command

import (
	"encoding/csv"
	"math"
	"strconv"
	"time"

	"skep/app/batches"
	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/safetext"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

type batchesCommand struct {
	Folder string `arg:"" name:"FOLDER" help:"The folder of finished batches."`
	JSON   bool   `name:"json" xor:"form" help:"Print one JSON object instead of the list."`
	CSV    bool   `name:"csv" xor:"form" help:"Print comma-separated values: a line for each quantity of each batch."`
}

func (batchesCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Every batch of a folder, the latest first: what was predicted of its plan, without any lesson, against what was measured. A file that is no batch is named on standard error and left alone.")), `skep batches "Skep batches"`)
}

func (c *batchesCommand) Run(s *session) error {
	l, err := batches.Open(c.Folder, batches.NewCache())
	if err != nil {
		return wrong(err)
	}
	for _, f := range l.Skipped {
		s.advise(message.New("left out: {what}", f))
	}
	if c.CSV {
		return s.batchesCSV(l)
	}
	all := []document.Batch{}
	for i := range l.Entries {
		all = append(all, document.BatchOf(&l.Entries[i]))
	}
	if c.JSON {
		skipped := []string{}
		for _, f := range l.Skipped {
			skipped = append(skipped, f.Error())
		}
		return s.json(document.Batches{Folder: l.Folder, Batches: all, Skipped: skipped})
	}
	if len(all) == 0 {
		s.line("No batch in {folder} yet.", l.Folder)
	}
	for i := range l.Entries {
		e := &l.Entries[i]
		s.printf("%s  %s, %s\n", dayOf(e.At), titled(e.Title), e.Yeast)
		rows := [][]string{{"", words.T("low"), words.T("mid"), words.T("high"), words.T("measured"), ""}}
		for _, x := range e.Compare() {
			rows = append(rows, append([]string{"  " + s.text(x.Name)}, s.comparedCells(x)...))
		}
		s.printf("%s", helptext.Grid(rows))
		s.printf("\n")
	}
	return nil
}

// comparedCells are low, mid, high, measured and the unit, empty where there is
// none.
func comparedCells(x batches.Compared) []string {
	return cellsOf(x, func(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }, x.Unit)
}

// comparedCells are the same for a person.
func (s *session) comparedCells(x batches.Compared) []string {
	kind := quantity.None
	if x.Unit == "SG" {
		kind = quantity.Gravity
	}
	unit := words.Listed(x.Unit) // all but SG are among the units' own texts
	if kind == quantity.Gravity {
		unit = s.unit(kind)
	}
	return cellsOf(x, func(v float64, decimals int) string { return s.number(kind, v, decimals) }, unit)
}

// dayOf is the day of a batch in the person's language; empty where none is known.
func dayOf(at time.Time) string {
	if at.IsZero() {
		return ""
	}
	return words.LongDate(at)
}

func cellsOf(x batches.Compared, number func(v float64, decimals int) string, unit string) []string {
	cell := func(v float64, known bool) string {
		if !known || math.IsNaN(v) {
			return ""
		}
		decimals := 1
		if x.Unit == "SG" {
			decimals = 4
		}
		return number(v, decimals)
	}
	return []string{cell(x.Predicted.Low, x.HasBand), cell(x.Predicted.Mid, true), cell(x.Predicted.High, x.HasBand), cell(x.Measured.Mean, x.Measured.Known), unit}
}

func (s *session) batchesCSV(l *batches.Ledger) error {
	w := csv.NewWriter(&s.out)
	_ = w.Write([]string{"file", "title", "brewed", "yeast", "quantity", "low", "mid", "high", "measured", "unit"}) // to memory
	for i := range l.Entries {
		b := document.BatchOf(&l.Entries[i])
		for _, x := range l.Entries[i].Compare() {
			_ = w.Write(append([]string{safetext.Cell(b.File), safetext.Cell(b.Title), b.Brewed, safetext.Cell(b.Yeast), x.Key}, comparedCells(x)...))
		}
	}
	w.Flush()
	return w.Error()
}

type learntCommand struct {
	Folder string `arg:"" name:"FOLDER" help:"The folder of finished batches."`
	Design string `name:"design" placeholder:"FILE" help:"The design whose kit and strains the lessons are for; left out, those of the latest batch."`
	JSON   bool   `name:"json" help:"Print one JSON object instead of the list."`
}

func (learntCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Each lesson with the batches that it is from and what it changes. The kit's lessons come from its own batches; those of a strain and of the palate from all.")), `skep learnt "Skep batches"`)
}

func (c *learntCommand) Run(s *session) error {
	l, err := batches.Read(c.Folder, batches.NewCache())
	if err != nil {
		return wrong(err)
	}
	for _, f := range l.Skipped {
		s.advise(message.New("left out: {what}", f))
	}
	reference := design.New()
	switch {
	case c.Design != "":
		if reference, err = s.load(c.Design); err != nil {
			return err
		}
	case len(l.Entries) > 0:
		reference = l.Entries[0].Design
	}
	lessons := l.Learn(reference)
	_, _, used := lessons.Apply(reference, nil)
	all := []document.Lesson{}
	for i := range lessons.Lessons {
		all = append(all, document.LessonOf(&lessons.Lessons[i], used))
	}
	if c.JSON {
		return s.json(document.Learnt{Folder: l.Folder, Kit: reference.Kit.Name, Batches: lessons.Batches, Lessons: all})
	}
	s.printf("%s\n", words.N("{count} batch was heard.", "{count} batches were heard.", lessons.Batches))
	for _, x := range all {
		s.printf("\n%s\n  %s\n", s.text(x.Name), s.text(x.Text))
		for _, e := range x.Evidence {
			s.printf("  %s\n", words.T("{file}: {value}, weight {percent} %", e.File, s.say.Marked(short(math.Round(e.Value*1000)/1000)), s.say.Plain(100*e.Weight, 0)))
		}
	}
	return nil
}
