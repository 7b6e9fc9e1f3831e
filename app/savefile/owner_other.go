//go:build !unix

package savefile

import (
	"io/fs"
	"os"
)

// withoutWaiting is nothing here: a named pipe is no file that one could open.
const withoutWaiting = 0

// keepOwner does nothing: here a new file gets its owner from the folder.
func keepOwner(*os.File, fs.FileInfo) Lost { return Lost{} }
