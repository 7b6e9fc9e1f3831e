package packaging_test

import (
	"fmt"
	"math"
	"testing"

	"skep/calc/carbonation"
	"skep/calc/packaging"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// Two equal readings three days apart, of something with a half-life of three
// days, can have missed one point: half a volume.
func ExampleMissedPoints() {
	missed := packaging.MissedPoints(packaging.MarkPoints, 3, 3)
	fmt.Printf("%.2f points, %.2f volumes\n", missed, missed*packaging.VolumesPerPoint)
	// Output: 1.00 points, 0.50 volumes
}

// An ordinary beer at 2.4 volumes in bottles made for 3.0, and the same with a
// strain that eats dextrin.
func ExampleNew() {
	plan := packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3.0}
	g := packaging.New(plan)
	fmt.Printf("%.1f points of headroom, %.0f days\n", g.HeadroomPoints, math.Ceil(g.EqualReadingsDays))
	plan.Tails = []packaging.Tail{packaging.TailOf(packaging.EatsDextrin)}
	g = packaging.New(plan)
	fmt.Printf("%.1f points of headroom, %.0f days, %s\n", g.HeadroomPoints, math.Ceil(g.EqualReadingsDays), g.Alarms[0].Kind)
	// Output:
	// 1.2 points of headroom, 2 days
	// 1.2 points of headroom, 9 days, slow-strain
}

// TestMissed: an exponential tail worked out apart, to two decimals: points
// still possible after equal readings, by half-life (columns) and gap (rows).
func TestMissed(t *testing.T) {
	t.Parallel()
	halfLives := []float64{0.5, 1, 2, 3, 5, 7, 14, 30}
	for _, r := range []struct {
		gap    float64
		points []float64
	}{
		{1, []float64{0.33, 1.00, 2.41, 3.85, 6.73, 9.61, 19.7, 42.8}},
		{2, []float64{0.07, 0.33, 1.00, 1.70, 3.13, 4.57, 9.61, 21.1}},
		{3, []float64{0.02, 0.14, 0.55, 1.00, 1.94, 2.89, 6.24, 13.9}},
		{5, []float64{0.00, 0.03, 0.21, 0.46, 1.00, 1.56, 3.56, 8.17}},
		{7, []float64{0.00, 0.01, 0.10, 0.25, 0.61, 1.00, 2.41, 5.70}},
		{14, []float64{0.00, 0.00, 0.01, 0.04, 0.17, 0.33, 1.00, 2.62}},
	} {
		for i, want := range r.points {
			got := packaging.MissedPoints(1, r.gap, halfLives[i])
			near(t, fmt.Sprintf("gap %v, half-life %v", r.gap, halfLives[i]), got, want, math.Max(0.005, 0.003*want)+1e-9)
			if want > 0.1 && r.gap >= 2 {
				near(t, "and back", packaging.GapDays(1, halfLives[i], got), r.gap, 1e-9)
			}
		}
	}
	near(t, "never under two days", packaging.GapDays(1, 1, 50), 2, 0)
	if d := packaging.GapDays(1, 10, -1); math.IsInf(d, 0) || d < 30 {
		t.Errorf("no headroom asks for %v days", d)
	}
}

// TestHeated: Carroll's formula worked out apart, bar absolute, no headspace.
func TestHeated(t *testing.T) {
	t.Parallel()
	volumes := []float64{2, 2.5, 3, 4}
	for _, r := range []struct {
		c   float64
		bar []float64
	}{
		{50, []float64{4.59, 5.74, 6.88, 9.17}}, {55, []float64{5.02, 6.27, 7.53, 10.03}},
		{60, []float64{5.45, 6.81, 8.17, 10.89}}, {65, []float64{5.88, 7.35, 8.81, 11.74}},
	} {
		for i, want := range r.bar {
			got, err := packaging.HeatedBarAbs(volumes[i], r.c)
			if refused := volumes[i] > 2.5; refused != (err != nil) {
				t.Errorf("%v volumes at %v °C: error %v", volumes[i], r.c, err)
			}
			if err == nil {
				// The published figures are of water; beer presses 5 to 6 % more.
				if over := got/want - 1; !(over > 0.05 && over < 0.065) {
					t.Errorf("%v volumes at %v °C: %v bar, %.1f %% over water's", volumes[i], r.c, got, 100*over)
				}
			}
			near(t, "by solubility", carbonation.PressureKPa(r.c, volumes[i])/100, want, 0.01)
		}
	}
	if _, err := packaging.HeatedBarAbs(2, 90); err == nil {
		t.Error("90 °C is not refused")
	}
}

