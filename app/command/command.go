package command

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"skep/app/command/helptext"
	"skep/app/display"
	"strconv"
	"strings"

	"github.com/alecthomas/kong"

	"skep/app/locale"
	"skep/app/safetext"
	"skep/app/savefile"
	"skep/app/words"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Version is the program's version; FyneApp.toml repeats it for packaging.
const Version = "0.2.0"

// version is the version with the commit that the program was built from, where
// the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return Version
	}
	commit, changed := "", ""
	for _, x := range info.Settings {
		switch {
		case x.Key == "vcs.revision":
			commit = x.Value
		case x.Key == "vcs.modified" && x.Value == "true":
			changed = ", changed since"
		}
	}
	if commit == "" {
		return Version
	}
	return fmt.Sprintf("%s (commit %.12s%s)", Version, commit, changed)
}

// Todo is what is left to do after Run: open the window on File (none: ""), or
// exit with Code.
type Todo struct {
	Code   int
	Window bool
	File   string
}

// grammar is the command line as kong reads it.
type grammar struct {
	Version  kong.VersionFlag `help:"Print the version."`
	Language string           `placeholder:"TAG" help:"The language, such as de; else the environment's (SKEP_LANGUAGE, LC_ALL, LC_MESSAGES, LANG)."`

	Check     checkCommand     `cmd:"" help:"Read a design and say what is wrong with it."`
	Predict   predictCommand   `cmd:"" help:"Predict the beer, as a table or as JSON."`
	Compare   compareCommand   `cmd:"" help:"Set every yeast of a design side by side."`
	Course    courseCommand    `cmd:"" help:"Follow the fermentation hour by hour."`
	Sweep     sweepCommand     `cmd:"" help:"Move one lever across its range."`
	Tune      tuneCommand      `cmd:"" help:"Find lever settings that reach the design's taste."`
	Explain   explainCommand   `cmd:"" help:"Open a number: formula, inputs, source, what moves it."`
	Plot      plotCommand      `cmd:"" help:"Draw the four pictures into a file."`
	Sheet     sheetCommand     `cmd:"" help:"Print the brew day: a sheet to brew from, as PDF or text."`
	Reckon    reckonCommand    `cmd:"" help:"Do one calculation on its own."`
	Start     startCommand     `cmd:"" help:"Make a design from what you have: kit, honey, yeast, strength."`
	Follow    followCommand    `cmd:"" help:"Follow a fermentation by its readings: state, honey, bottle."`
	Batches   batchesCommand   `cmd:"" help:"List finished batches, predicted against measured."`
	Learnt    learntCommand    `cmd:"" help:"List what finished batches have taught."`
	Kit       kitCommand       `cmd:"" help:"Show or change a kit; without a name, list them."`
	Catalogue catalogueCommand `cmd:"" help:"List the ingredients that Skep knows."`
	Help      helpCommand      `cmd:"" help:"Explain a command, or every key of a design file."`
}

// about is what the program says of itself.
func about(say helptext.Speaker) string {
	return say(message.New("Skep tunes a honey beer between sweet and dry, light and full.")) + "\n\n" +
		say(message.New(`"skep" alone or "skep FILE" opens the window. The commands below run without a display. A file that is called like a command is opened as ./NAME.`))
}

// session is one run of a command: its streams, and the results so far.
type session struct {
	Streams
	say  quantity.Formatter // in the person's language and units
	rows []row              // of a table that is not printed yet
	out  bytes.Buffer       // the results; they leave in one piece at the end
}

// speaking writes in the person's language and units. JSON and CSV are formats and
// do not ask it.
func speaking() quantity.Formatter {
	return quantity.NewFormatter(locale.Current().Units, words.Translate)
}

func (s *session) printf(format string, a ...any) { fmt.Fprintf(&s.out, format, a...) }

// exit is how kong's own endings (--help, --version) come back to run.
type exit int

// Run does what the arguments (without the program's name) ask.
func Run(args []string, streams Streams) Todo {
	args, err := chooseLanguage(args)
	if err != nil {
		return Todo{Code: streams.failure(misused(err))}
	}
	if file, ok := windowFor(args); ok {
		return openWindow(file, streams)
	}
	s := &session{Streams: streams, say: speaking()}
	err = s.run(args)
	if s.out.Len() > 0 {
		if _, e := io.WriteString(s.Out, safetext.Text(s.out.String())); e != nil {
			err = broken(message.NewError("can't write the result: {error}", e))
		}
	}
	if err != nil {
		return Todo{Code: streams.failure(err)}
	}
	return Todo{Code: Done}
}

