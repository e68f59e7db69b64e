package strength

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReactions checks the sharing of loads among supports with closed forms of
// the continuous beam.
func TestReactions(t *testing.T) {
	const span, p = 500.0, 600.0
	three := []float64{100, 100 + span, 100 + 2*span}
	for _, c := range []struct {
		name string
		at   []float64
		load []onBeam
		want []float64
	}{
		{"over the middle support, that one alone carries", three, []onBeam{{600, p}}, []float64{0, -p, 0}},
		{"two equal spans, a load in the middle of each: 5/16, 22/16, 5/16", three,
			[]onBeam{{350, p}, {850, p}}, []float64{-5 * p / 16, -22 * p / 16, -5 * p / 16}},
		{"two equal spans, one load: 13/32, 22/32, −3/32", three,
			[]onBeam{{350, p}}, []float64{-13 * p / 32, -22 * p / 32, 3 * p / 32}},
		{"three equal spans, a load in the middle of each: 0.35, 1.15, 1.15, 0.35 P",
			[]float64{0, span, 2 * span, 3 * span}, []onBeam{{250, p}, {750, p}, {1250, p}}, []float64{-.35 * p, -1.15 * p, -1.15 * p, -.35 * p}},
	} {
		got := reactions(c.at, c.load)
		assert.InDeltaSlice(t, c.want, got, 0.01*p/100, c.name)
	}
}