// TestContainers: the weakest is the unknown one, and the soft-drink bottle of
// BS 6119-1:1981, designed for 4.5 volumes, stands above the class of marked
// glass; at 20 °C it holds less pressure than the 4.7 bar that British glass
// code TEC 7 allows.
func TestContainers(t *testing.T) {
	t.Parallel()
	classes := packaging.Containers()
	if classes[0].RatedVolumes != packaging.UnknownRating {
		t.Errorf("the first class is %+v", classes[0])
	}
	for i := 1; i < len(classes); i++ {
		if classes[i].RatedVolumes < classes[i-1].RatedVolumes {
			t.Errorf("%s comes after %s", classes[i].Key, classes[i-1].Key)
		}
	}
	if gauge := carbonation.BottleBarGauge(20, 4.5); gauge > 4.7 || gauge < 4 {
		t.Errorf("4.5 volumes at 20 °C are %v bar", gauge)
	}
}

func kinds(g *packaging.Guard) []packaging.AlarmKind {
	var out []packaging.AlarmKind
	for _, a := range g.Alarms {
		out = append(out, a.Kind)
	}
	return out
}

func TestAlarms(t *testing.T) {
	t.Parallel()
	small := packaging.TailOf(packaging.RawHoney)
	small.MostPoints = 1
	for _, c := range []struct {
		name string
		plan packaging.Plan
		want []packaging.AlarmKind
	}{
		{"ordinary", packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3}, nil},
		{"a point to spare", packaging.Plan{PlannedVolumes: 2.5, RatedVolumes: 3}, nil},
		{"under a point", packaging.Plan{PlannedVolumes: 2.6, RatedVolumes: 3}, []packaging.AlarmKind{packaging.LittleHeadroom}},
		{"over", packaging.Plan{PlannedVolumes: 3.1, RatedVolumes: 3}, []packaging.AlarmKind{packaging.OverRated}},
		{"keg", packaging.Plan{PlannedVolumes: 3.1, RatedVolumes: 3, Keg: true, Tails: []packaging.Tail{packaging.TailOf(packaging.EatsDextrin)}}, nil},
		{"hops", packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, Tails: []packaging.Tail{packaging.TailOf(packaging.ColdHops)}}, []packaging.AlarmKind{packaging.SlowHops}},
		{"raw honey", packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, Tails: []packaging.Tail{packaging.TailOf(packaging.RawHoney)}}, []packaging.AlarmKind{packaging.SlowHoney}},
		{"so little raw honey that it fits", packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, Tails: []packaging.Tail{small}}, nil},
		{"late honey, and doubt", packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, HoneyPastWindow: true, ReadingsContradict: true}, []packaging.AlarmKind{packaging.HoneyPastWindow, packaging.Contradiction}},
	} {
		g := packaging.New(c.plan)
		if fmt.Sprint(kinds(&g)) != fmt.Sprint(c.want) {
			t.Errorf("%s: alarms %v, want %v", c.name, kinds(&g), c.want)
		}
		if g.WorstVolumes < c.plan.PlannedVolumes {
			t.Errorf("%s: worst %v under planned", c.name, g.WorstVolumes)
		}
	}
	g := packaging.New(packaging.Plan{PlannedVolumes: 2.7, RatedVolumes: 3})
	near(t, "lower to", g.Alarms[0].LowerToVolumes, 2.5, 1e-9)
	near(t, "or bottles for", g.Alarms[0].StrongerVolumes, 3.2, 1e-9)
	near(t, "not known, so", packaging.New(packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, Tails: []packaging.Tail{small}}).EqualReadingsDays, 2, 0)
}

// TestTable: four points above the end of a 12 °P beer are 2.012 volumes.
func TestTable(t *testing.T) {
	t.Parallel()
	g := packaging.New(packaging.Plan{PlannedVolumes: 2.4, RatedVolumes: 3, OriginalPlato: 12, EndSG: 1.010, HoneyUnfermentedGPL: 42.71})
	for _, e := range g.Table {
		if e.Over != (e.Volumes > 3) {
			t.Errorf("%+v", e)
		}
		if math.Abs(e.PackagedSG-1.014) < 1e-9 {
			near(t, "volumes at 1.014", e.Volumes, 4.412, 0.002)
		}
	}
	if len(g.Table) != 5 || g.Table[0].Volumes != 2.4 {
		t.Errorf("table %+v", g.Table)
	}
	near(t, "honey left", g.HoneyUnfermentedVolumes, 12.4, 0.01)
}
