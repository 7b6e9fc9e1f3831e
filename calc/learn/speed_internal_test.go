package learn

import "testing"

// One reading that is far off the others moves what they say by little; without
// it they count by their own errors.
func TestOneWrongReadingTeachesLittle(t *testing.T) {
	t.Parallel()
	says := []timing{{0.10, 0.001}, {0.12, 0.002}, {0.09, 0.001}}
	right, _ := together(says)
	if right < 0.098 || right > 0.102 {
		t.Errorf("three alike: %.3f, by their errors 0.100", right)
	}
	wrong, _ := together(append(says, timing{1.2, 0.001}))
	if plain := (0.1/0.001 + 0.12/0.002 + 0.09/0.001 + 1.2/0.001) / 3500; wrong > right+0.1 || plain < 0.4 {
		t.Errorf("with one wrong: %.3f, without %.3f, the plain mean %.3f", wrong, right, plain)
	}
}
