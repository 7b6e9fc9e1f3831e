package command_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"skep/app/command"
	"skep/assets"
)

// run runs a command inside this process.
func run(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	todo := command.Run(args, command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs})
	if todo.Window {
		t.Fatalf("skep %v wants the window", args)
	}
	return out.String(), errs.String(), todo.Code
}

// The table and the JSON are the same prediction, the table rounded.
func TestTableAgreesWithJSON(t *testing.T) {
	t.Parallel()
	for _, name := range assets.Demos() {
		path := filepath.Join("..", "..", "assets", "demo", name)
		table, _, code := run(t, "predict", path)
		text, _, code2 := run(t, "predict", path, "--json")
		if code != 0 || code2 != 0 {
			t.Fatalf("%s: exit codes %d and %d", name, code, code2)
		}
		var p map[string]any
		if err := json.Unmarshal([]byte(text), &p); err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			label, key string
			decimals   int
		}{
			{"original gravity", "original_gravity_sg", 3},
			{"  with all fermenting honey", "effective_original_gravity_sg", 3},
			{"final gravity", "final_gravity_sg", 3},
			{"strength", "strength_pct", 1},
			{"apparent attenuation", "apparent_attenuation_pct", 0},
			{"real attenuation", "real_attenuation_pct", 0},
			{"dryness, 0 to 100", "dryness", 0},
			{"body, 0 to 100", "body", 0},
			{"honey character, 0 to 100", "honey_character", 0},
			{"residual sugar", "residual_sugar_g_l", 1},
			{"sweetness", "sweetness_g_l", 1},
			{"dextrin", "dextrin_g_l", 1},
			{"real extract", "real_extract_g_l", 1},
			{"bitterness", "bitterness_ibu", 0},
			{"colour", "colour_ebc", 1},
			{"energy", "energy_kj_per_l", 0},
			{"  height of fermentation", "height_hours", 0},
			{"  finished", "finished_hours", 0},
		} {
			band, ok := p[c.key].(map[string]any)
			if !ok {
				t.Errorf("%s: no band %s in the JSON", name, c.key)
				continue
			}
			want := fmt.Sprintf(`(?m)^%s +%s +%s +%s( |$)`, regexp.QuoteMeta(c.label),
				rounded(band["low"], c.decimals), rounded(band["mid"], c.decimals), rounded(band["high"], c.decimals))
			if !regexp.MustCompile(want).MatchString(table) {
				t.Errorf("%s: %s is %v in the JSON, and the table has no line %s:\n%s", name, c.key, band, want, table)
			}
		}
	}
}

func rounded(v any, decimals int) string {
	return regexp.QuoteMeta(strconv.FormatFloat(v.(float64), 'f', decimals, 64))
}

// The demonstration designs are what their names say: from dry to soft each is
// less dry and fuller than the one before. The one that the first start opens
// has nothing to warn of.
func TestDemosAreDryMiddleSoft(t *testing.T) {
	t.Parallel()
	dryness, body := 101.0, -1.0
	for _, name := range assets.Demos() {
		text, _, _ := run(t, "predict", filepath.Join("..", "..", "assets", "demo", name), "--json")
		var p struct {
			Dryness, Body struct{ Mid float64 }
			Warnings      []string
		}
		if err := json.Unmarshal([]byte(text), &p); err != nil {
			t.Fatal(err)
		}
		if p.Dryness.Mid >= dryness || p.Body.Mid <= body {
			t.Errorf("%s: dryness %v, body %v, after %v and %v", name, p.Dryness.Mid, p.Body.Mid, dryness, body)
		}
		dryness, body = p.Dryness.Mid, p.Body.Mid
		if name == assets.DemoMiddle && len(p.Warnings) > 0 {
			t.Errorf("%s warns: %q", name, p.Warnings)
		}
	}
}

// A prediction twice is the same prediction, to the last digit.
func TestPredictIsDeterministic(t *testing.T) {
	t.Parallel()
	path := filepath.Join("..", "..", "assets", "demo", assets.DemoMiddle)
	first, _, _ := run(t, "predict", path, "--json")
	second, _, _ := run(t, "predict", path, "--json")
	if first != second || first == "" {
		t.Errorf("two runs differ:\n%s\n%s", first, second)
	}
}

// FyneApp.toml repeats the version for packaging.
func TestVersionAgrees(t *testing.T) {
	t.Parallel()
	var app struct {
		Details struct{ Name, ID, Version string }
	}
	decodeTOML(t, filepath.Join("..", "..", "FyneApp.toml"), &app)
	if app.Details.Version != command.Version || app.Details.Name != "Skep" {
		t.Errorf("FyneApp.toml has %+v, the program is %s", app.Details, command.Version)
	}
	out, _, code := run(t, "--version")
	if out != "skep "+command.Version+"\n" || code != 0 {
		t.Errorf("--version prints %q, exit %d", out, code)
	}
}

// Reading and judging a design may take as long again as starting does, most of
// which is the toolkit's own beginning. The quickest of several runs counts: the
// others measure what else the machine was doing.
func TestStartsQuickly(t *testing.T) {
	const times = 2
	demo := filepath.Join("..", "..", "assets", "demo", assets.DemoMiddle)
	quickest := func(program string, args ...string) time.Duration {
		best := time.Hour
		for range 20 {
			began := time.Now()
			if err := exec.Command(program, args...).Run(); err != nil {
				t.Fatal(err)
			}
			best = min(best, time.Since(began))
		}
		return best
	}
	check, nothing := quickest(skep, "check", demo), quickest(skep, "--version")
	t.Logf("skep check takes %v, skep --version %v", check, nothing)
	if check > times*nothing {
		t.Errorf("skep check takes %v, skep --version %v: more than %d times as long", check, nothing, times)
	}
	// The commands alone, which link no toolkit, start in under 50 ms: .ci/run asks
	// that of the program that it names here, when nothing runs beside it.
	if alone := os.Getenv("SKEP_QUIET"); alone != "" {
		took := quickest(alone, "check", demo)
		t.Logf("the commands alone: check takes %v", took)
		if took > 50*time.Millisecond {
			t.Errorf("the commands alone take %v for check, want under 50 ms", took)
		}
	}
}
