//go:build soak

package app

import (
	"fmt"
	"os"
	"runtime"
	"runtime/pprof"
	"strings"
	"time"
)

// Built with this tag for .ci/soak alone: every second one line with the
// seconds and, in megabytes, what is resident, what of it is no file's (the rest
// is programs and libraries mapped), what Go's runtime holds, its heap in use, and
// the goroutines goes to the file that SKEP_SOAK names; every minute a profile of
// the heap beside it.
func init() {
	path := os.Getenv("SKEP_SOAK")
	if path == "" {
		return
	}
	out, err := os.Create(path)
	if err != nil {
		panic(err)
	}
	start, next := time.Now(), time.Minute
	go func() {
		for range time.Tick(time.Second) {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			held := float64(m.Sys-m.HeapReleased) / 1e6
			fmt.Fprintf(out, "%.0f %.1f %.1f %.1f %.1f %d\n", time.Since(start).Seconds(),
				statusMB("VmRSS:"), statusMB("RssAnon:"), held, float64(m.HeapInuse)/1e6, runtime.NumGoroutine())
			if at := time.Since(start); at > next {
				next = at + time.Minute
				if heap, err := os.Create(path + ".heap"); err == nil { // for go tool pprof
					_ = pprof.WriteHeapProfile(heap)
					heap.Close()
				}
			}
		}
	}()
}

func statusMB(name string) float64 {
	src, _ := os.ReadFile("/proc/self/status")
	var kB float64
	for line := range strings.Lines(string(src)) {
		if rest, ok := strings.CutPrefix(line, name); ok {
			fmt.Sscan(rest, &kB)
		}
	}
	return kB * 1024 / 1e6
}
