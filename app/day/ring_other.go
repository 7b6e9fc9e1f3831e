//go:build windows || darwin

package day

import "errors"

// ringDesktop is not needed: these desktops play their own sound with the toolkit's
// notification.
func ringDesktop(title, text string) error { return errors.ErrUnsupported }
