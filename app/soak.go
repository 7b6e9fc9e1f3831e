//go:build soak

package app

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"
)

// Built with this tag for .ci/soak alone: every second one line with the
// seconds, the resident megabytes, those of the Go heap in use, and the
// goroutines goes to the file that SKEP_SOAK names.
func init() {
	path := os.Getenv("SKEP_SOAK")
	if path == "" {
		return
	}
	out, err := os.Create(path)
	if err != nil {
		panic(err)
	}
	start := time.Now()
	go func() {
		for range time.Tick(time.Second) {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			fmt.Fprintf(out, "%.0f %.1f %.1f %d\n", time.Since(start).Seconds(), residentMB(), float64(m.HeapInuse)/1e6, runtime.NumGoroutine())
		}
	}()
}

func residentMB() float64 {
	src, _ := os.ReadFile("/proc/self/status")
	var kB float64
	for line := range strings.Lines(string(src)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			fmt.Sscan(rest, &kB)
		}
	}
	return kB * 1024 / 1e6
}
