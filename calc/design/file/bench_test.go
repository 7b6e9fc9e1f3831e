package file

import "testing"

// Validate runs before each prediction, so it must stay far below a frame.
func BenchmarkValidate(b *testing.B) {
	d := gateField()
	b.ReportAllocs()
	for b.Loop() {
		d.Validate()
	}
}

func BenchmarkParse(b *testing.B) {
	src := []byte(example(b))
	b.ReportAllocs()
	for b.Loop() {
		Parse("f", src)
	}
}
