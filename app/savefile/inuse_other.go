//go:build !windows

package savefile

// InUse is always false: elsewhere a file that is open can be replaced and opened.
func InUse(error) bool { return false }

// shared is always false too.
func shared(error) bool { return false }
