// Package demotest reads the club's demonstration designs for tests.
//
// A name comes in, a design goes out, and a test that can't have it ends. No program
// may know it.
package demotest

import (
	"strings"

	"skep/assets"
	"skep/calc/design"
	"skep/calc/design/file"
)

// T is what is needed of a test.
type T interface {
	Helper()
	Fatal(...any)
}

// Design is a demonstration by its short name ("middle") or its file's
// ([assets.DemoMiddle]).
func Design(t T, name string) design.Design {
	t.Helper()
	d, err := Read(name)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Read is the same where no test is at hand.
func Read(name string) (design.Design, error) {
	if !strings.HasSuffix(name, ".toml") {
		name = "gate-field-" + name + ".toml"
	}
	src, err := assets.Demo(name)
	if err != nil {
		return design.Design{}, err
	}
	doc, findings := file.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		return design.Design{}, err
	}
	return doc.Design, nil
}
