package record_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"skep/calc/record"
)

func TestRead(t *testing.T) {
	t.Parallel()
	read := func(text string) ([]record.Row, error) {
		path := filepath.Join(t.TempDir(), "rows.csv")
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return record.Read(path)
	}
	rows, err := read("# a note\ncompare,given,published,unit,tolerance,use,quantity,source,why\n" +
		"doubled,x=3 of=table_sugar,6.5,g,0.1,,twice three,\"a book, p. 7\",it is odd\n" +
		"doubled,x=4,8,g,2%,fit,,a book,\n")
	if err != nil {
		t.Fatal(err)
	}
	rows, err = record.Compare(rows, map[string]func(record.Given) float64{
		"doubled": func(g record.Given) float64 { return 2 * g.Num("x") },
	})
	if err != nil || len(rows) != 2 {
		t.Fatalf("%v, %v", rows, err)
	}
	if r := rows[0]; r.Ours != 6 || r.Judge() != "misses" || r.Source != "a book, p. 7" || r.Given.Word("of") != "table sugar" || !math.IsNaN(r.Given.Num("y")) {
		t.Errorf("%+v", r)
	}
	if r := rows[1]; r.Judge() != "fitted" || math.Abs(r.Tolerance-0.16) > 1e-12 || r.Quantity != "doubled, x=4" {
		t.Errorf("%+v", r)
	}
	bounds, err := read("compare,given,published,unit,tolerance,source\nx,,3,g,at least,s\nx,,3,g,at most,s\n")
	if err != nil || bounds[0].Quantity != "x, at least" {
		t.Fatalf("%+v, %v", bounds, err)
	}
	if bounds[0].Ours, bounds[1].Ours = 2, 2; bounds[0].Judge() != "misses" || bounds[1].Judge() != "agrees" {
		t.Errorf("%+v", bounds)
	}
	if _, err := record.Compare(rows, map[string]func(record.Given) float64{}); err == nil {
		t.Error("a row that nothing computes went through")
	}
	two := func(record.Given) float64 { return 0 }
	if _, err := record.Compare(rows, map[string]func(record.Given) float64{"doubled": two, "halved": two}); err == nil {
		t.Error("a comparison without rows went through")
	}
	const head = "compare,given,published,unit,source\n"
	for text, says := range map[string]string{
		"":                            "no head",
		"colour\n":                    "unknown column",
		"compare,given,unit,source\n": "\"published\" is missing",
		head + "a,x,1,g,s\n":          ":2: given \"x\"",
		head + "a,x=1,one,g,s\n":      ":2: published",
		head + "a,x=1,1,g,\n":         ":2: a row needs",
		"id," + head + "1,a,,1,g,s\n1,a,,1,g,s\n":                        ":3: id",
		"use,tolerance," + head + "fit,at most,a,,1,g,s\n":               "a bound",
		head + "a,x=1,1,g\n":                                             "wrong number of fields",
		"compare,given,published,unit,source,use\na,,1,g,s,maybe\n":      ":2: use",
		"compare,given,published,unit,source,tolerance\na,,1,g,s,wide\n": ":2: tolerance",
	} {
		if _, err := read(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %q", text, err, says)
		}
	}
	if _, err := record.Read("nowhere.csv"); err == nil {
		t.Error("a missing file was read")
	}
}
