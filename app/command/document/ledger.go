package document

import (
	"math"

	"skep/app/batches"
	"skep/calc"
	"skep/calc/learn"
	"skep/calc/message"
)

// Batches are the finished batches of a folder.
type Batches struct {
	Folder  string   `json:"folder"`
	Batches []Batch  `json:"batches" about:"the latest first"`
	Skipped []string `json:"skipped" about:"files that are no batch, and why"`
}

// Learnt is what finished batches have taught.
type Learnt struct {
	Folder  string   `json:"folder"`
	Kit     string   `json:"kit" about:"whose lessons they are"`
	Batches int      `json:"batches" about:"that were heard"`
	Lessons []Lesson `json:"lessons"`
}

// numberOrNone is a number, or null where there is none.
func numberOrNone(v float64, known bool) *float64 {
	if !known || math.IsNaN(v) {
		return nil
	}
	return &v
}

// Compared is one quantity of a batch.
type Compared struct {
	Key       string     `json:"key"`
	Unit      string     `json:"unit"`
	Predicted *calc.Band `json:"predicted,omitempty" about:"of the plan, without any lesson"`
	Measured  *float64   `json:"measured,omitempty"`
	SD        *float64   `json:"sd,omitempty" about:"one standard deviation of measured"`
}

// Batch is one of them.
type Batch struct {
	File     string            `json:"file"`
	Title    string            `json:"title"`
	Brewed   string            `json:"brewed"`
	Yeast    string            `json:"yeast"`
	Finished bool              `json:"finished"`
	Compared []Compared        `json:"compared"`
	Warnings []message.Message `json:"warnings"`
}

// BatchOf makes the document of a batch.
func BatchOf(e *batches.Entry) Batch {
	out := Batch{File: e.File, Title: e.Title, Yeast: e.Yeast, Finished: e.Finished, Compared: []Compared{}, Warnings: list(e.Warnings)}
	if !e.At.IsZero() {
		out.Brewed = e.At.Format("2006-01-02")
	}
	for _, x := range e.Compare() {
		one := Compared{Key: x.Key, Unit: x.Unit, Measured: numberOrNone(x.Measured.Mean, x.Measured.Known), SD: numberOrNone(x.Measured.SD, x.Measured.Known)}
		if !math.IsNaN(x.Predicted.Mid) {
			band := x.Predicted
			one.Predicted = &band
		}
		out.Compared = append(out.Compared, one)
	}
	return out
}

// Lesson is one lesson.
type Lesson struct {
	Key      string          `json:"key"`
	Name     message.Message `json:"name"`
	Text     message.Message `json:"text"`
	Prior    Normal          `json:"prior"`
	Learnt   Normal          `json:"learnt"`
	Evidence []Evidence      `json:"evidence"`
	Changes  bool            `json:"changes" about:"it acts on a prediction with --learnt"`
}

// Normal is a value with its doubt.
type Normal struct {
	Mean float64 `json:"mean"`
	SD   float64 `json:"sd"`
}

// Evidence is what one batch says.
type Evidence struct {
	File   string  `json:"file"`
	Value  float64 `json:"value"`
	SD     float64 `json:"sd"`
	Weight float64 `json:"weight"`
}

// LessonOf makes the document of a lesson; used are the keys of those that act.
func LessonOf(x *learn.Lesson, used []string) Lesson {
	out := Lesson{Key: x.Key, Name: x.Name, Text: x.Found(), Evidence: []Evidence{},
		Prior: Normal{x.Prior.Mean, x.Prior.SD}, Learnt: Normal{x.Posterior.Mean, x.Posterior.SD}}
	for _, e := range x.Evidence {
		out.Evidence = append(out.Evidence, Evidence{e.ID, e.Value, e.SD, e.Weight})
	}
	for _, key := range used {
		out.Changes = out.Changes || key == x.Key
	}
	return out
}
