package userfile

import (
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"skep/calc/glasstest"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// What is kept reads back, one tasting behind the other; a file with a mistake is
// refused with its line and stays as it is.
func TestGlassesReadBack(t *testing.T) {
	t.Parallel()
	folder := t.TempDir() + "/new"
	if g, err := LoadGlasses(folder); err != nil || len(g.Pair) != 0 {
		t.Fatalf("%+v, %v", g, err)
	}
	glass := taste.Glass{Residue: sugar.Spectrum{Maltose: 1.25, Dextrin: 20, Other: 12}, HoneyLeftGL: 0.5, ABVPct: 5.1, RDFPct: 66}
	at := time.Date(2026, 7, 12, 20, 0, 0, 0, time.UTC)
	pair := GlassPair{At: at, Drier: "second", Fuller: "alike", First: NewGlassBeer("Dry \"one\"", glass), Second: NewGlassBeer("Soft", taste.Glass{})}
	if _, err := AddGlasses(folder, []GlassPair{pair}, nil); err != nil {
		t.Fatal(err)
	}
	beers := [2]string{"Dry", "Soft"}
	if _, err := AddGlasses(folder, nil, []GlassTriangle{{At: at, Beers: beers, Right: true}, {At: at, Beers: beers}}); err != nil {
		t.Fatal(err)
	}
	g, err := LoadGlasses(folder)
	if err != nil || len(g.Pair) != 1 || !reflect.DeepEqual(g.Pair[0], pair) {
		t.Fatalf("%+v, %v; want %+v", g, err, pair)
	}
	if p := g.Pairs()[0]; p.First != glass || p.Drier != glasstest.Second || p.Fuller != glasstest.Alike {
		t.Errorf("%+v", p)
	}
	if x := g.Triangles()[beers]; x != (glasstest.Triangles{Right: 1, Trials: 2}) {
		t.Errorf("%+v", x)
	}
	path := GlassesIn(folder)
	if own, err := os.ReadFile(path); err != nil {
		t.Fatal(err)
	} else if err := os.WriteFile(path, append(own, "# a word of my own\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := AddGlasses(folder, []GlassPair{pair}, nil); err != nil {
		t.Fatal(err)
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(src), "# a word of my own") || strings.Count(string(src), "[[pair]]") != 2 {
		t.Errorf("what a person wrote is gone:\n%s", src)
	}
	for _, bad := range []string{string(src) + "\n[[pair]\n", strings.Replace(string(src), `fuller = "alike"`, `fuller = "perhaps"`, 1), strings.Replace(string(src), "format = 1", "format = 2", 1)} {
		if err := os.WriteFile(path, []byte(bad), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := AddGlasses(folder, []GlassPair{pair}, nil); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%v", err)
		}
		if now, _ := os.ReadFile(path); string(now) != bad {
			t.Error("a file with a mistake was written over")
		}
	}
}
