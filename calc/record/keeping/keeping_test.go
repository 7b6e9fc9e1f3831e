package keeping

import (
	"testing"

	"skep/calc/record"
)

// Every row agrees or says why not.
func TestRows(t *testing.T) {
	t.Parallel()
	all := [][]record.Row{Packaging(), ColdSide(), Tasting()}
	for _, rows := range all {
		if len(rows) < 10 {
			t.Errorf("only %d rows", len(rows))
		}
		for _, r := range rows {
			if r.Judge() == "misses" {
				t.Logf("%s: ours %v, published %v", r.Quantity, r.Ours, r.Published)
				if r.Why == "" {
					t.Errorf("%s misses without a reason", r.Quantity)
				}
			}
		}
	}
}
