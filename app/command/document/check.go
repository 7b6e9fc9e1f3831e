package document

import "skep/calc/design"

// Checked is what check found.
type Checked struct {
	File     string    `json:"file" about:"as it was given"`
	OK       bool      `json:"ok" about:"no finding is an error; predict takes the file then"`
	Findings []Finding `json:"findings" about:"in the order of the file"`
}

// Finding is one remark.
type Finding struct {
	Line     int    `json:"line" about:"from 1; 0 where it is of the whole file"`
	Column   int    `json:"column" about:"in characters, from 1; 0 where it is not known"`
	Severity string `json:"severity" about:"error or warning"`
	Key      string `json:"key" about:"as --set takes it; empty where it is of no one key"`
	Message  string `json:"message" about:"what is wrong, with the value and what was expected"`
}

// Check makes the document of some findings.
func Check(file string, findings []design.Finding) Checked {
	out := Checked{File: file, OK: !design.HasErrors(findings), Findings: []Finding{}}
	for _, f := range findings {
		out.Findings = append(out.Findings, Finding{f.Line, f.Col, f.Severity.String(), f.Key, f.Message.String()})
	}
	return out
}
