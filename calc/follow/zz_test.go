package follow_test

import (
	"fmt"
	"math"
	"runtime"
	"sync"
	"testing"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
)

func TestZZ(t *testing.T) {
	plans, brews := batches(t, 120)
	type row struct {
		c               int
		h, lo, hi, w, e float64
		in              bool
	}
	var mu sync.Mutex
	var rows []row
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			var f follow.Follower
			for i := range next {
				d, b := plans[i], brews[i]
				all := b.readings(400)
				for _, h := range []float64{96, 168, 288} {
					d.Reading = nil
					var last design.Reading
					n := 0
					for _, r := range all {
						if !r.At.After(after(h)) {
							d.Reading = append(d.Reading, r)
							if r.What == measured.Gravity {
								last = r
								n++
							}
						}
					}
					x, err := f.Follow(d, after(h), measured.Instruments{}, calc.Doubts{})
					if err != nil {
						panic(err)
					}
					g := x.After.FinalGravitySG
					mu.Lock()
					rows = append(rows, row{i % 3, h, g.Low, g.High, g.High - g.Low, g.Mid - b.end, holds(g, b.end)})
					if h == 168 && !holds(g, b.end) {
						_ = fmt.Sprintf("case %d og %.4f mid %.0f steep %.1f zero %+.2f: end %.2f band %.2f %.2f %.2f; at 168 %.2f left %.2f; last reading %.1f of %d at %.0f, plan %.1f %.1f\n", i%3, b.og, b.middle, b.steep, 1000*b.zero, 1000*(b.end-1), 1000*(g.Low-1), 1000*(g.Mid-1), 1000*(g.High-1), 1000*(b.at(168)-1), 1000*(b.at(168)-b.end), 1000*(last.Value-1), n, last.At.Sub(start).Hours(), 1000*(b.planned.Low-1), 1000*(b.planned.High-1))
					}
					mu.Unlock()
				}
			}
		})
	}
	for i := range plans {
		next <- i
	}
	close(next)
	wg.Wait()
	for _, h := range []float64{96, 168, 288} {
		for c := range 3 {
			n, in, e, e2, w, above, below := 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
			for _, r := range rows {
				if r.h == h && r.c == c {
					n++
					if r.in {
						in++
					} else if r.e > 0 {
						above++
					} else {
						below++
					}
					e += r.e
					e2 += r.e * r.e
					w += r.w
				}
			}
			fmt.Printf("h %.0f case %d: held %.0f %% of %.0f (band above truth %.0f, below %.0f), mean off %.2f rms %.2f, width %.2f points (rms wanted %.2f)\n", h, c, 100*in/n, n, above, below, 1000*e/n, 1000*math.Sqrt(e2/n), 1000*w/n, 1000*w/n/2.563)
		}
	}
}
