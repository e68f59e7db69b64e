package view

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"planset/model/geom"

	"github.com/stretchr/testify/assert"
)

var long = flag.Bool("long", false, "hold 300 scenes against the oracle, at a fine raster")

// A tally counts how often a claim was checked and how often it was wrong.
type tally struct{ checked, wrong int }

func (t *tally) add(ok bool) {
	t.checked++
	if !ok {
		t.wrong++
	}
}

// near is how far, in millimetres, a line may be from where the oracle wants it.
const near = 3 * Touch

// crossed reports whether a visible edge passes between a and b.
func crossed(edges []Edge, a, b geom.Pt) bool {
	return slices.ContainsFunc(edges, func(e Edge) bool {
		if !e.Visible {
			return false
		}
		w := b.Sub(a).Unit()
		v := e.B.Sub(e.A).Unit()
		sa, sb := w.Cross(e.A.Sub(a)), w.Cross(e.B.Sub(a))
		ta, tb := v.Cross(a.Sub(e.A)), v.Cross(b.Sub(e.A))
		return min(sa, sb) <= near && max(sa, sb) >= -near && min(ta, tb) <= near && max(ta, tb) >= -near
	})
}

// partedBetween reports whether there must be a line between a and b, where
// narrow facets may lie between what is seen at either end.
func partedBetween(faces []oracleFace, a, b geom.Pt) bool {
	const steps = 200
	last, doubt := seenAt(faces, a)
	for i := 1; i <= steps; i++ {
		f, tie := seenAt(faces, a.Add(b.Sub(a).Mul(float64(i)/steps)))
		if !doubt && !tie && parted(last, f) {
			return true
		}
		last, doubt = f, tie
	}
	return false
}

// lost counts neighbouring pixels that a line must part, and does not.
func (b *buffer) lost(d *Drawing, faces []oracleFace, t *tally) {
	for y := range b.n - 1 {
		for x := range b.n - 1 {
			k := y*b.n + x
			for _, o := range [2][3]int{{1, x + 1, y}, {b.n, x, y + 1}} {
				j := k + o[0]
				if b.doubtful[k] || b.doubtful[j] || !parted(b.face[k], b.face[j]) {
					continue
				}
				p, q := b.centre(x, y), b.centre(o[1], o[2])
				t.add(crossed(d.Edges, p, q) || !partedBetween(faces, p, q))
			}
		}
	}
}

// invented counts places on visible edges with the same thing on both sides.
func invented(d *Drawing, faces []oracleFace, t *tally) {
	for _, e := range d.Edges {
		way := e.B.Sub(e.A)
		if !e.Visible || way.Len() < 1 {
			continue
		}
		side := way.Unit().Left()
		for _, s := range []float64{0.11, 0.37, 0.52, 0.83} {
			m := e.A.Add(way.Mul(s))
			ok := false
			for _, off := range []float64{near / 20, near / 2, near, 2 * near} {
				f, tieF := seenAt(faces, m.Add(side.Mul(off)))
				g, tieG := seenAt(faces, m.Sub(side.Mul(off)))
				ok = ok || tieF || tieG || different(f, g)
			}
			t.add(ok)
		}
	}
}

// repainted counts pixels where filling the areas in order leaves another face
// on top than the depth buffer, unless that face is seen in a pixel next to it.
func (b *buffer) repainted(d *Drawing, bodies []Body, cam Camera, t *tally) {
	top := make([]int, b.n*b.n)
	for i := range d.Areas {
		box := geom.NoBox()
		shape := oracleFace{}
		for _, l := range d.Areas[i].Loops {
			var ring []geom.V3
			for _, p := range l {
				ring = append(ring, geom.V3{X: p.X, Y: p.Y})
				box = box.With(p)
			}
			shape.loops = append(shape.loops, ring)
		}
		b.fill(box.Min.Y, box.Max.Y, shape.row, func(k int, _ geom.Pt) { top[k] = i + 1 })
	}
	same := func(k, area int) bool {
		if k < 0 || k >= len(b.face) || b.face[k] == nil || area == 0 {
			return k >= 0 && k < len(b.face) && b.face[k] == nil && area == 0
		}
		body := bodies[b.face[k].body]
		n := body.Pose.Dir(body.Solid.Faces[b.face[k].of].N)
		return d.Areas[area-1].Body == body.ID && d.Areas[area-1].N.Sub(n).Len() < 1e-6
	}
	for k, i := range top {
		// A face that is all but edge-on may count as a line.
		if b.doubtful[k] || b.face[k] != nil && b.face[k].n.Z < 0.005 {
			continue
		}
		ok := same(k, i)
		for _, next := range []int{1, -1, b.n, -b.n, b.n + 1, b.n - 1, 1 - b.n, -1 - b.n} {
			ok = ok || same(k+next, i)
		}
		t.add(ok)
	}
}

// An arris is where two faces of a body meet at an angle.
type arris struct {
	a, b  geom.V3
	faces []int
}

