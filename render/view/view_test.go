package view

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"planset/model/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var oblique = Iso(0.6, 0.45)

func one(s *geom.Solid) []Body { return []Body{{ID: 7, Solid: s, Pose: geom.Home()}} }

func count(d *Drawing, visible bool, kind EdgeKind) int {
	n := 0
	for _, e := range d.Edges {
		if e.Visible == visible && e.Kind == kind {
			n++
		}
	}
	return n
}

func length(d *Drawing, pick func(e Edge) bool) float64 {
	sum := 0.0
	for _, e := range d.Edges {
		if pick(e) {
			sum += e.B.Sub(e.A).Len()
		}
	}
	return sum
}

func visible(e Edge) bool { return e.Visible }

// A cube seen from a corner shows nine of its twelve edges and three faces.
func TestCube(t *testing.T) {
	d := Draw(one(box(100, 100, 100)), oblique)
	assert.Equal(t, 9, count(d, true, Crease))
	assert.Equal(t, 3, count(d, false, Crease))
	assert.Len(t, d.Edges, 12)
	assert.Len(t, d.Areas, 3)
	for _, e := range d.Edges {
		assert.Equal(t, 7, e.Body)
	}
}

// Seen straight, the far edges of a box lie under the near ones.
func TestStraight(t *testing.T) {
	for _, cam := range []Camera{Front(), Rear(), Left(), Right(), Top(), Bottom()} {
		d := Draw(one(box(300, 200, 100)), cam)
		assert.Len(t, d.Edges, 4)
		assert.Equal(t, 4, count(d, true, Crease))
		assert.Len(t, d.Areas, 1)
		assert.InDelta(t, 1, d.Areas[0].N.Dot(cam.Toward), 1e-12)
	}
	d := Draw(one(box(300, 200, 100)), Front())
	assert.InDelta(t, 300, d.Box.W(), 1e-9)
	assert.InDelta(t, 100, d.Box.H(), 1e-9)
}

// Two boards flush beside each other: the joint is one line, all round.
func TestFlush(t *testing.T) {
	two := []Body{
		{1, box(300, 90, 25), geom.Home()},
		{2, box(300, 60, 25), at(0, 90, 0)},
	}
	d := Draw(two, Top())
	require.Len(t, d.Edges, 7) // 4 of the first, 3 more of the second
	assert.InDelta(t, 3*300+2*90+2*60, length(d, visible), 1e-9)
	assert.Equal(t, 4, countBody(d, 1))

	d = Draw(two, oblique)
	whole := Draw(one(box(300, 150, 25)), oblique)
	joint := oblique.Flat(geom.V3{X: 300}).Len() + oblique.Flat(geom.V3{Z: 25}).Len()
	assert.InDelta(t, length(whole, visible)+joint, length(d, visible), 1e-6)
	assert.Zero(t, count(d, true, Mark)+count(d, false, Mark))
}

func countBody(d *Drawing, id int) int {
	n := 0
	for _, e := range d.Edges {
		if e.Body == id {
			n++
		}
	}
	return n
}

// Whose line a shared line is depends on who is named first.
func TestNamedFirst(t *testing.T) {
	a := Body{1, box(300, 90, 25), geom.Home()}
	b := Body{2, box(300, 60, 25), at(0, 90, 0)}
	assert.Equal(t, 3, countBody(Draw([]Body{b, a}, Top()), 1))
}

// A board behind a bigger one is all hidden; half behind it, half.
func TestBehind(t *testing.T) {
	front := Body{1, box(300, 20, 200), at(0, 0, 0)}
	d := Draw([]Body{front, {2, box(100, 20, 50), at(50, 60, 50)}}, Front())
	assert.InDelta(t, 2*300+2*200, length(d, visible), 1e-9)
	assert.InDelta(t, 2*100+2*50, length(d, func(e Edge) bool { return !e.Visible && e.Body == 2 }), 1e-9)
	require.Len(t, d.Areas, 2)
	assert.Equal(t, []int{2, 1}, []int{d.Areas[0].Body, d.Areas[1].Body})

	d = Draw([]Body{front, {2, box(100, 20, 50), at(250, 60, 50)}}, Front())
	assert.InDelta(t, 50+50+50, length(d, func(e Edge) bool { return e.Visible && e.Body == 2 }), 1e-9)
	assert.InDelta(t, 50+50+50, length(d, func(e Edge) bool { return !e.Visible && e.Body == 2 }), 1e-9)
}

