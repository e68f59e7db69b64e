package marks_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/marks"
)

// bench builds small plans of plain boards by hand.
type bench struct {
	t *testing.T
	p *model.Plan
}

func newBench(t *testing.T) *bench { return &bench{t, &model.Plan{Unit: expr.MM}} }

func (b *bench) part(key string, long, wide, thick float64) *model.Part {
	q := &model.Part{Key: key, Code: key, Name: key, Length: long, Width: wide, Thick: thick, Volume: long * wide * thick, Mass: long * wide * thick * 4e-7,
		Ends: [2]model.EndCut{{Shape: "square"}, {Shape: "square"}}, Names: model.Names{Ends: [2]string{"foot", "top"}, Edges: [2]string{"a", "b"}, Faces: [2]string{"c", "d"}},
		Board: geom.Board{Outline: geom.Rect(long, wide), Thick: thick}}
	b.p.Parts = append(b.p.Parts, q)
	return q
}

func (b *bench) stand(q *model.Part, pose geom.Pose) int {
	solid, err := q.Board.Solid(0.1)
	require.NoError(b.t, err)
	world := solid.Transform(pose)
	b.p.Placed = append(b.p.Placed, &model.Placed{Part: q, Pose: pose, Solid: world, Index: len(b.p.Placed), Center: world.Centroid()})
	q.Quantity++
	return len(b.p.Placed) - 1
}

// screw joins pairs of pieces with two screws each, at places on the first's face.
func (b *bench) screw(key string, dir geom.V3, pairs [][2]int, at func(k int) [2]geom.V3) {
	j := &model.Joint{Key: key, Name: key, Kind: "screwed", Each: 2, Hardware: &model.Hardware{Name: "screw", Kind: model.WoodScrew}}
	for k, p := range pairs {
		for _, head := range at(k) {
			j.Fasteners = append(j.Fasteners, model.Fastener{Joint: j, Head: head, Dir: dir, Length: 50, Grip: 20, Pieces: p})
		}
	}
	j.First, j.Second = []*model.Part{b.p.Placed[pairs[0][0]].Part}, []*model.Part{b.p.Placed[pairs[0][1]].Part}
	b.p.Joints = append(b.p.Joints, j)
}

func upright(x, y, z float64) geom.Pose {
	return geom.Pose{Origin: geom.V3{X: x, Y: y, Z: z}, Along: geom.V3{Z: 1}, Across: geom.V3{X: 1}, Thick: geom.V3{Y: 1}}
}

// table is four square legs screwed under one board.
func table(t *testing.T) *model.Plan {
	b := newBench(t)
	leg, top := b.part("leg", 400, 40, 40), b.part("top", 600, 500, 20)
	board := b.stand(top, geom.Pose{Origin: geom.V3{X: -300, Y: -250, Z: 400}, Along: geom.V3{X: 1}, Across: geom.V3{Y: 1}, Thick: geom.V3{Z: 1}})
	var pairs [][2]int
	corners := [][2]float64{{-280, -230}, {240, -230}, {-280, 190}, {240, 190}}
	for _, c := range corners {
		pairs = append(pairs, [2]int{board, b.stand(leg, upright(c[0], c[1], 0))})
	}
	b.screw("legs", geom.V3{Z: -1}, pairs, func(k int) [2]geom.V3 {
		c := corners[k]
		return [2]geom.V3{{X: c[0] + 10, Y: c[1] + 20, Z: 420}, {X: c[0] + 30, Y: c[1] + 20, Z: 420}}
	})
	return b.p
}

// One leg a step too long lifts the table off one of its neighbours by as much:
// three feet and the centre of mass settle the floor, and the plane through them
// passes one step below the fourth. All four too long change nothing.
func TestOneLongLegRocksByItsError(t *testing.T) {
	tab := marks.Rank(table(t))
	k := valueOf(t, tab, "rock")
	row := rowOf(t, tab, "leg", "length")
	assert.InDelta(t, tab.Step, row.Single[k], 1e-6)
	assert.InDelta(t, 0, row.Change[k], 1e-6)
	require.NotEmpty(t, tab.Critical())
	assert.Equal(t, "each 1 mm off on one side alone lets it rock by 1 mm", tab.Critical()[0].Text)
}

