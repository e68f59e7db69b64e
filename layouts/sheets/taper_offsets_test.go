package sheets

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
)

// TestSlightTapersAreOffsets: no scale sets a taper of less than 3 degrees
// (common practice), so the jig page gives how far it comes in and not its angle;
// for a second edge it gives twice as much.
func TestSlightTapersAreOffsets(t *testing.T) {
	const slight, both = 3 * math.Pi / 180, 2
	bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		in := petrel(t, unit, "a4")
		book, _ := Compose(in)
		jigs := ""
		for _, p := range book.Pages {
			if strings.HasPrefix(p.Title, "Jigs") {
				jigs += bare(says(p))
			}
		}
		n := 0
		for _, p := range in.Plan.Parts {
			for _, taper := range p.Tapers {
				if math.Abs(taper.Angle) >= slight {
					continue
				}
				n++
				assert.Contains(t, jigs, bare(unit.LongTo(taper.OffsetEdge, expr.Fine)), "%s %v", p.Code, unit)
				assert.NotContains(t, jigs, expr.Angle(math.Abs(taper.Angle), 1))
				if taper.Edge == both {
					assert.Contains(t, jigs, "forthesecond,"+bare(unit.LongTo(2*taper.OffsetEdge, expr.Fine)))
				}
			}
		}
		require.Positive(t, n, "the chair's back slats taper")
	}
}