// Looking straight down a hole there is one circle; at an angle the near rim is
// whole and of the far rim is seen what the closed form says.
func TestHole(t *testing.T) {
	const r, thick, n = 20.0, 25.0, 96
	board := prism(thick, rect(200, 100), ring(geom.Pt{X: 100, Y: 50}, r, n, true))
	d := Draw(one(board), Top())
	circle := 2 * n * r * math.Sin(math.Pi/n)
	assert.InDelta(t, 600+circle, length(d, visible), 1e-6)
	assert.Equal(t, 0, count(d, false, Crease)+count(d, false, Silhouette))

	// From high in front the far rim is shifted by thick·cot(lift) on the
	// board: it is seen where the two circles overlap.
	const lift = 1.2
	d = Draw(one(board), Iso(0, lift))
	half := math.Acos(thick / math.Tan(lift) / 2 / r) // of the arc that is seen
	mid := func(e Edge) geom.Pt { return e.A.Add(e.B).Mul(0.5) }
	low := Iso(0, lift).Flat(geom.V3{X: 100, Y: 50})
	var seen float64
	for _, e := range d.Edges {
		v := mid(e).Sub(low)
		v.Y /= math.Sin(lift)
		if e.Visible && math.Abs(v.Len()-r) < 0.1 {
			w := e.B.Sub(e.A)
			w.Y /= math.Sin(lift)
			seen += w.Len()
		}
	}
	assert.InDelta(t, 2*half*r, seen, 0.1)
}

// A standing cylinder has two upright limbs, a whole rim above and half a rim
// below; the other half is hidden.
func TestCylinder(t *testing.T) {
	const r, h, n = 30.0, 120.0, 64
	cam := Iso(0.3, 0.5)
	d := Draw(one(cylinder(r, h, n)), cam)
	assert.Equal(t, 2, count(d, true, Silhouette))
	assert.Equal(t, 0, count(d, false, Silhouette))
	assert.Equal(t, n+n/2, count(d, true, Crease))
	assert.Equal(t, n/2, count(d, false, Crease))
	for _, e := range d.Edges {
		if e.Kind == Silhouette {
			assert.InDelta(t, r, math.Abs(e.A.X), r*0.01)
			assert.InDelta(t, h*math.Cos(0.5), e.B.Sub(e.A).Len(), 1e-9)
		}
	}
}

// A ball is one round limb.
func TestBall(t *testing.T) {
	for _, cam := range []Camera{oblique, Front(), Top(), Iso(2, -1)} {
		d := Draw(one(ball(50, 24)), cam)
		assert.Zero(t, count(d, true, Crease)+count(d, false, Crease))
		assert.InDelta(t, 2*math.Pi*50, length(d, visible), 0.02*2*math.Pi*50)
		assert.InDelta(t, length(d, visible), length(d, func(Edge) bool { return true }), 1e-9)
		for _, e := range d.Edges {
			assert.InDelta(t, 50, e.A.Len(), 0.6)
		}
	}
}

// A round on an arris runs smoothly into the flats beside it: no line there.
func TestRoundedArris(t *testing.T) {
	path := []geom.Pt{{}, {X: 100}, {X: 100, Y: 40}}
	const steps = 5
	for i := 1; i <= steps; i++ {
		path = append(path, geom.Pt{X: 80, Y: 40}.Add(geom.Pt{X: 20}.Turn(math.Pi/2*float64(i)/steps)))
	}
	solid := prism(30, rim{at: append(path, geom.Pt{Y: 60})})
	for i := 2; i < 2+steps; i++ {
		solid.Faces[i].Smooth = 1
	}
	d := Draw(one(solid), Iso(math.Pi-0.6, 0.45)) // the round is in full sight
	uprights := 0
	for _, e := range d.Edges {
		if e.Visible && math.Abs(e.A.X-e.B.X) < 1e-9 {
			uprights++
		}
	}
	assert.Equal(t, 2, uprights, "the two where the board ends to the sight")
}

