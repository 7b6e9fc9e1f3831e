package app

import (
	"io"
	"log"
	"os"
	"path/filepath"
)

// toolkitLogMost is where the log of earlier starts is thrown away.
const toolkitLogMost = 256 << 10

// logToolkit sends what the toolkit complains of through Go's log (no bus to hear
// of a changed theme from, a folder of pictures that is missing) to a file: a
// person who starts a window from a terminal can do nothing about it, and the window
// says itself what of theirs can't be kept. Where the file can't be had it is thrown
// away: such a person's home can't be written to, which is what the toolkit complains
// of then. A panic and our own messages go to standard error as before. It also makes
// the cache folder that the toolkit expects a desktop to have made.
func logToolkit(state string) {
	log.SetOutput(io.Discard)
	if cache, err := os.UserCacheDir(); err == nil {
		_ = os.MkdirAll(cache, 0o700) // where it fails, the toolkit says so in the log
		if try, err := os.MkdirTemp(cache, "skep-"); err == nil {
			_ = os.Remove(try) // empty, and ours
		} else {
			_ = os.Setenv("MESA_SHADER_CACHE_DISABLE", "true") // else it says on standard error that it has none
		}
	}
	if os.MkdirAll(state, 0o700) != nil {
		return
	}
	path := filepath.Join(state, "toolkit.log")
	how := os.O_APPEND | os.O_CREATE | os.O_WRONLY
	if at, err := os.Lstat(path); err == nil {
		if !at.Mode().IsRegular() {
			return // a pipe there would hold the window up
		}
		if at.Size() > toolkitLogMost {
			how |= os.O_TRUNC
		}
	}
	f, err := os.OpenFile(path, how, 0o600)
	if err != nil {
		return
	}
	log.SetOutput(f)
}
