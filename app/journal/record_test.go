package journal

import (
	"bytes"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"skep/app/savefile"
)

func someBase(t *rapid.T) Base {
	b := Base{
		Path:  rapid.StringMatching(`(/[a-z \xff"\\]{1,8}){0,4}`).Draw(t, "path"),
		Fresh: rapid.Bool().Draw(t, "fresh"),
		Text:  rapid.String().Draw(t, "base"),
	}
	if b.OnDisk = rapid.Bool().Draw(t, "on disk"); b.OnDisk {
		b.Print = savefile.Fingerprint{Size: rapid.Int64().Draw(t, "size"), ModTime: time.Unix(0, rapid.Int64().Draw(t, "mtime"))}
		copy(b.Print.Hash[:], rapid.SliceOfN(rapid.Byte(), 32, 32).Draw(t, "hash"))
	}
	return b
}

// rows is a journal of some records, and the works that it holds.
func rows(t *rapid.T) (data []byte, works []Work) {
	base := someBase(t)
	add := func(r record) {
		raw, err := r.encode()
		if err != nil {
			t.Fatal(err)
		}
		data = append(data, raw...)
	}
	add(record{3, baseMeta(base), []byte(base.Text)})
	for i := range rapid.IntRange(1, 5).Draw(t, "records") {
		w := Work{base, rapid.StringMatching(`[a-z é]*`).Draw(t, "step"), []byte(rapid.String().Draw(t, "text")), time.UnixMilli(rapid.Int64().Draw(t, "when"))}
		works = append(works, w)
		add(record{uint64(4 + i), meta{Kind: kindWork, When: w.When.UnixMilli(), Step: w.Step}, w.Text})
	}
	return data, works
}

func TestAJournalReadsBackExactly(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		data, works := rows(t)
		got, _, ok := newest(data)
		want := works[len(works)-1]
		if !ok || !got.Base.same(want.Base) || !got.Base.Print.ModTime.Equal(want.Base.Print.ModTime) {
			t.Fatalf("base read as %+v (%v), was %+v", got.Base, ok, want.Base)
		}
		got.Base, want.Base = Base{}, Base{}
		if !bytes.Equal(got.Text, want.Text) || got.Step != want.Step || !got.When.Equal(want.When) {
			t.Fatalf("work read as %+v, was %+v", got, want)
		}
	})
}

// Whatever is cut off or altered, what is read is a beginning of what was
// written, never something else.
func TestDamageNeverReadsAsSomethingElse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		data, _ := rows(t)
		whole := decode(data)
		bad := bytes.Clone(data)
		at := rapid.IntRange(0, len(bad)-1).Draw(t, "at")
		switch rapid.IntRange(0, 3).Draw(t, "damage") {
		case 0:
			bad = bad[:at]
		case 1:
			bad[at] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		case 2: // a block that never reached the disk reads as zeros
			clear(bad[at:])
		case 3:
			bad = append(bad[:at], rapid.SliceOf(rapid.Byte()).Draw(t, "rubbish")...)
		}
		got := decode(bad)
		if len(got) > len(whole) || len(got) > 0 && !reflect.DeepEqual(got, whole[:len(got)]) {
			t.Fatalf("read %d records, not a beginning of the %d written", len(got), len(whole))
		}
		if bytes.Equal(bad, data) != (len(got) == len(whole)) && len(bad) <= len(data) {
			t.Fatalf("damaged: %v, yet %d of %d records read", !bytes.Equal(bad, data), len(got), len(whole))
		}
	})
}

func TestRecordsOutOfOrderAreNotTaken(t *testing.T) {
	t.Parallel()
	var data []byte
	for _, seq := range []uint64{1, 2, 2} {
		m := meta{Kind: kindWork}
		if seq == 1 {
			m = baseMeta(Base{})
		}
		raw, err := record{seq, m, []byte(strings.Repeat("x", len(data)))}.encode()
		if err != nil {
			t.Fatal(err)
		}
		data = append(data, raw...)
	}
	if got := decode(data); len(got) != 2 {
		t.Errorf("%d records read of 1, 2, 2", len(got))
	}
}

func FuzzDecode(f *testing.F) {
	raw, _ := record{1, baseMeta(Base{Path: "/a", Text: "x"}), []byte("x")}.encode()
	f.Add(raw)
	f.Add([]byte(mark + "1 -1 99999999999999999999 x\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, r := range decode(data) {
			again, err := r.encode()
			if err != nil {
				t.Fatal(err)
			}
			if back := decode(again); len(back) != 1 || !reflect.DeepEqual(back[0], r) {
				t.Fatal("a record that was read does not read back")
			}
		}
		newest(data)
	})
}
