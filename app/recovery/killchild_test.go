package recovery_test

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"skep/app/editor"
	"skep/app/recovery"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/design/file"
)

// The test binary runs itself as the program that is killed.
const (
	childVariable = "SKEP_KILL_CHILD" // the folder to work in
	seedVariable  = "SKEP_KILL_SEED"
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(childVariable); dir != "" {
		if err := child(dir); err != nil {
			fmt.Println("broken", err)
		}
		os.Exit(1) // it is meant to be killed
	}
	if dir := os.Getenv(smallVariable); dir != "" {
		os.Exit(onSmallDisk(dir))
	}
	flag.Parse()
	os.Exit(m.Run())
}

func store(dir string) *recovery.Store {
	return recovery.SweepAtOnce(recovery.Open(filepath.Join(dir, "state")))
}

func fileIn(dir string) string { return filepath.Join(dir, "brews", "brew.toml") }

// lastLine is a person's own words at the end of the file.
const lastLine = "# all of it above, this line too\n"

func firstFile() []byte {
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		panic(err)
	}
	return append(src, lastLine...)
}

// version makes a design the nth of those that the program goes through. The
// number stands in the title, and all else follows from it.
func version(n int, first design.Design) design.Design {
	d := first.Clone()
	d.Title = fmt.Sprint("version ", n)
	d.Mash.Rest[0].TemperatureC = 58 + float64(n*37%141)/10
	d.Grain[0].MassKg = 1 + float64(n*53%997)/1000
	if n%7 == 3 {
		d.Mash.Rest = append(d.Mash.Rest, design.NewRest())
	}
	if n%11 == 5 {
		d.Honey = nil
	}
	return d
}

func numberOf(d design.Design) (n int, err error) {
	_, err = fmt.Sscanf(d.Title, "version %d", &n)
	return n, err
}

// child works as the window does: opens, takes back what was left, changes,
// undoes and saves in bursts and pauses, and reports each step once it is done.
func child(dir string) error {
	var seed uint64
	if _, err := fmt.Sscan(os.Getenv(seedVariable), &seed); err != nil {
		return err
	}
	luck := rand.New(rand.NewPCG(seed, 88))
	say := func(what string, n int) { fmt.Printf("%s %d %d\n", what, n, time.Now().UnixNano()) }

	doc, _ := file.Parse("", firstFile())
	first := doc.Design
	e, err := editor.New("", firstFile())
	if err != nil {
		return err
	}
	k := editor.NewKeeper(e, store(dir), func(err error) {
		if err != nil {
			fmt.Println("broken", err)
		}
	})
	if _, err := e.Open(fileIn(dir)); err != nil {
		return err
	}
	if k.Busy() != nil {
		return errors.New("the lock of the dead is not free")
	}
	all, err := k.Left()
	if err != nil {
		return err
	}
	for i, l := range all {
		// The latest is taken back; an older one can only be the same, from a
		// death between taking back and removing.
		if i == 0 {
			err = k.TakeBack(l)
		} else {
			err = l.Discard()
		}
		if err != nil {
			return err
		}
	}
	n, err := numberOf(e.Design())
	if err != nil {
		return err
	}
	say("state", n)
	for {
		switch r := luck.IntN(100); {
		case r < 8:
			say("saving", n)
			if err := k.Save(); err != nil {
				return err
			}
			say("saved", n)
		case r < 16 && e.Undo():
			if n, err = numberOf(e.Design()); err != nil {
				return err
			}
			say("state", n)
		default:
			n++
			gesture := []string{"", "drag"}[luck.IntN(2)]
			if err := e.Change("version "+strings.Repeat("x", n%5), gesture, func(d *design.Design) { *d = version(n, first) }); err != nil {
				return err
			}
			say("state", n)
		}
		if luck.IntN(20) == 0 {
			time.Sleep(time.Duration(luck.IntN(400)) * time.Millisecond)
		} else {
			time.Sleep(time.Duration(luck.IntN(8000)) * time.Microsecond)
		}
	}
}
