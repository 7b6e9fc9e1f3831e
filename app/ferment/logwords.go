package ferment

import (
	"fmt"
	"strings"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/logs"
)

// logKinds are the kinds as the person reads them, in the order of the choices.
func logKinds() (kinds []logs.ColumnKind, names []string) {
	return []logs.ColumnKind{logs.Ignored, logs.When, logs.Date, logs.TimeOfDay, logs.LogGravity, logs.Temperature},
		[]string{words.T("not used"), words.T("date and time"), words.T("date"), words.T("time of day"), words.T("gravity"), words.T("temperature")}
}

// layoutText writes a layout as people do.
func layoutText(l string) string {
	switch l {
	case "unix-s":
		return words.T("seconds since 1970")
	case "unix-ms":
		return words.T("milliseconds since 1970")
	case "serial":
		return words.T("days, as a spreadsheet counts")
	}
	return strings.NewReplacer("2006", words.T("YYYY"), "01", words.T("MM"), "02", words.T("DD"), "15", words.T("hh"), "3:", words.T("h")+":",
		"04", words.T("mm"), "05", words.T("ss")).Replace(l)
}

// summary says what would be taken.
func (d *logDialog) summary(a logAnswer) string {
	if a.err != nil {
		return ui.SentenceOf(d.p.host.Say().Why(a.err))
	}
	l := &a.log
	gravities, warm := 0, 0
	for _, r := range l.Readings {
		if ui.IsGravity(r.What) {
			gravities++
		} else {
			warm++
		}
	}
	lines := []string{words.T("Rows: {rows}, {from} to {to}. Gravities: {gravities}; temperatures of the beer: {temperatures}.", l.Rows, d.p.clock(l.From), d.p.clock(l.To), gravities, warm)}
	if l.ThinHours > 0 {
		lines = append(lines, words.T("So many are more than the model can use: each is the median of {hours} h.", d.p.host.Say().PlainNumber(l.ThinHours)))
	}
	if l.Spikes > 0 {
		lines = append(lines, words.N("{count} far off its neighbours is left out.", "{count} far off their neighbours are left out.", l.Spikes))
	}
	if l.Skipped > 0 {
		text := words.N("{count} row can't be used.", "{count} rows can't be used.", l.Skipped)
		if len(l.Skips) > 0 {
			text += " " + words.T("The first is line {line}: {why}", l.Skips[0].Line, ui.SentenceOf(words.Print(l.Skips[0].Why)))
		}
		lines = append(lines, text)
	}
	for i, g := range l.Gaps {
		if i == 3 {
			lines = append(lines, fmt.Sprintf("… %d", len(l.Gaps)-i))
			break
		}
		lines = append(lines, words.T("Nothing from {from} to {to}.", d.p.clock(g.From), d.p.clock(g.To)))
	}
	return strings.Join(lines, "\n")
}
