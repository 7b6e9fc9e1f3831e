package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

type runner struct {
	temp, dir string
	rapid     bool
}

// once runs the tests with one fault awake; it tells whether they passed, and
// whether they came to an end in time.
func (r *runner) once(program string, number int, most time.Duration) (passed, ended bool, out []byte) {
	ctx, stop := context.WithTimeout(context.Background(), most)
	defer stop()
	if *later == "" {
		return r.some(ctx, program, number, "-test.skip="+*skip)
	}
	first := strings.Trim(*skip+"|"+*later, "|") // nothing before a bar would match all
	if passed, ended, out = r.some(ctx, program, number, "-test.skip="+first); passed {
		return r.some(ctx, program, number, "-test.run="+*later, "-test.skip="+*skip)
	}
	return passed, ended, out
}

func (r *runner) some(ctx context.Context, program string, number int, which ...string) (passed, ended bool, out []byte) {
	args := append([]string{"-test.failfast", "-test.timeout=0"}, which...)
	if r.rapid {
		args = append(args, "-rapid.seed="+*seed, "-rapid.shrinktime=1ns", "-rapid.nofailfile")
	}
	c := exec.CommandContext(ctx, filepath.Join(r.temp, program), args...)
	c.Dir = r.dir
	c.Env = append(os.Environ(), fmt.Sprint("MUTANT=", number), "MUTANT_REACHED="+filepath.Join(r.temp, "reached"), "GOMAXPROCS=1", "GOMEMLIMIT=1GiB")
	out, err := c.CombinedOutput()
	return err == nil, ctx.Err() == nil, out
}

func (r *runner) all(name string, faults []fault) error {
	if ok, _, out := r.once("record", 0, time.Hour); !ok {
		return fmt.Errorf("the tests fail without a fault:\n%s", out)
	}
	start := time.Now()
	if ok, _, out := r.once("run", 0, time.Hour); !ok {
		return fmt.Errorf("the tests fail without a fault:\n%s", out)
	}
	took := time.Since(start)
	most := 5*time.Second + 5*took
	reached := map[int]bool{}
	text, _ := os.ReadFile(filepath.Join(r.temp, "reached"))
	for _, w := range strings.Fields(string(text)) {
		k := 0
		fmt.Sscan(w, &k)
		reached[k] = true
	}
	verdict := make([]string, len(faults)+1)
	queue := make(chan int)
	var wg sync.WaitGroup
	for range *workers {
		wg.Go(func() {
			for k := range queue {
				switch passed, ended, _ := r.once("run", k, most); {
				case !ended:
					verdict[k] = "no end"
				case passed:
					verdict[k] = "alive"
				default:
					verdict[k] = "killed"
				}
			}
		})
	}
	taken := 0
	for k := 1; k <= len(faults); k++ {
		if (k-1)%*every != 0 {
			continue
		}
		taken++
		if !reached[k] {
			verdict[k] = "not reached"
			continue
		}
		queue <- k
	}
	close(queue)
	wg.Wait()
	count, lines := map[string]int{}, map[string][]string{}
	for k, f := range faults {
		v := verdict[k+1]
		count[v]++
		if v == "" || v == "killed" {
			continue
		}
		if lines[f.pos.Filename] == nil {
			src, _ := os.ReadFile(f.pos.Filename)
			lines[f.pos.Filename] = strings.Split(string(src), "\n")
		}
		fmt.Printf("%-11s %s:%d:%d %-16s %s\n", v, filepath.Base(f.pos.Filename), f.pos.Line, f.pos.Column, f.what, strings.TrimSpace(lines[f.pos.Filename][f.pos.Line-1]))
	}
	dead := count["killed"] + count["no end"]
	fmt.Printf("%s: %d faults, %d tried, %d killed (%d of them without end), %d alive, %d not reached: %.1f %% killed; the tests take %.2f s\n",
		name, len(faults), taken, dead, count["no end"], count["alive"], count["not reached"], 100*float64(dead)/float64(max(taken, 1)), took.Seconds())
	return nil
}
