package batches

import (
	"cmp"
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"skep/app/safetext"
	"skep/calc/message"
)

// Search lists the entries in which every word of the query stands: in title,
// file, date, strain, grain, honey, hops or notes. Capitals don't matter; an
// empty query lists all. day says a day as the person's language does; nil: English.
func (l *Ledger) Search(query string, day func(time.Time) string) []*Entry {
	words := strings.Fields(strings.ToLower(query))
	var out []*Entry
next:
	for i := range l.Entries {
		e := &l.Entries[i]
		text := e.text(day)
		for _, w := range words {
			if !strings.Contains(text, w) {
				continue next
			}
		}
		out = append(out, e)
	}
	return out
}

func (e *Entry) text(day func(time.Time) string) string {
	d := &e.Design
	parts := []string{e.Title, e.File, e.Yeast, d.Notes}
	if !e.At.IsZero() {
		parts = append(parts, e.At.Format(time.DateOnly))
		if day == nil {
			day = func(t time.Time) string { return t.Format("2 January 2006") }
		}
		parts = append(parts, day(e.At))
	}
	if !e.Finished {
		parts = append(parts, "unfinished")
	}
	for _, g := range d.Grain {
		parts = append(parts, g.Name)
	}
	for _, h := range d.Honey {
		parts = append(parts, h.Name)
	}
	for _, h := range d.Hop {
		parts = append(parts, h.Name)
	}
	return strings.ToLower(strings.Join(parts, "\n"))
}

// Order is a column to sort by: "date", "title", "yeast", or the key of a
// [Compared], by what was measured. Entries without it come last either way.
func Order(entries []*Entry, by string, rising bool) {
	value := func(e *Entry) (float64, bool) {
		for _, c := range e.Compare() {
			if c.Key == by {
				return c.Measured.Mean, c.Measured.Known
			}
		}
		return 0, false
	}
	compare := func(a, b *Entry) (c int, always bool) {
		switch by {
		case "title":
			return compareText(a.Title, b.Title)
		case "yeast":
			return compareText(a.Yeast, b.Yeast)
		case "date":
			if a.At.IsZero() != b.At.IsZero() {
				return cmpBool(a.At.IsZero(), b.At.IsZero()), true
			}
			return a.At.Compare(b.At), false
		}
		x, hasX := value(a)
		y, hasY := value(b)
		if hasX != hasY {
			return cmpBool(!hasX, !hasY), true
		}
		return cmp.Compare(x, y), false
	}
	slices.SortStableFunc(entries, func(a, b *Entry) int {
		c, always := compare(a, b)
		if !rising && !always {
			c = -c
		}
		return c
	})
}

func compareText(a, b string) (c int, always bool) {
	if (a == "") != (b == "") {
		return cmpBool(a == "", b == ""), true
	}
	return cmp.Compare(strings.ToLower(a), strings.ToLower(b)), false
}

func cmpBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// digits after the point, by key.
var digits = map[string]int{
	OriginalGravity: 4, FinalGravity: 4, Strength: 2, Attenuation: 1, Yield: 1, BoilOff: 2, Height: 1, Dryness: 1, Body: 1,
}

// ExportCSV writes entries as comma-separated values (RFC 4180), one line a
// batch, metric, the units in the header; what is not known is left empty.
func ExportCSV(w io.Writer, entries []*Entry) error {
	out := csv.NewWriter(w)
	head := []string{"file", "title", "date", "yeast", "finished"}
	for _, c := range (&Entry{}).Compare() {
		if c.Key != BoilOff {
			head = append(head, "predicted_"+c.Key+"_low", "predicted_"+c.Key+"_mid", "predicted_"+c.Key+"_high")
		} else {
			head = append(head, "planned_"+c.Key)
		}
		head = append(head, "measured_"+c.Key, "measured_"+c.Key+"_sd")
	}
	head = append(head, "effective_original_gravity_sg", "into_fermenter_l", "mash_warmer_than_set_c", "strain_attenuation_pct", "time_factor", "notes")
	if err := out.Write(head); err != nil {
		return message.NewError("the ledger can't be exported: {error}", err)
	}
	for _, e := range entries {
		if err := out.Write(e.row()); err != nil {
			return message.NewError("the ledger can't be exported: {error}", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return message.NewError("the ledger can't be exported: {error}", err)
	}
	return nil
}

func (e *Entry) row() []string {
	date := ""
	if !e.At.IsZero() {
		date = e.At.Format("2006-01-02")
	}
	row := []string{safetext.Cell(e.File), safetext.Cell(e.Title), date, safetext.Cell(e.Yeast), strconv.FormatBool(e.Finished)}
	number := func(known bool, v float64, n int) {
		text := ""
		if known && !math.IsNaN(v) && !math.IsInf(v, 0) {
			text = strconv.FormatFloat(v, 'f', n, 64)
		}
		row = append(row, text)
	}
	for _, c := range e.Compare() {
		n := digits[c.Key]
		if c.Key != BoilOff {
			number(c.HasBand, c.Predicted.Low, n)
			number(c.HasBand, c.Predicted.Mid, n)
			number(c.HasBand, c.Predicted.High, n)
		} else {
			number(true, c.Predicted.Mid, n)
		}
		number(c.Measured.Known, c.Measured.Mean, n)
		number(c.Measured.Known, c.Measured.SD, n+1)
	}
	m := &e.Measured
	number(m.EffectiveOriginalGravitySG.Known, m.EffectiveOriginalGravitySG.Mean, 4)
	number(m.IntoFermenterL.Known, m.IntoFermenterL.Mean, 2)
	number(m.RestOffsetC.Known, m.RestOffsetC.Mean, 2)
	number(m.StrainPct.Known, m.StrainPct.Mean, 1)
	number(m.LogTime.Known, math.Exp(m.LogTime.Mean), 2)
	return append(row, safetext.Cell(e.Design.Notes))
}
