package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smooths counts the facets of each curved surface.
func smooths(s *Solid) map[int]int {
	n := map[int]int{}
	for _, f := range s.Faces {
		if f.Smooth > 0 {
			n[f.Smooth]++
		}
	}
	return n
}

func TestOneNumberForEachCurvedSurface(t *testing.T) {
	disc := Board{Outline: Circle(Pt{}, 50), Thick: 20}
	s := solidOf(t, disc, 0.1)
	assert.Equal(t, map[int]int{1: 2 * facets(50, math.Pi, 0.1)}, smooths(s), "two half turns are one cylinder")

	disc.Bores = []Bore{{V3{}, V3{0, 0, 1}, 20, 8}, {V3{}, V3{0, 0, 1}, 10, 0}}
	got := smooths(solidOf(t, disc, 0.1))
	assert.Len(t, got, 3)

	// An outline that begins in the middle of its arc.
	a := ArcBy(Pt{100, 0}, Pt{0, 100}, Pt{0, 0}, CCW)
	first, second := a.Split(0.4)
	o := Outline{second, Line(Pt{0, 100}, Pt{0, 0}), Line(Pt{0, 0}, Pt{100, 0}), first}
	require.NoError(t, o.Valid())
	assert.Len(t, smooths(solidOf(t, Board{Outline: o, Thick: 9}, 0.1)), 1)

	b := stringer(t)
	assert.Len(t, smooths(solidOf(t, b, 0.1)), 2+4, "two arcs and four holes")
	b.Rounds = []Round{{Pt{500, 0}, Pt{40, 0}, true, 5}}
	b.Rounds[0].A, b.Rounds[0].B = Pt{40, 0}, Pt{500, 0}
	assert.Len(t, smooths(solidOf(t, b, 0.1)), 3+4)
}

// An edge rounded from both faces to half the thickness is a half cylinder.
func TestBullnose(t *testing.T) {
	b := box(600, 90, 20)
	a, e := b.Outline[0].A, b.Outline[0].B
	b.Rounds = []Round{{a, e, true, 10}, {a, e, false, 10}}
	s := solidOf(t, b, 0.001)
	assert.InDelta(t, 600*(80*20+math.Pi*50), s.Volume(), 600*math.Pi*10*0.001)
	// The half disc's own centre is 4r/3π off its axis.
	want := (80*20*50 + math.Pi*50*(10-40/(3*math.Pi))) / (80*20 + math.Pi*50)
	assert.InDelta(t, want, s.Centroid().Y, 0.01)
	assert.InDelta(t, 10, s.Centroid().Z, 1e-9)
}

func TestKindsByDirection(t *testing.T) {
	b := box(600, 90, 20)
	b.Cuts = []Plane{
		{V3{590, 90, 0}, V3{1, 0.9, 0}.Unit()},    // a clipped corner nearer the end
		{V3{0, 85, 20}, V3{0, 1, 1}.Unit()},       // a chamfer along the edge
		{V3{0, 0, 19}, V3{0.01, 0, 1}.Unit()},     // a face planed out of true
		{V3{40, 45, 10}, V3{-1, 0.2, 0.3}.Unit()}, // a compound end
	}
	k := kinds(solidOf(t, b, 0.1))
	assert.Equal(t, map[FaceKind]int{Flat: 2, Side: 3, End: 3}, k)
}