// A beam through a board: the crossing is drawn once and only where it is seen.
func TestCrossing(t *testing.T) {
	d := Draw([]Body{
		{1, box(200, 100, 20), geom.Home()},
		{2, box(30, 40, 200), at(80, 30, -90)},
	}, oblique)
	onTop := oblique.Flat(geom.V3{X: 30}).Len() + oblique.Flat(geom.V3{Y: 40}).Len()
	assert.InDelta(t, onTop, length(d, func(e Edge) bool { return e.Visible && e.Kind == Mark }), 1e-6)
	assert.Equal(t, 2, count(d, true, Mark))

	// The same beam standing on the board only touches it.
	d = Draw([]Body{
		{1, box(200, 100, 20), geom.Home()},
		{2, box(30, 40, 200), at(80, 30, 20)},
	}, oblique)
	assert.Zero(t, count(d, true, Mark)+count(d, false, Mark))
}

// A pin fills its hole: however its facets are turned, the two only touch, and
// where the pin comes out there is one ring round it.
func TestPinInHole(t *testing.T) {
	const n = 32
	board := prism(25, rect(200, 100), ring(geom.Pt{X: 100, Y: 50}, 10, n, true))
	for _, half := range []float64{0, 1, 0.3} {
		pin := turned(geom.V3{X: 100, Y: 50, Z: -3}, geom.V3{Z: 1}, half*math.Pi/n)
		d := Draw([]Body{{1, board, geom.Home()}, {2, cylinder(10, 40, n), pin}}, oblique)
		low := oblique.Flat(geom.V3{X: 100, Y: 50, Z: 25})
		var round, mark float64
		for _, e := range d.Edges {
			mid := e.A.Add(e.B).Mul(0.5).Sub(low)
			mid.Y /= math.Sin(0.45)
			if e.Visible && mid.Len() < 10.5 && e.Kind != Silhouette {
				way := e.B.Sub(e.A)
				way.Y /= math.Sin(0.45)
				round += way.Len()
			}
			if e.Kind == Mark {
				mark += e.B.Sub(e.A).Len()
			}
		}
		assert.InDelta(t, math.Pi*10, round, 1.2, "the front half of the ring")
		assert.Less(t, mark, 4*math.Pi*10, "no lines down the wall of the hole")
	}
}

// Three rods each over the next have no order; they are cut until they do.
func TestRingOfRods(t *testing.T) {
	var rods []Body
	for i := range 3 {
		a := 2 * math.Pi / 3 * float64(i)
		along := geom.V3{X: math.Cos(a), Y: math.Sin(a), Z: 0.15}.Unit()
		across := geom.V3{X: -math.Sin(a), Y: math.Cos(a)}
		p := geom.Pose{Along: along, Across: across, Thick: along.Cross(across)}
		p.Origin = across.Mul(-40).Sub(along.Mul(150))
		rods = append(rods, Body{i, box(300, 12, 8), p})
	}
	cam := Top()
	d := Draw(rods, cam)
	assert.Greater(t, len(d.Areas), 3*2, "each shows its top and an end; one must be cut")
	faces := oracleFaces(rods, cam)
	var painted tally
	b := newBuffer(faces, 400)
	b.repainted(d, rods, cam, &painted)
	assert.Greater(t, painted.checked, 100000)
	assert.Zero(t, painted.wrong)
}

