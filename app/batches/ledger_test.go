package batches

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"skep/app/savefile/linktest"
	"skep/calc"
	"skep/calc/learn"
)

// The club's batches, and beside them one that is broken.
const (
	clubs   = "../../assets/demo/batches"
	batches = "../../testdata/learn"
)

// copied is a folder with the test batches in it.
func copied(t testing.TB) string {
	t.Helper()
	to := t.TempDir()
	both := contents(t, clubs)
	maps.Copy(both, contents(t, batches))
	for name, src := range both {
		if err := os.WriteFile(filepath.Join(to, name), src, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return to
}

func contents(t testing.TB, folder string) map[string][]byte {
	t.Helper()
	list, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, e := range list {
		if !e.Type().IsRegular() {
			continue
		}
		src, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[e.Name()] = src
	}
	return out
}

func open(t testing.TB, folder string, cache *Cache) *Ledger {
	t.Helper()
	l, err := Open(folder, cache)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func write(t testing.TB, folder, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// The club's four batches: the latest first, everything compared, the broken
// one named with its line.
func TestTheClubsLedger(t *testing.T) {
	t.Parallel()
	l := open(t, copied(t), nil)
	var titles []string
	for i := range l.Entries {
		titles = append(titles, l.Entries[i].Title)
	}
	if want := []string{"Gate Field Apple Day", "Gate Field Harvest", "Gate Field Midsummer", "Gate Field Spring"}; !slices.Equal(titles, want) {
		t.Errorf("%q, want %q", titles, want)
	}
	if len(l.Skipped) != 1 || l.Skipped[0].File != "broken.toml" || !strings.Contains(l.Skipped[0].Why.Error(), "broken.toml:7") {
		t.Errorf("skipped: %v", l.Skipped)
	}
	for i := range l.Entries {
		e := &l.Entries[i]
		p, err := calc.NewEngine().Predict(e.Design)
		if err != nil {
			t.Fatal(err)
		}
		if e.Predicted.FinalGravitySG != p.FinalGravitySG || e.Predicted.HeightHours != p.HeightHours {
			t.Errorf("%s is predicted otherwise than by the engine: %v, %v", e.File, e.Predicted.FinalGravitySG, p.FinalGravitySG)
		}
		for _, c := range e.Compare() {
			if !c.Measured.Known || !(c.Predicted.Low <= c.Predicted.Mid && c.Predicted.Mid <= c.Predicted.High) {
				t.Errorf("%s, %s: %+v", e.File, c.Name, c)
			}
		}
		if !e.Finished {
			t.Errorf("%s is not finished", e.File)
		}
	}
}

// What the ledger learns narrows the next prediction of the design.
func TestTheLedgerNarrowsTheNext(t *testing.T) {
	t.Parallel()
	l := open(t, copied(t), nil)
	d := l.Entries[0].Design
	lessons := l.Learn(d)
	if lessons.Batches != 4 {
		t.Fatalf("%d batches were heard", lessons.Batches)
	}
	for i := range lessons.Lessons {
		x := &lessons.Lessons[i]
		if len(x.Evidence) > 0 && x.NextSD >= x.PriorSD {
			t.Errorf("%s: %.3g for the next batch, %.3g before any", x.Key, x.NextSD, x.PriorSD)
		}
	}
	l.Entries[2].LeaveOut = true
	if n := l.Learn(d).Batches; n != 3 {
		t.Errorf("%d batches were heard with one left out", n)
	}
}

// Files of every kind: named, skipped, and the folder left as it was.
func TestOddFiles(t *testing.T) {
	t.Parallel()
	folder := copied(t)
	spring := string(contents(t, clubs)["2025-04-12-spring.toml"])
	plan, _, _ := strings.Cut(spring, "[[reading]]")
	write(t, folder, "plan.toml", plan)
	write(t, folder, "empty.toml", "")
	write(t, folder, "copy of spring.toml", spring)
	write(t, folder, "newer.toml", strings.Replace(spring, "format = 1", "format = 2", 1))
	write(t, folder, "large.toml", strings.Repeat("# no design is that long\n", 60000))
	write(t, folder, "binary.toml", "\x00\xff\xfe")
	write(t, folder, "absurd.toml", strings.Replace(spring, "into_fermenter_l = 15", "into_fermenter_l = 1500", 1))
	write(t, folder, "notes.txt", "not looked at")
	write(t, folder, ".hidden.toml", "not looked at")
	write(t, folder, "unfinished.TOML", strings.ReplaceAll(spring, `what = "final-gravity"`, `what = "gravity"`))
	if err := os.Mkdir(filepath.Join(folder, "folder.toml"), 0o755); err != nil {
		t.Fatal(err)
	}
	skipped := map[string]string{
		"plan.toml": "a plan", "empty.toml": "format", "copy of spring.toml": "", "newer.toml": "newer", "large.toml": "larger",
		"binary.toml": "UTF-8", "absurd.toml": "1500", "broken.toml": "fifteen",
	}
	if linktest.None() == "" {
		linktest.Symlink(t, "nowhere", filepath.Join(folder, "link.toml"))
		skipped["link.toml"] = "can't be found"
	}
	before := contents(t, folder)
	l := open(t, folder, nil)
	why := map[string]string{}
	for _, s := range l.Skipped {
		why[s.File] = s.Why.Error()
		if !strings.Contains(s.Error(), s.File) {
			t.Errorf("%q does not name its file", s)
		}
	}
	for name, says := range skipped {
		if name == "copy of spring.toml" {
			// One of the two is skipped, the later by name.
			name, says = "copy of spring.toml", "same"
			if why[name] == "" {
				name = "2025-04-12-spring.toml"
			}
		}
		if !strings.Contains(why[name], says) || why[name] == "" {
			t.Errorf("%s: %q does not say %q", name, why[name], says)
		}
	}
	if len(l.Entries) != 5 || len(l.Skipped) != len(skipped) {
		t.Errorf("%d listed, %d skipped: %v", len(l.Entries), len(l.Skipped), l.Skipped)
	}
	if open := l.Search("unfinished", nil); len(open) != 1 || open[0].Finished {
		t.Errorf("unfinished: %v", open)
	}
	if l.Learn(l.Entries[0].Design).Batches != 4 {
		t.Error("a batch that is not finished was heard")
	}
	if after := contents(t, folder); !maps.EqualFunc(before, after, bytes.Equal) {
		t.Error("the folder was changed by reading it")
	}
}

func TestFolderThatCannotBeRead(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	write(t, folder, "file", "")
	for _, c := range []struct {
		folder  string
		missing bool
		says    string
	}{
		{filepath.Join(folder, "none"), true, "make it"},
		{filepath.Join(folder, "file"), false, "a file, not a folder"},
	} {
		_, err := Open(c.folder, nil)
		var failed *FolderError
		if !errors.As(err, &failed) || failed.Missing() != c.missing || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.folder) {
			t.Errorf("%v, want one that says %q", err, c.says)
		}
		if _, err := add(c.folder, contents(t, clubs)["2025-04-12-spring.toml"]); !errors.As(err, &failed) {
			t.Errorf("added to %s: %v", c.folder, err)
		}
	}
	if err := Make(filepath.Join(folder, "file", "deeper")); err == nil || !strings.Contains(err.Error(), "file") {
		t.Errorf("made a folder in a file: %v", err)
	}
	made := filepath.Join(folder, "a", "b")
	if err := Make(made); err != nil {
		t.Fatal(err)
	}
	if l := open(t, made, nil); len(l.Entries)+len(l.Skipped) != 0 {
		t.Error("an empty folder is not empty")
	}
}

// Read-only: everything can be read, adding says what to do.
func TestReadOnlyFolder(t *testing.T) {
	t.Parallel()
	folder := copied(t)
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.Chmod(folder, 0o755) })
	if err := os.Mkdir(filepath.Join(folder, "x"), 0o755); err == nil {
		t.Skip("permissions do not bind this user, or folders here")
	}
	if l := open(t, folder, nil); len(l.Entries) != 4 {
		t.Errorf("%d entries", len(l.Entries))
	}
	_, err := add(folder, contents(t, clubs)["2025-04-12-spring.toml"])
	if err == nil || !strings.Contains(err.Error(), "no permission to write there") {
		t.Errorf("added to a read-only folder: %v", err)
	}
}

// Adding writes the very text, by date and title, and never over a file.
func TestAdd(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	src := contents(t, clubs)["2025-06-07-midsummer.toml"]
	var names []string
	for range 3 {
		path, err := add(folder, src)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, filepath.Base(path))
	}
	if want := []string{"2025-06-07-gate-field-midsummer.toml", "2025-06-07-gate-field-midsummer-2.toml", "2025-06-07-gate-field-midsummer-3.toml"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	for name, got := range contents(t, folder) {
		if !bytes.Equal(got, src) {
			t.Errorf("%s is not what was added", name)
		}
	}
	if _, err := add(folder, []byte("title = 3")); err == nil {
		t.Error("added what is no design")
	}
	wild := bytes.Replace(src, []byte("Gate Field Midsummer"), []byte("../../Größer & \\\\\\\"CON\\\" / \\t?"), 1)
	path, err := add(folder, wild)
	if err != nil {
		t.Fatal(err)
	}
	if filepath.Dir(path) != folder || filepath.Base(path) != "2025-06-07-größer-con.toml" {
		t.Errorf("a wild title became %s", path)
	}
}

func TestSearchAndOrder(t *testing.T) {
	t.Parallel()
	l := open(t, copied(t), nil)
	for query, want := range map[string]int{"": 4, "apple": 1, "APPLE day": 1, "2025-06": 1, "june 2025": 1, "english": 1, "lime goldings": 4, "porter": 0} {
		if got := len(l.Search(query, nil)); got != want {
			t.Errorf("%q finds %d, want %d", query, got, want)
		}
	}
	german := func(t time.Time) string {
		return fmt.Sprintf("%d. %s %d", t.Day(), [...]string{"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember"}[t.Month()-1], t.Year())
	}
	if got := len(l.Search("juni 2025", german)); got != 1 {
		t.Errorf("a day in German finds %d, want 1", got)
	}
	all := l.Search("", nil)
	Order(all, Strength, true)
	for i := 1; i < len(all); i++ {
		if all[i].Measured.StrengthPct.Mean < all[i-1].Measured.StrengthPct.Mean {
			t.Error("not in order of strength")
		}
	}
	all[1].Measured.StrengthPct.Known = false
	for _, rising := range []bool{true, false} {
		Order(all, Strength, rising)
		if all[3].Measured.StrengthPct.Known {
			t.Error("what is not known is not last")
		}
	}
	Order(all, "title", false)
	if all[0].Title != "Gate Field Spring" {
		t.Errorf("%s comes first from the end", all[0].Title)
	}
}

// The export reads back, numbers and all.
func TestExport(t *testing.T) {
	t.Parallel()
	l := open(t, copied(t), nil)
	l.Entries[1].Title = "=HYPERLINK(\"x\"), \"quoted\"\nand broken"
	l.Entries[2].Measured = learn.Measured{}
	l.Entries[2].Unpredicted = errors.New("why")
	var b bytes.Buffer
	if err := ExportCSV(&b, l.Search("", nil)); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 5 {
		t.Fatalf("%d rows", len(rows))
	}
	at := func(row int, column string) string {
		i := slices.Index(rows[0], column)
		if i < 0 {
			t.Fatalf("no column %s in %q", column, rows[0])
		}
		return rows[row][i]
	}
	og, err := strconv.ParseFloat(at(1, "measured_original_gravity_sg"), 64)
	if err != nil || math.Abs(og-l.Entries[0].Measured.OriginalGravitySG.Mean) > 5e-5 {
		t.Errorf("original gravity %v, %v", og, err)
	}
	if got := at(2, "title"); got != "'"+l.Entries[1].Title {
		t.Errorf("title %q", got)
	}
	if at(3, "measured_strength_pct") != "" || at(3, "predicted_strength_pct_mid") != "" {
		t.Error("a number stands where nothing is known")
	}
	if at(1, "date") != "2025-10-18" {
		t.Errorf("date %s", at(1, "date"))
	}
}

// From the cache comes what was worked out; a changed file is read anew.
func TestCache(t *testing.T) {
	t.Parallel()
	folder, cache := copied(t), NewCache()
	first := open(t, folder, cache)
	if again := open(t, folder, cache); !reflect.DeepEqual(first, again) {
		t.Error("the cache tells something else")
	}
	path := filepath.Join(folder, "2025-04-12-spring.toml")
	src := strings.Replace(string(contents(t, folder)["2025-04-12-spring.toml"]), "Gate Field Spring", "Late Spring", 1)
	write(t, folder, filepath.Base(path), src)
	if l := open(t, folder, cache); len(l.Search("late spring", nil)) != 1 || len(l.Entries) != 4 {
		t.Error("a changed file was not read anew")
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if l := open(t, folder, cache); len(l.Entries) != 3 || len(cache.known) != 3 {
		t.Errorf("%d entries, %d cached after one was removed", len(l.Entries), len(cache.known))
	}
}

// thousand is a folder of as many different batches. alike: on fifty mashes;
// else each on its own.
func thousand(t testing.TB, alike bool) string { return many(t, 1000, alike) }

func many(t testing.TB, n int, alike bool) string {
	t.Helper()
	folder := t.TempDir()
	src := string(contents(t, clubs)["2025-06-07-midsummer.toml"])
	start := time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)
	for i := range n {
		k := i
		if alike {
			k = i % 50
		}
		s := strings.Replace(src, "Gate Field Midsummer", fmt.Sprintf("Batch %d of %s", i, start.AddDate(0, 0, 9*i).Format("2006")), 1)
		s = strings.Replace(s, "mass_kg = 2.7", fmt.Sprintf("mass_kg = %.4f", 2.5+0.0005*float64(k)), 1)
		write(t, folder, fmt.Sprintf("%04d.toml", i), s)
	}
	return folder
}

// What one session predicted the next one has, unless the engine is another.
func TestCacheIsKept(t *testing.T) {
	t.Parallel()
	folder, path := copied(t), filepath.Join(t.TempDir(), "skep", "ledger.json")
	cache := NewCache()
	want := open(t, folder, cache)
	if err := cache.Save(path); err != nil {
		t.Fatal(err)
	}
	next := NewCache()
	next.Load(path)
	l, err := Read(folder, next)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(l, want) {
		t.Error("the next session has not what this one worked out")
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for what, bad := range map[string]string{
		"another engine": strings.Replace(string(src), engineMark(), "of another year", 1), "half a file": string(src[:len(src)/2]), "nothing": "",
	} {
		write(t, filepath.Dir(path), "bad.json", bad)
		next := NewCache()
		next.Load(filepath.Join(filepath.Dir(path), "bad.json"))
		if len(next.stored) != 0 {
			t.Errorf("%s was believed", what)
		}
	}
	NewCache().Load(filepath.Join(folder, "none"))
}

// A thousand batches, measured: in a session opening again takes some 20 ms;
// with the predictions of an earlier session, reading and measuring are left,
// 0.3 s on two idle processors. The bounds only catch work that is done again; a
// busy machine was seen to take 4 s. What the system takes to give a thousand files
// comes on top, as it is not ours: where it is Linux 20 ms, a virus scanner looks into
// each, and under wine each opening asks its server (2.5 to 7.5 s for a program that
// does nothing else). How it grows is BenchmarkGrowthBatches.
func TestAThousandBatches(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand batches")
	}
	folder, cache := thousand(t, true), NewCache()
	path := filepath.Join(t.TempDir(), "ledger.json")
	timed := func(do func()) time.Duration {
		start := time.Now()
		do()
		return time.Since(start)
	}
	var l *Ledger
	cold := timed(func() { l = open(t, folder, cache) })
	warm := timed(func() { l = open(t, folder, cache) })
	saved := timed(func() {
		if err := cache.Save(path); err != nil {
			t.Fatal(err)
		}
	})
	next := NewCache()
	kept := timed(func() { next.Load(path); l = open(t, folder, next) })
	bare := timed(func() {
		for _, e := range l.Entries {
			if _, err := os.ReadFile(e.Path); err != nil {
				t.Fatal(err)
			}
		}
	})
	var heard int
	learning := timed(func() { heard = l.Learn(l.Entries[0].Design).Batches })
	t.Logf("first of all %v, in a session %v, in the next %v; saving %v, learning %v; the files alone %v", cold, warm, kept, saved, learning, bare)
	if len(l.Entries) != 1000 || heard != 1000 {
		t.Errorf("%d entries, %d heard", len(l.Entries), heard)
	}
	if warm > 2*time.Second+2*bare || kept > 15*time.Second+2*bare {
		t.Errorf("a thousand batches took %v in a session, %v in the next, their files alone %v", warm, kept, bare)
	}
}

func BenchmarkOpen(b *testing.B) {
	for _, c := range []struct {
		name  string
		alike bool
		read  func(string, *Cache) (*Ledger, error)
	}{{"all, fifty mashes", true, Open}, {"all, a thousand mashes", false, Open}, {"list and measured", false, Read}} {
		folder := thousand(b, c.alike)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := c.read(folder, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkGrowthBatches reads, predicts and learns so many batches, nothing
// kept from before, every mash another.
func BenchmarkGrowthBatches(b *testing.B) {
	for _, n := range []int{1, 10, 100, 1000} {
		folder := many(b, n, false)
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			for b.Loop() {
				l, err := Open(folder, nil)
				if err != nil {
					b.Fatal(err)
				}
				if l.Learn(l.Entries[0].Design).Batches != n {
					b.Fatal("not all were heard")
				}
			}
		})
	}
}
