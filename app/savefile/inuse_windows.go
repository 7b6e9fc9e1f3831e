package savefile

import (
	"errors"
	"syscall"
)

const errSharing = syscall.Errno(32) // ERROR_SHARING_VIOLATION, which package syscall has not

// InUse tells whether a file could not be replaced or opened because another program has
// it open, as a virus scanner or an indexer does for a moment with whatever is new, or
// removes it just now.
func InUse(err error) bool {
	return shared(err) || errors.Is(err, syscall.ERROR_ACCESS_DENIED)
}

// shared tells whether another program has a file open in a way that lets nobody else.
func shared(err error) bool { return errors.Is(err, errSharing) }
