//go:build ci

package app

import (
	"path/filepath"
	"reflect"
	"regexp"
	"runtime/pprof"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/adrg/xdg"

	"skep/app/look"
	"skep/app/recovery"
	"skep/app/savefile"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/calc/design"
)

// gate stands in for a disk that answers nothing while it is shut.
type gate struct {
	mu   sync.Mutex
	open chan struct{}
	held int // how often something waited
}

// newGate is an open one before every file there is.
func newGate(t testing.TB) *gate {
	g := &gate{open: make(chan struct{})}
	close(g.open)
	release := savefile.Hold(func(string) {
		g.mu.Lock()
		open := g.open
		select {
		case <-open:
		default:
			g.held++
		}
		g.mu.Unlock()
		<-open
	})
	t.Cleanup(release)
	return g
}

func (g *gate) shut() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.open = make(chan struct{})
}

func (g *gate) unlock() {
	g.mu.Lock()
	defer g.mu.Unlock()
	select {
	case <-g.open:
	default:
		close(g.open)
	}
}

// crawler presses whatever can be pressed, while the disk answers nothing.
type crawler struct {
	*scene
	t       *testing.T
	g       *gate
	took    []time.Duration
	longest time.Duration
	where   string
}

// slowStage is a bench in which what waits for a disk is done beside the window, with
// all that a person may have of their own.
func slowStage(t *testing.T) *crawler {
	t.Helper()
	home := t.TempDir()
	t.Setenv("HOME", home)
	for _, name := range []string{"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_DOCUMENTS_DIR"} {
		t.Setenv(name, filepath.Join(home, name))
	}
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	g := newGate(t)
	a := test.NewApp()
	a.Settings().SetTheme(look.New(look.Light))
	q := &queue{}
	b := newBench(a, shell.LoadPreferences(userfile.PreferencesPath(), ""), recovery.Open(recovery.Folder()), q.do)
	b.Beside()
	b.Window().Resize(fyne.NewSize(1280, 800))
	b.Window().Show()
	s := &scene{b, q}
	t.Cleanup(func() {
		g.unlock()
		s.settle()
		b.close()
	})
	c := &crawler{scene: s, t: t, g: g}
	path := filepath.Join(home, "mine.toml")
	kit := design.KitOf(s.Design())
	kit.Kit.Name = "Shed kettle"
	if _, err := userfile.AddKit(userfile.KitsIn(s.OwnFolder), kit); err != nil {
		t.Fatal(err)
	}
	if err := s.Edit("kit", func(d *design.Design) { d.Kit.Name = "Shed kettle"; d.Kit.SteamLPerH = 1.9 }); err != nil {
		t.Fatal(err)
	}
	if err := s.Editor.SaveOver(path); err != nil {
		t.Fatal(err)
	}
	c.do("start", func() { s.open(path); s.start() })
	return c
}

// do is one call on the window's goroutine while the disk answers nothing; what it
// asked for comes afterwards.
func (c *crawler) do(what string, call func()) {
	c.t.Helper()
	c.g.shut()
	hung := time.AfterFunc(3*time.Second, func() {
		var stacks strings.Builder
		_ = pprof.Lookup("goroutine").WriteTo(&stacks, 2)
		c.t.Errorf("%s waits for the disk with the window:\n%.6000s", what, stacks.String())
		c.g.unlock()
	})
	began := time.Now()
	call()
	c.q.drain() // what is told while it is waited for
	took := time.Since(began)
	if took > c.longest {
		c.longest, c.where = took, what
	}
	c.took = append(c.took, took)
	hung.Stop()
	c.g.unlock()
	c.Disk().Idle()
	c.q.drain()
	c.Disk().Idle()
	c.q.drain()
}

// name is what tells a control from others.
func name(o fyne.CanvasObject) string {
	switch o := o.(type) {
	case *ui.Choice:
		return "choice " + o.Name + "/" + o.Text
	case *ui.Button:
		return "button " + o.Text
	case *widget.Button:
		return "button " + o.Text
	case *ui.Check:
		return "check " + o.Text
	case *widget.Check:
		return "check " + o.Text
	case *ui.Select:
		return "select " + o.Selected
	}
	if v := reflect.ValueOf(o).Elem(); v.Kind() == reflect.Struct && v.FieldByName("Item").IsValid() {
		return "item " + v.FieldByName("Item").Interface().(*fyne.MenuItem).Label
	}
	kind := reflect.TypeOf(o).String()
	if spoken, ok := o.(interface{ AccessibilityLabel() string }); ok {
		return kind + " " + spoken.AccessibilityLabel()
	}
	return kind
}

// shown are the objects that stand in one and are not hidden.
func shown(top fyne.CanvasObject) (all []fyne.CanvasObject) {
	if !top.Visible() {
		return nil
	}
	all = append(all, top)
	switch o := top.(type) {
	case *fyne.Container:
		for _, in := range o.Objects {
			all = append(all, shown(in)...)
		}
	case fyne.Widget:
		for _, in := range test.WidgetRenderer(o).Objects() {
			all = append(all, shown(in)...)
		}
	}
	return all
}

// controls are what can be pressed in an object.
func controls(top fyne.CanvasObject) (all []fyne.CanvasObject) {
	for _, o := range shown(top) {
		if _, ok := o.(fyne.Tappable); !ok {
			continue
		}
		switch o.(type) {
		case *ui.Entry, *widget.Entry, *widget.PopUp, *widget.PopUpMenu: // where one types, or what lies under a drawer
			continue
		}
		if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
			continue
		}
		all = append(all, o)
	}
	return all
}

