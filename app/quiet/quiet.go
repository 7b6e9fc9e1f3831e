// Package quiet corrects the locale that the window toolkit reads from the environment
// while its packages initialise, before it looks.
//
// The environment's locale comes in, and goes out as the toolkit can read it. It must
// not know any other package.
//
// Fyne asks for the locale while its packages initialise and prints three lines
// on standard error for C, C.UTF-8 and POSIX, the usual settings of containers
// and scripts. Commands promise a clean standard error, so main imports this
// package first. It imports os and nothing else: Go initialises packages in
// the order of their import paths once what they need is ready, and os is ready
// long before anything that Fyne's own packages need. The scripts in
// testdata/script/locale.txtar hold that order to account.
package quiet

import "os"

// plain is what an unset, C or POSIX locale is read as: the English of Skep's
// texts, and A4.
const plain = "en_GB.UTF-8"

func init() { correct(os.Getenv, os.Setenv) }

// correct replaces the locale variables that name no language. LC_MESSAGES and
// LANGUAGE are left unset when they are; LANG and LC_ALL are what is looked at
// when nothing is set.
func correct(get func(string) string, set func(string, string) error) {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG", "LANGUAGE"} {
		if v := get(name); v != "" && !namesLanguage(v) {
			_ = set(name, plain)
		}
	}
	if get("LC_ALL") == "" && get("LC_MESSAGES") == "" && get("LANG") == "" {
		_ = set("LANG", plain)
	}
}

// namesLanguage tells whether a locale begins with a language code of two or
// three letters, as de, de_DE.UTF-8 and de_DE:fr do, and C, C.UTF-8 and POSIX
// do not.
func namesLanguage(locale string) bool {
	n := 0
	for n < len(locale) && isLetter(locale[n]) {
		n++
	}
	if n != 2 && n != 3 {
		return false
	}
	if n == len(locale) {
		return true
	}
	switch locale[n] {
	case '_', '-', '.', '@', ':':
		return true
	}
	return false
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
