//go:build unix

package taste

import "syscall"

// processorMs is the processor's time that this process has used, milliseconds: where
// other programs share the machine it says more than the clock.
func processorMs() float64 {
	var used syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &used) != nil {
		return 0
	}
	return float64(used.Utime.Nano()+used.Stime.Nano()) / 1e6
}
