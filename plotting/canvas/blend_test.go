package canvas

import (
	"image/color"
	"testing"
)

// Every byte of a pixel is the mean of what was there and the colour, by the share that
// is covered, rounded; the pixel stays opaque.
func TestOverIsTheMeanOfEachByte(t *testing.T) {
	t.Parallel()
	mean := func(was, ink, covered, full int) int {
		a := (2*covered*full + 255) / 510
		return (2*(was*(255-a)+ink*a) + 255) / 510
	}
	for was := range 256 {
		for covered := range 256 {
			c := color.NRGBA{R: uint8(7 * was), G: uint8(covered ^ 0x5a), B: 255 - uint8(covered), A: uint8(255 - was%3*40)}
			row := []uint8{uint8(was), uint8(255 - was), uint8(3 * was), 255}
			want := [4]uint8{}
			for i, ink := range [...]uint8{c.R, c.G, c.B} {
				want[i] = uint8(mean(int(row[i]), int(ink), covered, int(c.A)))
			}
			want[3] = 255
			if over(row, []uint8{uint8(covered)}, c); [4]uint8(row) != want {
				t.Fatalf("%d, covered by %d of %v: %v, expected %v", was, covered, c, row, want)
			}
		}
	}
}
