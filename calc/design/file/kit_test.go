package file

import (
	"strings"
	"testing"

	"skep/calc/design"
)

func aKit() design.KitFile {
	k := design.NewKit()
	k.Kit.Name, k.Kit.VesselL, k.Kit.SteamLPerH = "The 18 litre kettle", 18, 1.4
	k.Batch.AltitudeM = 640
	k.Water = design.NewWater()
	k.Water.Calcium = 88
	return k
}

func same(a, b design.KitFile) bool {
	x, y := design.New(), design.New()
	kitInto(&x, &a)
	kitInto(&y, &b)
	return x.Equal(y)
}

func TestAKitReadsBack(t *testing.T) {
	t.Parallel()
	src, err := EncodeKit(aKit())
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := ParseKit("k.toml", src)
	if len(findings) > 0 || !same(doc.Kit, aKit()) {
		t.Fatalf("%v\n%s", findings, src)
	}
}

// A person's hand in a kit's file stays: comments, order, unknown keys, line ends.
func TestAKitKeepsWhatAPersonWrote(t *testing.T) {
	t.Parallel()
	for _, src := range []string{
		"# mine\n[kit]\nname = \"Old\"   # from the barn\nsteam_l_per_h = 2.0\nmy_own = 3\n",
		"# mine\r\n[kit]\r\nname = \"Old\"\r\nsteam_l_per_h = 2.0\r\n",
		"kit = {name = \"Old\", steam_l_per_h = 2.0}\n",
	} {
		doc, findings := ParseKit("k.toml", []byte(src))
		if design.HasErrors(findings) {
			t.Fatal(findings)
		}
		k := doc.Kit
		k.Kit.SteamLPerH, k.Kit.HeaterW = 2.6, 1800
		out, err := doc.Write(k)
		if err != nil {
			t.Fatalf("%q: %v", src, err)
		}
		again, findings := ParseKit("k.toml", out)
		if design.HasErrors(findings) || !same(again.Kit, k) {
			t.Errorf("%q became %q", src, out)
		}
		for _, kept := range []string{"# mine", "# from the barn", "my_own = 3"} {
			if strings.Contains(src, kept) && !strings.Contains(string(out), kept) {
				t.Errorf("%q is gone from %q", kept, out)
			}
		}
		if strings.Contains(src, "\r\n") && strings.Count(string(out), "\n") != strings.Count(string(out), "\r\n") {
			t.Errorf("mixed line ends in %q", out)
		}
	}
}

func TestABrokenKitIsNamedByItsLine(t *testing.T) {
	t.Parallel()
	for src, want := range map[string]string{
		"[kit\n":                                     "k.toml:1: ",
		"[kit]\nname = \"A\"\nvessel_l = 3000\n":     "k.toml:3: ",
		"[kit]\nname = \"A\"\nvessel_l = \"many\"\n": "k.toml:3: ",
		"[kit]\nvessel_l = 30\n":                     "kit.name",
		"[kit]\nname = \" \"\n":                      "k.toml:2: ",
		"":                                           "kit.name",
	} {
		doc, findings := ParseKit("k.toml", []byte(src))
		err := design.FirstError(findings)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", src, err, want)
			continue
		}
		if doc != nil {
			if _, err := doc.Write(aKit()); err == nil {
				t.Errorf("%q was written over", src)
			}
		}
	}
}

// A kit goes into a design and out again; what is added to the water stays with
// the brew.
func TestAKitGoesIntoADesign(t *testing.T) {
	t.Parallel()
	d := design.New()
	d.Water = design.NewWater()
	d.Water.GypsumG = 4
	k := aKit()
	k.Into(&d)
	if d.Kit != k.Kit || d.Batch.AltitudeM != 640 || d.Water.Calcium != 88 || d.Water.GypsumG != 4 || !k.Same(&d) {
		t.Errorf("%+v, %+v", d.Kit, d.Water)
	}
	if out := design.KitOf(d); out.Water.GypsumG != 0 || !same(out, k) {
		t.Errorf("%+v", out.Water)
	}
	d.Kit.SteamLPerH++
	if k.Same(&d) {
		t.Error("a changed copy is said to be the same")
	}
}
