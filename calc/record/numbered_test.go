package record_test

import (
	"regexp"
	"strconv"
	"testing"
)

// numberedRows is how many of the outside rows carry a number, CK-1 and on.
const numberedRows = 60

// TestEveryNumberedRow: each numbered outside row stands in the record, with a
// verdict.
func TestEveryNumberedRow(t *testing.T) {
	t.Parallel()
	number := regexp.MustCompile(`CK-(\d+)`)
	verdicts := map[int]map[string]int{}
	for _, s := range sections(t) {
		for _, r := range s.rows {
			for _, m := range number.FindAllStringSubmatch(r.Quantity, -1) {
				n, err := strconv.Atoi(m[1])
				if err != nil || n < 1 || n > numberedRows {
					t.Errorf("%s: there is no such number", r.Quantity)
					continue
				}
				if verdicts[n] == nil {
					verdicts[n] = map[string]int{}
				}
				verdicts[n][r.Judge()]++
			}
		}
	}
	for n := 1; n <= numberedRows; n++ {
		if len(verdicts[n]) == 0 {
			t.Errorf("CK-%d has no row in the record", n)
		}
		t.Logf("CK-%d: %v", n, verdicts[n])
	}
}
