package helptext

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"skep/app/words"
)

// The man page and the shells' completions come from the grammar itself, so a
// command or flag that is added stands in them without another line.

// writer is where they go, with the program's version.
type writer struct {
	printf  func(format string, args ...any)
	version string
}

// manuals are the topics of help that write for another program than an eye.
var manuals = map[string]func(w *writer, root *kong.Node){
	"man":  (*writer).manPage,
	"bash": (*writer).bashCompletion,
	"zsh":  (*writer).zshCompletion,
	"fish": (*writer).fishCompletion,
}

// IsManual says whether a topic of help is one of them: man, bash, zsh or fish.
func IsManual(topic string) bool { return manuals[topic] != nil }

// Manual writes one of them of a grammar.
func Manual(topic string, root *kong.Node, version string, printf func(format string, args ...any)) {
	manuals[topic](&writer{printf, version}, root)
}

// roff keeps a text from being read as a request or an escape of roff.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`).Replace(text)
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, ".") {
			lines[i] = `\&` + line
		}
	}
	return strings.Join(lines, "\n")
}

// filled is a text in lines of a terminal's width; what is indented stays as it is.
func filled(text string) string {
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		if strings.HasPrefix(line, " ") {
			lines = append(lines, line)
		} else {
			lines = append(lines, Wrap(line, 78)...)
		}
	}
	return strings.Join(lines, "\n")
}

// form is how a flag is written on the command line.
func form(f *kong.Flag) string {
	if f.IsBool() {
		return "--" + f.Name
	}
	value := f.PlaceHolder
	if value == "" {
		value = strings.ToUpper(f.Name)
	}
	if f.Short != 0 {
		return fmt.Sprintf("-%c %s", f.Short, value)
	}
	return "--" + f.Name + " " + value
}

// own are the flags of a command itself, without --help.
func own(n *kong.Node) []*kong.Flag {
	var flags []*kong.Flag
	for _, f := range n.Flags {
		if !f.Hidden && f.Name != "help" {
			flags = append(flags, f)
		}
	}
	return flags
}

func (s *writer) manPage(root *kong.Node) {
	section := func(name string) { s.printf(".SH %s\n", roff(name)) }
	s.printf(".TH SKEP 1 \"\" \"skep %s\" \"%s\"\n", s.version, roff(words.T("User commands")))
	section(words.T("NAME"))
	s.printf("skep \\- %s\n", roff(words.T("tune a honey beer between sweet and dry, light and full")))
	section(words.T("SYNOPSIS"))
	s.printf(".B skep\n[\\fIFILE\\fR]\n.br\n.B skep\n\\fI%s\\fR [\\fI%s\\fR]\n", roff(words.T("COMMAND")), roff(words.T("ARGUMENTS")))
	section(words.T("DESCRIPTION"))
	s.printf("%s\n", roff(filled(root.Help)))
	section(words.T("COMMANDS"))
	for _, c := range root.Children {
		s.printf(".TP\n\\fB%s\\fR", roff(c.Name))
		for _, p := range c.Positional {
			s.printf(" \\fI%s\\fR", roff(p.Name))
		}
		for _, f := range own(c) {
			s.printf(" [%s]", roff(form(f)))
		}
		s.printf("\n%s\n", roff(c.Help))
		for _, f := range own(c) {
			s.printf(".RS\n.TP\n\\fB%s\\fR\n%s\n.RE\n", roff(form(f)), roff(f.Help))
		}
		if c.Detail != "" {
			s.printf(".RS\n.PP\n.nf\n%s\n.fi\n.RE\n", roff(filled(c.Detail)))
		}
	}
	section(words.T("EXIT STATUS"))
	s.printf("%s\n", roff(filled(words.T("0 done; 1 the input is wrong; 2 the command line is wrong; 3 the machine failed (disk, permission, no display)."))))
	section(words.T("CAUTION"))
	s.printf("%s\n", roff(filled(words.T("Skep computes; it does not see your brewery. Local law and the maker's instructions come first: scalding wort, heavy vessels, mains electricity near water, CO2 in closed rooms, glass under pressure; no honey for infants under twelve months."))))
}

func (s *writer) bashCompletion(root *kong.Node) {
	var names []string
	for _, c := range root.Children {
		names = append(names, c.Name)
	}
	s.printf(`# Completion of skep for bash: source it, or put it where bash-completion looks.
_skep() {
  local current=${COMP_WORDS[COMP_CWORD]} words=
  if [ "$COMP_CWORD" = 1 ]; then words="%s"; fi
  case ${COMP_WORDS[1]} in
`, strings.Join(names, " "))
	for _, c := range root.Children {
		var flags []string
		for _, f := range own(c) {
			flags = append(flags, "--"+f.Name)
		}
		if c.Name == "help" {
			flags = names
		}
		s.printf("    %s) [ \"$COMP_CWORD\" = 1 ] || words=\"%s\" ;;\n", c.Name, strings.Join(flags, " "))
	}
	s.printf(`  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current"; compgen -f -- "$current")
}
complete -o filenames -F _skep skep
`)
}

// zshText keeps a text from ending the description of a completion.
func zshText(text string) string {
	return strings.NewReplacer("'", "", "[", "(", "]", ")", ":", ",").Replace(text)
}

func (s *writer) zshCompletion(root *kong.Node) {
	s.printf("#compdef skep\n# Completion of skep for zsh: put it into a folder of fpath as _skep.\nlocal -a commands\ncommands=(\n")
	for _, c := range root.Children {
		s.printf("  '%s:%s'\n", c.Name, zshText(c.Help))
	}
	s.printf(")\nif (( CURRENT == 2 )); then\n  _describe command commands\n  _files\n  return\nfi\ncase $words[2] in\n")
	for _, c := range root.Children {
		s.printf("  %s) shift words; (( CURRENT-- )); _arguments", c.Name)
		for _, f := range own(c) {
			value := ""
			if !f.IsBool() {
				value = ":" + zshText(strings.ToLower(f.Name)) + ":_files"
			}
			s.printf(" '--%s[%s]%s'", f.Name, zshText(f.Help), value)
		}
		if c.Name == "help" {
			s.printf(" '1:command:_describe command commands'")
		} else {
			s.printf(" '*:file:_files'")
		}
		s.printf(" ;;\n")
	}
	s.printf("esac\n")
}

// fishText keeps a text inside single quotes.
func fishText(text string) string {
	return strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(text)
}

func (s *writer) fishCompletion(root *kong.Node) {
	s.printf("# Completion of skep for fish: put it into a folder of fish_complete_path as skep.fish.\n")
	for _, c := range root.Children {
		s.printf("complete -c skep -n __fish_use_subcommand -a %s -d '%s'\n", c.Name, fishText(c.Help))
		for _, f := range own(c) {
			value := ""
			if !f.IsBool() {
				value = " -r"
			}
			s.printf("complete -c skep -n '__fish_seen_subcommand_from %s' -l %s%s -d '%s'\n", c.Name, f.Name, value, fishText(f.Help))
		}
	}
}
