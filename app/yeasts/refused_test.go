package yeasts

import (
	"testing"
)

// A design that the engine refuses is shown as refused, with the reason, and none
// of the numbers of the design before it.
func TestARefusedDesignShowsNoNumbers(t *testing.T) {
	s := yeastsStage(t)
	s.RefusedShowsNoNumbers(t, func(err error) { s.yeasts.show(&frame{err: err}) })
}
