package sheets

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
)

// The numbers are those of PLANSET's table for a part of 41 in: 0.10, 0.21 and
// 1.2 in, and 0.11 in for a bar of 6 in read to 1/64.
func TestErrorBudgetOfTheStringer(t *testing.T) {
	p := chair(expr.Inch, "letter").Plan
	long, length := longestTemplate(p)
	require.Positive(t, length)
	words := strings.Join(ErrorBudget(p), "\n")
	t.Log(words)
	assert.Contains(t, words, "("+long.Code+"), "+p.Unit.Long(length))
	assert.Contains(t, words, "by "+slight(p.Unit, length/400))
	assert.Contains(t, words, "by "+slight(p.Unit, length/200))
	assert.Contains(t, words, "T1 end to end")
	assert.Equal(t, "7⁄64″", slight(expr.Inch, goodPrinter*41*25.4), "0.10 in")
	assert.Equal(t, "13⁄64″", slight(expr.Inch, plainPrinter*41*25.4), "0.21 in")
	assert.Equal(t, "7⁄64″", slight(expr.Inch, barRead/barIn*41*25.4), "0.11 in")
	for _, line := range ErrorBudget(chair(expr.MM, "a4").Plan) {
		assert.NotContains(t, line, "″")
	}
	assert.Empty(t, ErrorBudget(&model.Plan{}))
}
