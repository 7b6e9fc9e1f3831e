package plane

import (
	"image/color"
	"testing"

	"skep/app/look"
)

// What carries meaning stands out from all that it may lie on: marks 3:1 (WCAG
// 2.2, 1.4.11), words 4.5:1 (1.4.3). The axis words and the ghost's name lie on
// the panel or on the reach, not within the cloud as a rule.
func TestContrast(t *testing.T) {
	t.Parallel()
	for name, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		c := look.PaletteOf(look.New(mode), 2)
		most := look.Over(c.AccentSoft, c.Reach)
		half := look.Over(c.AccentSoft, most)
		for _, k := range []struct {
			what    string
			ink     color.NRGBA
			least   float64
			grounds []color.NRGBA
		}{
			{"an arrow's word", c.Ink, 4.5, []color.NRGBA{c.Panel, c.Reach, most, half}},
			{"a quiet word", c.Quiet, 4.5, []color.NRGBA{c.Panel, c.Reach}},
			{"an arrow that is lit", c.Accent, 3, []color.NRGBA{c.Panel, c.Reach, most}},
			{"the pin", c.Pin, 3, []color.NRGBA{c.Panel, c.Reach, most}},
			{"the outline of reach", c.Ghost, 3, []color.NRGBA{c.Panel, c.Reach}},
			{"the design against its ring", c.Accent, 3, []color.NRGBA{c.Panel}},
		} {
			for i, ground := range k.grounds {
				if got := look.Contrast(k.ink, ground); got < k.least {
					t.Errorf("%s: %s has %.2f:1 on ground %d, want %.1f", name, k.what, got, i, k.least)
				}
			}
		}
	}
}