func (c *crawler) over() fyne.CanvasObject { return c.Window().Canvas().Overlays().Top() }

// leave closes what stands over the window.
func (c *crawler) leave() {
	for n := 0; c.over() != nil && n < 10; n++ {
		c.Window().Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if top := c.over(); top != nil {
			if pop, ok := top.(*widget.PopUpMenu); ok {
				pop.Hide()
			}
		}
		c.q.drain()
	}
	for c.over() != nil {
		c.Window().Canvas().Overlays().Remove(c.over())
	}
}

// menuItems are what a menu offers.
func menuItems(top fyne.CanvasObject) (items []fyne.CanvasObject) {
	for _, o := range shown(top) {
		if strings.HasSuffix(reflect.TypeOf(o).String(), ".menuItem") {
			items = append(items, o)
		}
	}
	return items
}

// press presses a control, and then each control of what it opens.
func (c *crawler) press(where string, o fyne.CanvasObject, deep bool) {
	what := where + ", " + name(o)
	c.do(what, func() { o.(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
	if top := c.over(); deep && top != nil {
		inside, menu := controls(top), menuItems(top)
		for i := range min(len(inside)+len(menu), 30) {
			top = c.over()
			if top == nil { // the last press has closed it
				c.do(what, func() { o.(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
				if top = c.over(); top == nil {
					break
				}
			}
			now, items := controls(top), menuItems(top)
			switch {
			case i < len(now):
				c.do(what+" > "+name(now[i]), func() { now[i].(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
			case i-len(now) < len(items):
				c.do(what+" > "+name(items[i-len(now)]), func() { items[i-len(now)].(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
			}
			if c.over() != top {
				c.leave()
			}
			if c.Closing {
				c.t.Fatalf("%s > %d closed the window", what, i)
			}
		}
	}
	c.leave()
}

// figures are what changes in the name of a control when its value does.
var figures = regexp.MustCompile(`[-+−0-9.,:±…]+`)

// leavesThePlaces is the control that fills the window with the brew day.
const leavesThePlaces = "choice /Start the day"

// each presses the controls of an object, and those of what they open.
func (c *crawler) each(where string, of func() fyne.CanvasObject, back func()) {
	pressed := map[string]bool{}
	kind := func(o fyne.CanvasObject) string { return figures.ReplaceAllString(name(o), "") }
	for range 80 {
		var next fyne.CanvasObject
		for _, o := range controls(of()) {
			if !pressed[kind(o)] && name(o) != leavesThePlaces {
				next = o
				break
			}
		}
		if next == nil {
			break
		}
		pressed[kind(next)] = true
		c.press(where, next, true)
		back()
	}
	c.t.Logf("%s: %d controls", where, len(pressed))
	if len(pressed) < 3 {
		c.t.Errorf("%s: only %v was found to press", where, pressed)
	}
}

// Every control of every place, and every control of what they open, answers while no
// disk does: nothing on the window's goroutine waits for a file.
func TestNothingOnTheWindowWaitsForTheDisk(t *testing.T) {
	c := slowStage(t)
	for place := range c.places {
		back := func() {
			if c.at != place {
				c.do("going to a place", func() { c.goTo(place) })
				c.settle()
			}
		}
		c.do("going to a place", func() { c.goTo(place) })
		c.settle()
		c.each(c.places[place].name, func() fyne.CanvasObject { return c.places[place].view }, back)
	}
	enter := func() {
		if !c.day.Open() {
			c.do("the brew day", c.startDay)
			if top := c.over(); top != nil { // a plan that is not saved is asked about
				for _, o := range controls(top) {
					if name(o) == "button Brew without saving it" {
						c.do("the brew day, without saving", func() { o.(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
						break
					}
				}
			}
			c.settle()
		}
	}
	enter()
	c.each("the brew day", c.day.Object, enter)
	if c.day.Open() {
		c.day.Leave()
	}
	// The menu, an item after the other; closing comes last and ends the window.
	items := 0
	for i := 0; ; i++ {
		c.do("the menu", c.menu)
		all := menuItems(c.over())
		if i >= len(all)-1 {
			c.leave()
			break
		}
		items++
		what := "the menu, " + name(all[i])
		c.do(what, func() { all[i].(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
		if top := c.over(); top != nil {
			for _, o := range controls(top) {
				if c.over() == top {
					c.do(what+" > "+name(o), func() { o.(fyne.Tappable).Tapped(&fyne.PointEvent{}) })
				}
			}
		}
		c.leave()
	}
	c.do("a file that is dropped", func() { c.Dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(c.Path())}) })
	c.leave()
	c.do("closing", c.AskClose)
	slices.Sort(c.took)
	most := c.took[len(c.took)*95/100]
	t.Logf("%d items of the menu; %d calls, one in twenty above %v, the longest %v: %s; %d times something waited for the disk",
		items, len(c.took), most, c.longest, c.where, c.g.held)
	if c.g.held < 40 || items < 10 {
		t.Errorf("only %d times was a file asked for, and %d items of the menu pressed", c.g.held, items)
	}
	// A call that waits has been reported above. Of the time that the others take, one
	// in twenty is left to what else the machine does, and to the toolkit's own
	// dialog of files.
	if most > 100*time.Millisecond && !testing.Short() { // short is under the race detector, ten times slower
		t.Errorf("one call in twenty takes more than %v", most)
	}
}
