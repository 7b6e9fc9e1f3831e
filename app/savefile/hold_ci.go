//go:build ci

package savefile

import "sync/atomic"

// hold is what every step that may wait for a disk waits for first.
var hold atomic.Pointer[func(path string)]

// Hold makes whatever touches the disk call wait first, until release is called. It
// stands in for a disk that is slow, or dead, under every file at once, which no
// file system that a test may mount does. It is in no program that somebody gets:
// those are built without the tag ci.
func Hold(wait func(path string)) (release func()) {
	hold.Store(&wait)
	return func() { hold.Store(nil) }
}

func wait(path string) {
	if h := hold.Load(); h != nil {
		(*h)(path)
	}
}
