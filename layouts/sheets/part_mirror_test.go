package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model"
	"planset/model/expr"
)

// TestMirroredMarksReadAlike: of two holes as far from either end, whatever the
// length, the printed places add up to the printed length, and none is more than
// half a step from the truth.
func TestMirroredMarksReadAlike(t *testing.T) {
	for _, u := range []expr.Unit{expr.Inch, expr.MM} {
		tied, kept := 0, 0
		for i := range 400 {
			long, in := 300+0.37*float64(i), 10+0.11*float64(i%37)
			p := &model.Part{Length: long, Holes: []model.Hole{{Along: in, Into: "face"}, {Along: long - in, Into: "face"}}}
			b := &partPage{d: &desk{plan: &model.Plan{Unit: u}}, p: p, view: &plate{p: p}}
			near, far := u.Round(b.mirrored(p.Holes[0]), expr.Coarse), u.Round(b.mirrored(p.Holes[1]), expr.Coarse)
			assert.InDelta(t, long-in, far, u.Step(expr.Coarse)/2+0.02)
			if d := near + far - u.Round(long, expr.Coarse); d < 1e-6 && d > -1e-6 {
				tied++
			} else {
				kept++
			}
		}
		assert.Greater(t, tied, kept, "most lengths and insets can be told alike")
	}
	u := expr.Inch // a slat of the deck chair: 15/32 in from both ends of 20 7/8
	p := &model.Part{Length: 20.875 * 25.4, Holes: []model.Hole{{Along: 15. / 32 * 25.4, Into: "face"}, {Along: (20.875 - 15./32) * 25.4, Into: "face"}}}
	b := &partPage{d: &desk{plan: &model.Plan{Unit: u}}, p: p, view: &plate{p: p}}
	assert.Equal(t, "20 3⁄8″", u.Length(b.mirrored(p.Holes[1]), expr.Coarse))
}
