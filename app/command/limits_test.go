//go:build linux

package command_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"skep/assets"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/measured"
)

// What a command may take with every list as long as it may be: an answer within two
// seconds on two processors that have nothing else to do, and what a small computer
// has of memory. The time is the processors' and not the clock's: other work on the
// machine does not count.
const (
	mostProcessorTime = 4 * time.Second
	mostMemory        = 512 << 20
)

// atTheLimit is a demonstration with as many entries as each list may have.
func atTheLimit(t *testing.T, readings int) string {
	t.Helper()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := file.Parse("demo", src)
	if err := design.FirstError(findings); err != nil {
		t.Fatal(err)
	}
	d := doc.Design.Clone()
	d.Kit.VesselL, d.Kit.FermenterL = 200, 200
	for len(d.Mash.Rest) < design.ListLimit("mash.rest") {
		d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 66 + float64(len(d.Mash.Rest))/2, Minutes: 5})
	}
	for len(d.Grain) < design.ListLimit("grain") {
		g := d.Grain[0]
		g.Name, g.MassKg = fmt.Sprintf("malt %d", len(d.Grain)), 0.05
		d.Grain = append(d.Grain, g)
	}
	for len(d.Honey) < design.ListLimit("honey") {
		h := d.Honey[0]
		h.Name, h.MassKg = fmt.Sprintf("honey %d", len(d.Honey)), 0.05
		d.Honey = append(d.Honey, h)
	}
	for len(d.Hop) < design.ListLimit("hop") {
		h := d.Hop[0]
		h.Name, h.MassG = fmt.Sprintf("hop %d", len(d.Hop)), 1
		d.Hop = append(d.Hop, h)
	}
	for len(d.Yeast) < design.ListLimit("yeast") {
		y := d.Yeast[0]
		y.Name = fmt.Sprintf("strain %d", len(d.Yeast))
		y.AttenuationLowPct += float64(len(d.Yeast)) / 10
		d.Yeast = append(d.Yeast, y)
	}
	for i := range design.ListLimit("temperature") {
		d.Temperature = append(d.Temperature, design.TemperatureStep{AtHours: float64(60 + 12*i), TemperatureC: 19 + float64(i%2)})
	}
	pitched := time.Date(2026, 6, 20, 15, 0, 0, 0, time.UTC)
	for i := range readings {
		r := design.NewReading()
		r.What, r.At, r.Value, r.TemperatureC, r.Instrument = measured.Gravity, pitched.Add(time.Duration(i)*10*time.Minute), max(1.046-0.0001*float64(i), 1.008), 20, measured.Hydrometer
		if i == 0 {
			r.What, r.Value = measured.Pitched, 1
		}
		d.Reading = append(d.Reading, r)
	}
	out, err := file.Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "limit.toml")
	if err := os.WriteFile(path, out, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Every command that reads a design, at the limit of every list.
func TestCommandsAtTheLimit(t *testing.T) {
	plan, batch := atTheLimit(t, 0), atTheLimit(t, design.ListLimit("reading"))
	home := t.TempDir()
	commands := []string{
		"check PLAN", "predict PLAN", "predict PLAN --json", "compare PLAN", "course PLAN", "tune PLAN",
		"sweep PLAN mash.rest.0.temperature_c 60 72 13", "plot PLAN -o OUT/a.png", "plot PLAN -o OUT/a.pdf", "plot PLAN -o OUT/a.svg",
		"sheet PLAN -o OUT/b.pdf", "sheet PLAN -o OUT/b.txt", "explain PLAN final_gravity_sg", "explain PLAN height_hours", "explain PLAN honey_character",
		"check BATCH", "predict BATCH", "follow BATCH", "course BATCH", "explain BATCH final_gravity_sg", "explain BATCH height_hours", "tune BATCH",
	}
	for _, line := range commands {
		for name, path := range map[string]string{"PLAN": plan, "BATCH": batch, "OUT": home} {
			line = strings.ReplaceAll(line, name, path)
		}
		c := exec.Command(skep, strings.Fields(line)...)
		c.Env = append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME=", "LANG=en_US.UTF-8")
		start := time.Now()
		out, err := c.CombinedOutput()
		took := time.Since(start)
		spent := c.ProcessState.UserTime() + c.ProcessState.SystemTime()
		memory := c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss << 10
		short := strings.NewReplacer(filepath.Dir(plan)+"/", "", filepath.Dir(batch)+"/", "", home+"/", "").Replace(line)
		t.Logf("%-60s %6.2f s of processors, %6.2f s by the clock, %4d MB", short, spent.Seconds(), took.Seconds(), memory>>20)
		if err != nil && c.ProcessState.ExitCode() != 1 {
			t.Errorf("skep %s: %v\n%.300s", short, err, out)
		}
		if spent > mostProcessorTime || memory > mostMemory {
			t.Errorf("skep %s took %v of processors and %d MB", short, spent, memory>>20)
		}
	}
}