// A stool of three legs does not rock whatever their lengths.
func TestThreeLegsDoNotRock(t *testing.T) {
	b := newBench(t)
	leg, top := b.part("leg", 400, 40, 40), b.part("top", 600, 500, 20)
	board := b.stand(top, geom.Pose{Origin: geom.V3{X: -300, Y: -250, Z: 400}, Along: geom.V3{X: 1}, Across: geom.V3{Y: 1}, Thick: geom.V3{Z: 1}})
	corners := [][2]float64{{-280, -230}, {240, -230}, {-20, 190}}
	var pairs [][2]int
	for _, c := range corners {
		pairs = append(pairs, [2]int{board, b.stand(leg, upright(c[0], c[1], 0))})
	}
	b.screw("legs", geom.V3{Z: -1}, pairs, func(k int) [2]geom.V3 {
		c := corners[k]
		return [2]geom.V3{{X: c[0] + 10, Y: c[1] + 20, Z: 420}, {X: c[0] + 30, Y: c[1] + 20, Z: 420}}
	})
	tab := marks.Rank(b.p)
	assert.InDelta(t, 0, rowOf(t, tab, "leg", "length").Single[valueOf(t, tab, "rock")], 0.15, "only the flats of its feet are not square to the floor")
}

// A slat on two rails is a line through two points: raise the rear rail by e and
// the slat's middle rises by e·(middle − front)/(rear − front).
func TestSlatOnTwoRails(t *testing.T) {
	b := newBench(t)
	base := b.part("base", 1000, 300, 20)
	front, rear, slat := b.part("front rail", 200, 80, 4), b.part("rear rail", 200, 80, 4), b.part("slat", 900, 60, 20)
	along := geom.Pose{Origin: geom.V3{X: -150, Y: -50}, Along: geom.V3{Y: 1}, Across: geom.V3{X: 1}, Thick: geom.V3{Z: -1}}
	along.Origin.Z = 20
	i := b.stand(base, along)
	rail := func(q *model.Part, y float64) int {
		return b.stand(q, geom.Pose{Origin: geom.V3{X: -100, Y: y, Z: 20}, Along: geom.V3{X: 1}, Across: geom.V3{Z: 1}, Thick: geom.V3{Y: -1}})
	}
	f, r := rail(front, 2), rail(rear, 402)
	s := b.stand(slat, geom.Pose{Origin: geom.V3{X: 30, Y: -10, Z: 100}, Along: geom.V3{Y: 1}, Across: geom.V3{X: -1}, Thick: geom.V3{Z: 1}})
	down := geom.V3{Z: -1}
	b.screw("rails", geom.V3{Z: 1}, [][2]int{{i, f}, {i, r}}, func(k int) [2]geom.V3 {
		y := 400 * float64(k)
		return [2]geom.V3{{X: -80, Y: y}, {X: 80, Y: y}}
	})
	b.screw("slat", down, [][2]int{{s, f}, {s, r}}, func(k int) [2]geom.V3 {
		y := 400 * float64(k)
		return [2]geom.V3{{X: -15, Y: y, Z: 120}, {X: 15, Y: y, Z: 120}}
	})
	b.p.Critical = []model.Critical{{Name: "slat_height", Value: expr.Length(120), Within: 2}}
	tab := marks.Rank(b.p)
	k := valueOf(t, tab, "slat_height")
	middle := -10.0 + 450
	assert.InDelta(t, middle/400, rowOf(t, tab, "rear rail", "width").Change[k], 0.01)
	assert.InDelta(t, 1-middle/400, rowOf(t, tab, "front rail", "width").Change[k], 0.01)
	assert.InDelta(t, 2, tab.Values[k].Limit, 1e-12)
	assert.InEpsilon(t, math.Hypot(middle/400, 1-middle/400), tab.Values[k].RSS, 0.02)
}

// A critical value that no piece shows is told, not dropped.
func TestUnreadCritical(t *testing.T) {
	p := table(t)
	p.Critical = []model.Critical{{Name: "wobble", Value: expr.Length(123.4), Within: 1}, {Name: "turn", Value: expr.Count(3)}}
	assert.Equal(t, []string{"wobble", "turn"}, marks.Rank(p).Unread)
}

func TestNothingStands(t *testing.T) {
	tab := marks.Rank(&model.Plan{})
	assert.Empty(t, tab.Rows)
	assert.Empty(t, tab.Critical())
}
