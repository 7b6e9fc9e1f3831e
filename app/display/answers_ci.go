//go:build ci

package display

import "errors"

// Answers always tells that there is none: this build is the pure-Go one for
// servers and tests, whose window nobody would see.
func Answers(func(string) string) error {
	return errors.New("no display: this build (-tags ci) has the commands only; build without the tag for the window")
}
