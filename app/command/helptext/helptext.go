// Package helptext is what the command line says of itself: help in a person's
// language, kong's own headings and complaints in it, the man page and the shells'
// completions. The grammar comes in, text goes out. It must not know what a command
// does.
package helptext

import (
	"bytes"
	"io"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"skep/app/words"
	"skep/calc/message"
)

// Speaker says a message to a person in their language.
type Speaker func(message.Message) string

// Detailed is a command with more to say than one line.
type Detailed interface{ Detail(say Speaker) string }

// Worked is a text with a worked line below it.
func Worked(text, line string) string { return text + "\n\n  " + line }

// Translate puts what the grammar says into a person's language. The texts stand in
// the grammar's tags, from where the list of texts takes them.
func Translate(app *kong.Application, say Speaker) {
	app.HelpFlag.Help = say(message.New("Show this help."))
	for _, f := range app.Flags {
		if f != app.HelpFlag {
			f.Help = say(message.Message{Text: f.Help})
		}
	}
	for _, c := range app.Children {
		c.Help = say(message.Message{Text: c.Help})
		if d, ok := c.Target.Interface().(Detailed); ok {
			c.Detail = d.Detail(say)
		}
		for _, f := range c.Flags {
			f.Help = say(message.Message{Text: f.Help})
		}
		for _, p := range c.Positional {
			p.Help = say(message.Message{Text: p.Help})
		}
	}
}

// Print is kong's own help with its headings in the person's language.
func Print(options kong.HelpOptions, ctx *kong.Context) error {
	var text bytes.Buffer
	out := ctx.Stdout
	ctx.Stdout = &text
	err := kong.DefaultHelpPrinter(options, ctx)
	ctx.Stdout = out
	if err != nil {
		return err
	}
	lines := strings.SplitAfter(text.String(), "\n")
	for i, line := range lines {
		lines[i] = heading(strings.TrimRight(line, "\n")) + line[len(strings.TrimRight(line, "\n")):]
	}
	_, err = io.WriteString(out, strings.Join(lines, ""))
	return err
}

// heading is a line of kong's help, in the person's language where it is one of
// kong's own.
func heading(line string) string {
	switch line {
	case "Flags:":
		return words.T("Flags:")
	case "Arguments:":
		return words.T("Arguments:")
	case "Commands:":
		return words.T("Commands:")
	}
	if rest, ok := strings.CutPrefix(line, "Usage: "); ok {
		rest = strings.NewReplacer("[flags]", "["+words.T("flags")+"]", "<command>", "<"+words.T("command")+">").Replace(rest)
		return words.T("Usage: {line}", rest)
	}
	if strings.HasPrefix(line, `Run "`) {
		return words.T("For more on a command: {line}", "skep help "+words.T("COMMAND"))
	}
	return line
}

// complaints are what kong says of a command line; what stands here is said in the
// person's language.
var complaints = []struct {
	of  *regexp.Regexp
	say message.Message
}{
	{regexp.MustCompile(`^unexpected argument (.+), did you mean (?:one of )?(.+)\?$`), message.New("{argument} is not known, did you mean {others}?")},
	{regexp.MustCompile(`^unexpected argument (.+)$`), message.New("{argument} is not known")},
	{regexp.MustCompile(`^unknown flag (.+), did you mean (?:one of )?(.+)\?$`), message.New("{argument} is not known, did you mean {others}?")},
	{regexp.MustCompile(`^unknown flag (.+)$`), message.New("{argument} is not known")},
	{regexp.MustCompile(`^expected (?:one of )?(.+)$`), message.New("{argument} is missing")},
	{regexp.MustCompile(`^missing (?:flags|positional arguments):? (.+)$`), message.New("{argument} is missing")},
	{regexp.MustCompile(`^(--\S+) and (--\S+) can't be used together$`), message.New("{one} and {other} can't be used together")},
	{regexp.MustCompile(`^(--\S+?): expected string value but got .*$`), message.New("{argument} lacks its value")},
}

// MessageOf is an error of kong's as a message.
func MessageOf(err error) message.Message {
	for _, c := range complaints {
		if found := c.of.FindStringSubmatch(err.Error()); found != nil {
			m := c.say
			for _, text := range found[1:] {
				m.With = append(m.With, text)
			}
			return m
		}
	}
	return message.OfError(err)
}
