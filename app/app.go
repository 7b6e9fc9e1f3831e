// Package app is Skep's window: the bar, the file menu, the table of places and
// the closing.
//
// A file's name comes in, an exit code goes out; what the places share is app/shell.
// It imports no display driver, which main hands in, and must not know what a place
// shows.
package app

import (
	"fmt"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"skep/app/display"
	"skep/app/recovery"
	"skep/app/shell"
	"skep/app/userfile"
	"skep/assets"
)

// noDisplay is the exit code when the machine fails us.
const noDisplay = 3

// garbagePct lets little garbage pile up: a window stands open for hours, and
// collecting oftener costs a drag nothing that can be measured (.ci/soak).
const garbagePct = 40

// firstPatience is how long a window that is not shown yet waits for its design.
const firstPatience = 400 * time.Millisecond

// scaleVariable is the toolkit's, for how large everything is drawn.
const scaleVariable = "FYNE_SCALE"

// ID names the program to the desktop and to Fyne's preferences.
const ID = "org.skep.Skep"

// Main opens the window on a design file, or on what was open last, or on the
// demonstration, and returns the exit code when it is closed.
func Main(driver func(id string) fyne.App, file string) (code int) {
	defer func() {
		// A display that answers but can't be drawn on ends in a panic of the
		// driver; anything else is a fault of ours and must be seen.
		if r := recover(); r != nil {
			if !strings.Contains(fmt.Sprint(r), "GLFW") {
				panic(r)
			}
			fmt.Fprintln(os.Stderr, "skep: the display can't be used:", r)
			code = noDisplay
		}
	}()
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePct)
	}
	p := shell.LoadPreferences(userfile.PreferencesPath(), userfile.OldPreferencesPath(ID))
	p.Speak()
	state := recovery.Folder()
	logToolkit(state)
	if err := display.Ready(); err != nil {
		fmt.Fprintln(os.Stderr, "skep:", err)
		return noDisplay
	}
	a := driver(ID)
	a.SetIcon(fyne.NewStaticResource("skep.png", assets.IconPNG))
	a.Settings().SetTheme(p.Theme())
	// The toolkit has no other way for a program to say how large it is drawn.
	if p.SizePct != 0 && os.Getenv(scaleVariable) == "" {
		_ = os.Setenv(scaleVariable, strconv.FormatFloat(float64(p.SizePct)/100, 'f', -1, 64))
	}
	h := newHandover(fyne.Do)
	b := newBench(a, p, recovery.Open(state), h.do)
	b.Beside()
	// The file is there before the window is: no other design is seen first, and no
	// key is meant for one. A disk that takes its time is waited for by the window.
	b.open(file)
	h.while(b.Reading, firstPatience)
	h.toToolkit()
	a.Lifecycle().SetOnStarted(b.start)
	b.Window().ShowAndRun()
	b.close()
	return 0
}