func arrises(s *geom.Solid) []arris {
	at := map[[2]geom.V3]int{}
	var out []arris
	for k, f := range s.Faces {
		for _, l := range f.Loops {
			for i, a := range l {
				b := l[(i+1)%len(l)]
				if j, ok := at[[2]geom.V3{b, a}]; ok {
					out[j].faces = append(out[j].faces, k)
					continue
				}
				at[[2]geom.V3{a, b}] = len(out)
				out = append(out, arris{a, b, []int{k}})
			}
		}
	}
	return slices.DeleteFunc(out, func(r arris) bool {
		if len(r.faces) != 2 {
			return true
		}
		f, g := s.Faces[r.faces[0]], s.Faces[r.faces[1]]
		return f.Smooth > 0 && f.Smooth == g.Smooth || f.N.Cross(g.N).Len() < 0.01 ||
			f.Smooth+g.Smooth > 0 && f.N.Dot(g.N) > blend
	})
}

// on returns whether p lies on a visible and on a hidden edge of the drawing.
func on(d *Drawing, p geom.Pt) (visible, hidden bool) {
	for _, e := range d.Edges {
		way := e.B.Sub(e.A)
		u := way.Unit()
		v := p.Sub(e.A)
		if s := u.Dot(v); math.Abs(u.Cross(v)) <= near && s >= -near && s <= way.Len()+near {
			visible, hidden = visible || e.Visible, hidden || !e.Visible
		}
	}
	return visible, hidden
}

// placedRight counts points of arrises that are missing, or drawn hidden and
// seen, or drawn visible though something is in front.
func placedRight(d *Drawing, bodies []Body, cam Camera, faces []oracleFace, t *tally) {
	for k, b := range bodies {
		for _, r := range arrises(b.Solid) {
			p, q := b.Pose.Point(r.a), b.Pose.Point(r.b)
			way := cam.Flat(q).Sub(cam.Flat(p))
			if way.Len() < 2 {
				continue
			}
			side, along := way.Unit().Left().Mul(near), way.Unit().Mul(20*near)
			seen := func(m geom.Pt) bool {
				for _, o := range []geom.Pt{m.Add(side), m.Sub(side)} {
					if f, _ := seenAt(faces, o); f != nil && f.body == k && slices.Contains(r.faces, f.of) {
						return true
					}
				}
				return false
			}
			for _, s := range []float64{0.13, 0.41, 0.77} {
				m := cam.Flat(p).Add(way.Mul(s))
				truth := seen(m)
				if truth != seen(m.Add(along)) || truth != seen(m.Sub(along)) {
					continue // at a border the oracle's own reach blurs
				}
				visible, hidden := on(d, m)
				t.add(truth && visible || !truth && (hidden || visible))
			}
		}
	}
}

// tallies are the four claims: no visible edge is lost, none invented, the areas
// cover each other rightly, and every arris is there and rightly seen or hidden.
type tallies struct{ lost, invented, painted, arrises tally }

func (t *tallies) all() []tally { return []tally{t.lost, t.invented, t.painted, t.arrises} }

func (t *tallies) wrong() int {
	n := 0
	for _, c := range t.all() {
		n += c.wrong
	}
	return n
}

// hold draws the scene of a seed and checks it.
func (t *tallies) hold(seed uint64, pixels int) {
	r := rand.New(rand.NewPCG(seed, 7))
	bodies := randomScene(r, 3+r.IntN(20))
	cam := Iso(r.Float64()*6, r.Float64()*3-1.5)
	switch seed % 10 {
	case 0:
		cam = Front()
	case 5:
		cam = Camera{Right: cam.Right.Neg(), Up: cam.Up, Toward: cam.Toward}
	}
	d := Draw(bodies, cam)
	faces := oracleFaces(bodies, cam)
	b := newBuffer(faces, pixels)
	b.lost(d, faces, &t.lost)
	invented(d, faces, &t.invented)
	b.repainted(d, bodies, cam, &t.painted)
	placedRight(d, bodies, cam, faces, &t.arrises)
}

func TestOracle(t *testing.T) {
	scenes, pixels := 100, 120
	if *long {
		scenes, pixels = 300, 1500
	}
	var sum tallies
	for i := range scenes {
		before := sum.wrong()
		if sum.hold(uint64(i), pixels); sum.wrong() > before {
			t.Logf("scene %d: %d wrong", i, sum.wrong()-before)
		}
	}
	t.Logf("%+v", sum)
	for _, c := range sum.all() {
		assert.Greater(t, c.checked, 500*scenes)
		assert.Zero(t, c.wrong)
	}
}

func FuzzScene(f *testing.F) {
	f.Add(uint64(1000))
	f.Fuzz(func(t *testing.T, seed uint64) {
		var sum tallies
		sum.hold(seed, 60)
		assert.Zero(t, sum.wrong(), "%+v", sum)
	})
}
