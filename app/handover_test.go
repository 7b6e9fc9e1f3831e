package app

import (
	"testing"
	"time"

	"skep/app/recovery"
)

// What is handed over before the toolkit runs is done by who waits for it, and what
// comes later goes to the toolkit, each once and in order.
func TestHandover(t *testing.T) {
	t.Parallel()
	var got []int
	toolkit := make(chan func(), 10)
	h := newHandover(func(f func()) { toolkit <- f })
	came := false
	go func() {
		for i := range 3 {
			h.do(func() { got = append(got, i); came = i == 2 })
		}
	}()
	h.while(func() bool { return !came }, 10*time.Second)
	if len(got) != 3 || got[0] != 0 || got[2] != 2 {
		t.Fatalf("came %v, want 0 1 2", got)
	}
	began := time.Now()
	h.while(func() bool { return true }, 30*time.Millisecond)
	if took := time.Since(began); took < 30*time.Millisecond || took > 5*time.Second {
		t.Errorf("waited %v for what never comes", took)
	}
	h.do(func() { got = append(got, 3) })
	h.toToolkit()
	h.do(func() { got = append(got, 4) })
	if len(got) != 4 || len(toolkit) != 1 {
		t.Fatalf("came %v, %d went to the toolkit", got, len(toolkit))
	}
	(<-toolkit)()
	if got[4] != 4 {
		t.Error(got)
	}
}

// Nothing has to be waited for once a file has come or was refused.
func TestReadingEnds(t *testing.T) {
	for _, path := range []string{"../assets/demo/gate-field-dry.toml", "no-such-file.toml"} {
		if s := stageWith(t, path, recovery.Open(t.TempDir())); s.Reading() {
			t.Errorf("%s: it is said to be read still", path)
		}
	}
}
