//go:build !ci

package locale

import golocale "github.com/jeandeaual/go-locale"

// system are the languages that the environment, or the system, names.
func system() []string {
	names, _ := golocale.GetLocales() // none can be told: English
	return names
}