// Mirrored bodies make the mirror image.
func TestMirrored(t *testing.T) {
	bodies := randomScene(rand.New(rand.NewPCG(3, 3)), 12)
	cam := Iso(0.7, 0.3)
	turned := cam
	for _, v := range []*geom.V3{&turned.Right, &turned.Up, &turned.Toward} {
		v.X = -v.X
	}
	there := make([]Body, len(bodies))
	for i, b := range bodies {
		there[i] = Body{b.ID, b.Solid, b.Pose.Mirror()}
	}
	a, b := Draw(bodies, cam), Draw(there, turned)
	require.Len(t, b.Edges, len(a.Edges))
	for i, e := range a.Edges {
		assert.InDelta(t, 0, e.A.Sub(b.Edges[i].A).Len()+e.B.Sub(b.Edges[i].B).Len(), 1e-6)
		assert.Equal(t, e.Visible, b.Edges[i].Visible)
	}

	// And a mirrored camera flips the picture of the same bodies.
	turned = Camera{cam.Right.Neg(), cam.Up, cam.Toward}
	b = Draw(bodies, turned)
	assert.InDelta(t, length(a, visible), length(b, visible), 0.5)
	assert.InDelta(t, a.Box.Min.X, -b.Box.Max.X, 1e-9)
}

// No two lines of a drawing lie on one another.
func TestOnce(t *testing.T) {
	for seed := range uint64(10) {
		bodies := randomScene(rand.New(rand.NewPCG(seed, 5)), 10)
		d := Draw(bodies, []Camera{Front(), Top(), oblique}[seed%3])
		for i, e := range d.Edges {
			u, long := e.B.Sub(e.A).Unit(), e.B.Sub(e.A).Len()
			for _, f := range d.Edges[i+1:] {
				s, ok := shared(e.A, u, long, &piece{a: f.A, b: f.B})
				assert.False(t, ok && s.hi-s.lo > speck, "%v and %v", e, f)
			}
		}
	}
}

// A face cut in two where its neighbour is not still closes the solid, and the
// cut itself is no edge.
func TestSplitFace(t *testing.T) {
	s := box(100, 60, 30)
	top := slices.IndexFunc(s.Faces, func(f geom.Face) bool { return f.N.Z > 0 })
	half := func(x0, x1 float64) geom.Face {
		return geom.Face{N: geom.V3{Z: 1}, Loops: [][]geom.V3{{{X: x0, Z: 30}, {X: x1, Z: 30}, {X: x1, Y: 60, Z: 30}, {X: x0, Y: 60, Z: 30}}}}
	}
	s.Faces[top] = half(0, 37)
	s.Faces = append(s.Faces, half(37, 100))
	assert.True(t, newMesh(s).closed)
	d := Draw(one(s), oblique)
	assert.Len(t, d.Edges, 12)
	assert.Equal(t, 9, count(d, true, Crease))
}

// An open skin is seen from both sides.
func TestOpen(t *testing.T) {
	s := box(100, 60, 30)
	s.Faces = slices.DeleteFunc(s.Faces, func(f geom.Face) bool { return f.N.Z > 0 })
	d := Draw(one(s), Iso(0.6, 0.9))
	assert.Len(t, d.Areas, 5)
	assert.Greater(t, count(d, true, Crease), 9)
}

func TestSameEveryTime(t *testing.T) {
	bodies := randomScene(rand.New(rand.NewPCG(9, 9)), 25)
	assert.Equal(t, Draw(bodies, oblique), Draw(bodies, oblique))
	none := Draw(nil, oblique)
	assert.Empty(t, none.Edges)
	assert.True(t, none.Box.Empty())
	with := Draw([]Body{{1, &geom.Solid{}, geom.Home()}, {2, box(100, 60, 30), geom.Home()}}, oblique)
	assert.Equal(t, Draw([]Body{{2, box(100, 60, 30), geom.Home()}}, oblique), with)
}

func BenchmarkView(b *testing.B) {
	bodies := randomScene(rand.New(rand.NewPCG(1, 1)), 60)
	for b.Loop() {
		Draw(bodies, oblique)
	}
}
