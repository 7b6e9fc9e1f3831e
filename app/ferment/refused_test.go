package ferment

import (
	"testing"
)

// A design that the engine refuses is shown as refused, with the reason, and none
// of the numbers of the design before it.
func TestARefusedDesignShowsNoNumbers(t *testing.T) {
	s := fermenting(t, 0)
	s.RefusedShowsNoNumbers(t, func(err error) { s.ferment.answered(&frame{err: err}) })
}
