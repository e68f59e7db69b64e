package woodwork_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/woodwork"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Of the nine edges of a box that are seen from a corner the six of its silhouette
// are drawn heavier than the three inside it, also where another box hides part of
// it; what was there before is thin all round.
func TestSilhouettesAreHeavier(t *testing.T) {
	solid, err := geom.Board{Outline: geom.Rect(300, 90), Thick: 40}.Solid(0.1)
	require.NoError(t, err)
	cam, err := view.Words("front right high")
	require.NoError(t, err)
	for _, look := range []woodwork.Look{woodwork.Natural, woodwork.Fresh, woodwork.Done} {
		for _, scale := range []float64{0.08, 0.3} {
			p := woodwork.At([]woodwork.Piece{{ID: 4, Solid: solid, Look: look}}, cam, geom.Pt{}, scale)
			pens := map[float64]int{}
			for _, item := range p.Items() {
				if s, ok := item.(render.Stroke); ok {
					pens[s.Pen.Width] += len(s.Paths)
				}
			}
			if look == woodwork.Done {
				assert.Len(t, pens, 1)
				continue
			}
			require.Len(t, pens, 2)
			thin, heavy := 9.0, 0.0
			for w := range pens {
				thin, heavy = min(thin, w), max(heavy, w)
			}
			assert.Equal(t, 3, pens[thin])
			assert.Equal(t, 6, pens[heavy])
			assert.Greater(t, heavy, 1.5*thin, "the eye tells them apart")
		}
	}
}

// Spots keep off the edges of a broad face, so that a dot there touches no line.
func TestSpotsAreWellInside(t *testing.T) {
	solid, err := geom.Board{Outline: geom.Rect(300, 90), Thick: 40}.Solid(0.1)
	require.NoError(t, err)
	cam, err := view.Words("front right high")
	require.NoError(t, err)
	p := woodwork.At([]woodwork.Piece{{ID: 4, Solid: solid}}, cam, geom.Pt{}, 0.2)
	spots := p.Spots(4)
	require.Greater(t, len(spots), 4)
	for _, q := range spots {
		for _, d := range []geom.Pt{{X: 0.7}, {X: -0.7}, {Y: 0.7}, {Y: -0.7}} {
			assert.Equal(t, 0, p.Seen().At(q.Add(d)))
		}
	}
	assert.Empty(t, p.Spots(99), "a piece that is not there")
}
