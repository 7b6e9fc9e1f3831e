package follow
import ("testing";"fmt";"math/rand/v2")
func TestZZ(t *testing.T){
	d := demo(t, "middle")
	rng := rand.New(rand.NewPCG(11, 2026))
	var f Follower
	n:=0; sum,sq:=0.0,0.0; spin:=0.0
	for k:=range 120 {
		x := newBrewer(t, d, rng)
		x.m.honeyHours = []float64{52}
		x.m.run(&x.truth, &x.beer, &x.c)
		plan:=d.Clone()
		plan.Reading = append(x.readings(24, 36, 48, 72, 96, 140, 190, 240, 340, 480), reading(HoneyAdded, 52, 0.55))
		b := &Batch{Timeline: NewTimeline(plan.Reading, at(500), Instruments{})}
		b.prepare(&f, plan); b.update(&f)
		g := b.After.FinalGravitySG
		z := (x.beer.fgSG-g.Mid)/(g.High-g.Low)*2.563
		if z>-1.28 && z<1.28 {n++}
		sum+=z; sq+=z*z; spin+= z*x.truth[iSpindle]
		if k<40 {fmt.Printf("z %.2f ess %.0f w %.5f spindle %.2f diast %.2f  est %.5f true %.5f at480 %.5f\n", z, b.ESS, g.High-g.Low, x.truth[iSpindle], x.truth[9], g.Mid, x.beer.fgSG, x.sg(480))}
	}
	fmt.Println(n, sum/120, sq/120, spin/120)
}
func (b *brewer) sg(h float64) float64 { v,_ := b.c.gravity(h); return v }
