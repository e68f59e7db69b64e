package check

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model/marks"
)

// TestLetters: a text may name parts by their letters, as long as they have them.
func TestLetters(t *testing.T) {
	told := func(do string) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)}, block{"Rail", v3(0, 0, 20), v3(400, 80, 20)})
		p.Parts[1].Code, p.Parts[1].Family = "B2", "B"
		work(p, do, nil)
		return letters(newShop(p, nil))
	}
	told1(t, told("Set part K on parts A and B2."), Warning, "step 1 speaks of part K, and no part has that letter", "name the part in braces, as {code leg}, so that its letter follows", 0)
	assert.Empty(t, told("Set part A on parts A, B and B2. A board is no part of it."))
	assert.Len(t, told("Hold parts A, C and D together."), 2)
	assert.Empty(t, told("Part of It stays dry; part I is a word."))
}

// TestAllowed: an angle the author does not limit may change by a degree.
func TestAllowed(t *testing.T) {
	assert.InDelta(t, 1, allowed(marks.Value{Angle: true}), 0)
	assert.InDelta(t, 0.5, allowed(marks.Value{Angle: true, Limit: 0.5}), 0)
	assert.Zero(t, allowed(marks.Value{}))
	assert.InDelta(t, 3, allowed(marks.Value{Limit: 3}), 0)
}
