package command

import (
	"os"
	"strings"

	"skep/app/locale"
	"skep/app/words"
	"skep/calc/message"
)

// chooseLanguage takes --language out of the arguments. It comes before the
// grammar is read, which is full of texts, and holds for the window too.
func chooseLanguage(args []string) (rest []string, err error) {
	for i := 0; i < len(args); i++ {
		name, found := "", false
		switch {
		case args[i] == "--":
			return append(rest, args[i:]...), nil
		case args[i] == "--language" && i+1 < len(args):
			name, found = args[i+1], true
			i++
		default:
			name, found = strings.CutPrefix(args[i], "--language=")
		}
		if !found {
			rest = append(rest, args[i])
			continue
		}
		if !words.HasLanguage(name) {
			return nil, message.NewError("--language {tag}: Skep speaks {languages}", name, strings.Join(tags(), ", "))
		}
		if err := os.Setenv(locale.Variable, name); err != nil {
			return nil, err
		}
	}
	return rest, nil
}

func tags() (names []string) {
	for _, tag := range words.Tags() {
		names = append(names, tag.String())
	}
	return names
}