// Alone is [Run] of a program that has no window: asked for one, it says why.
func Alone(args []string, streams Streams, why error) int {
	if plain, err := chooseLanguage(args); err == nil {
		args = plain
	}
	if _, ok := windowFor(args); ok {
		return streams.failure(broken(why))
	}
	return Run(args, streams).Code
}

// windowFor tells whether the arguments ask for the window, and on which file.
func windowFor(args []string) (file string, ok bool) {
	switch {
	case len(args) == 0:
		return "", true
	case args[0] == "--" && len(args) <= 2:
		return strings.Join(args[1:], ""), true
	case len(args) > 1 || strings.HasPrefix(args[0], "-") || isCommand(args[0]):
		return "", false
	}
	// A word that names no file and does not look like one is a command
	// mistyped: kong will say which one may have been meant.
	if !savefile.IsThere(args[0]) && !strings.ContainsAny(args[0], `./\`) {
		return "", false
	}
	return args[0], true
}

func isCommand(word string) bool {
	p, err := parser(&grammar{}, &session{}, message.Message.String)
	if err != nil {
		return false
	}
	for _, c := range p.Model.Children {
		if c.Name == word {
			return true
		}
	}
	return false
}

// openWindow looks at what can be said without a window.
func openWindow(file string, streams Streams) Todo {
	if file != "" {
		if _, err := savefile.Read(file); err != nil {
			return Todo{Code: streams.failure(err)}
		}
	}
	if err := display.Answers(os.Getenv); err != nil {
		return Todo{Code: streams.failure(broken(err))}
	}
	return Todo{Window: true, File: file}
}

// parser reads the command line; what its help says is in a person's language.
func parser(g *grammar, s *session, say helptext.Speaker) (*kong.Kong, error) {
	p, err := kong.New(g,
		kong.Name("skep"),
		kong.Vars{"version": "skep " + version()},
		kong.Writers(&s.out, s.Err),
		kong.Exit(func(code int) { panic(exit(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true, WrapUpperBound: 100}),
		kong.Help(helptext.Print),
	)
	if err != nil {
		return nil, broken(message.NewError("the command line's own grammar is broken, a fault of Skep: {error}", err))
	}
	p.Model.Help = about(say)
	helptext.Translate(p.Model, say)
	return p, nil
}

func (s *session) run(args []string) (err error) {
	p, err := parser(&grammar{}, s, s.text)
	if err != nil {
		return err
	}
	defer func() {
		switch r := recover().(type) {
		case nil:
		case exit:
			err = nil // after --help or --version
		default:
			panic(r)
		}
	}()
	ctx, err := p.Parse(negativeNumbers(args))
	if err != nil {
		return misused(usage(err))
	}
	return alone(ctx.Run(s))
}

// alone takes an error out of the list of one that kong makes of it.
func alone(err error) error {
	if _, isMessage := err.(*message.Error); isMessage {
		return err
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok && len(joined.Unwrap()) == 1 {
		return joined.Unwrap()[0]
	}
	return err
}

// usage adds where the form of the command stands.
func usage(err error) error {
	var p *kong.ParseError
	if errors.As(err, &p) && p.Context.Selected() != nil {
		name := p.Context.Selected().Name
		return message.NewError("{command}: {error}; see skep help {command}", name, helptext.MessageOf(err))
	}
	return message.NewError("{error}; see skep help", helptext.MessageOf(err))
}

// negativeNumbers lets -12 stand where sweep takes a number: kong would read it
// as a flag. Everything that is no flag goes behind "--".
func negativeNumbers(args []string) []string {
	if len(args) == 0 || args[0] != "sweep" {
		return args
	}
	var flags, plain []string
	for i, a := range args[1:] {
		if a == "--" {
			plain = append(plain, args[i+2:]...)
			break
		}
		_, notNumber := strconv.ParseFloat(a, 64)
		if strings.HasPrefix(a, "-") && a != "-" && notNumber != nil {
			flags = append(flags, a)
		} else {
			plain = append(plain, a)
		}
	}
	return append(append(append([]string{"sweep"}, flags...), "--"), plain...)
}
