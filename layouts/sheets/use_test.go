package sheets

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
)

// TestEveryMarkOfTheKeyIsDrawn: a mark the key explains has its picture beside
// it, and what the steps show is in the key when they show it.
func TestEveryMarkOfTheKeyIsDrawn(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, order())
		seen := map[string]bool{}
		for _, s := range shop.Symbols(in.Plan) {
			assert.NotEmpty(t, d.sample(s.Key, geom.Pt{}), s.Name)
			assert.False(t, seen[s.Key], "%s stands in the key once", s.Name)
			seen[s.Key] = true
		}
		shows, wrong := false, false
		for _, s := range in.Plan.Steps {
			shows, wrong = shows || len(s.Shows) > 0, wrong || s.Wrong != nil
		}
		assert.Equal(t, shows, seen["gauge"])
		assert.Equal(t, wrong, seen["wrong"])
	})
}

// TestHandsAreSaidOnce: a chair's hands are its sitter's, a table's are seen from
// behind.
func TestHandsAreSaidOnce(t *testing.T) {
	in := chair(expr.Inch, "letter")
	assert.True(t, strings.Contains(handsAre(in.Plan), "sit"))
	in.Plan.Kind = "table"
	assert.False(t, strings.Contains(handsAre(in.Plan), "sit"))
}
