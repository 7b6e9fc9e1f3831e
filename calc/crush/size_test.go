package crush

import "testing"

// What lies on a sieve is larger than its holes and passed those of the one
// above.
func TestSizesLieBetweenSieves(t *testing.T) {
	t.Parallel()
	for i, mm := range sizeMM {
		if mm <= sieveMM[i] || i > 0 && mm >= sieveMM[i-1] {
			t.Errorf("on the sieve of %v mm lie %v mm", sieveMM[i], mm)
		}
	}
}
