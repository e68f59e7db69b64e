package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
)

// A book that has settled is what one more whole pass makes of it: neither the
// glossary that was made again alone nor the templates begun ahead differ from
// those of a pass in which everything is made in its turn.
func TestAnotherPassChangesNothing(t *testing.T) {
	for _, piece := range []string{"chair", "side-table"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			d := newDesk(drawnPiece(t, piece, "", unit), order())
			made := 0
			for ; made < passes; made++ {
				d.makeAll()
				if d.settled() {
					break
				}
				d = d.again()
			}
			require.Less(t, made, passes)
			assert.Equal(t, 1, made, "two passes are enough for %s", piece)

			next := d.again()
			next.terms = d.terms
			for _, s := range next.sheets {
				s.make(next, s)
			}
			next.fillBlanks()
			next.found = next.shopWords()
			assert.True(t, next.settled())
			want, got := next.book(), d.book()
			require.Len(t, got.Pages, len(want.Pages))
			for i := range want.Pages {
				assert.Equal(t, want.Pages[i], got.Pages[i], "%s, page %d", piece, i+1)
			}
			assert.Equal(t, want.Marks, got.Marks)
			assert.Equal(t, next.problems, d.problems)
		}
	}
}
