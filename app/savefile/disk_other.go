//go:build !unix

package savefile

import "skep/calc/message"

// diskOf is not known here.
func diskOf(string) (uint64, error) {
	return 0, message.NewError("the disk of a file can't be told here")
}
