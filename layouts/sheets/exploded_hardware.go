package sheets

import (
	"cmp"
	"math"

	"planset/layouts/sight"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// driveGap is how far a bolt or screw is drawn off the wood.
func driveGap(f model.Fastener) float64 { return 0.35*f.Length + 8 }

// shown sorts the fasteners between the pieces into those drawn off their holes
// with a trail, which are the outermost two of each row, and the others, of which
// only the heads are drawn. What is glued only has neither.
func (u *undoing) shown() (off, heads []model.Fastener) {
	for _, row := range u.rows() {
		a, b := outermost(row)
		for i, f := range row {
			if i == a || i == b {
				off = append(off, f)
			} else {
				heads = append(heads, f)
			}
		}
	}
	return off, heads
}

// rows sorts the fasteners between the pieces into rows of like ones.
func (u *undoing) rows() [][]model.Fastener {
	at := map[rowKey]int{}
	var rows [][]model.Fastener
	for _, j := range u.d.plan.Joints {
		for _, f := range j.Fasteners {
			if f.Hardware == nil || u.moves[f.Pieces[0]] == nil || u.moves[f.Pieces[1]] == nil {
				continue
			}
			k, had := at[u.rowOf(f)]
			if !had {
				k = len(rows)
				at[u.rowOf(f)] = k
				rows = append(rows, nil)
			}
			rows[k] = append(rows[k], f)
		}
	}
	return rows
}

// A rowKey tells rows of like fasteners apart: screws of joints that open together
// by what they hold on to, bolts by both pieces.
type rowKey struct {
	joint      *model.Joint
	hardware   *model.Hardware
	into, from int
}

func (u *undoing) rowOf(f model.Fastener) rowKey {
	k := rowKey{cmp.Or(u.leads[f.Joint], f.Joint), f.Hardware, f.Pieces[1], -1}
	if isBolt(f.Hardware) {
		k.from = f.Pieces[0]
	}
	return k
}

// outermost returns the two fasteners that stand farthest from each other.
func outermost(row []model.Fastener) (a, b int) {
	far := -1.0
	for i := range row {
		for k := range i + 1 {
			if l := row[i].Head.Sub(row[k].Head).Len(); l > far+1e-6 {
				a, b, far = k, i, l
			}
		}
	}
	return a, b
}

// driveOff adds a bolt or screw off its hole, with trails along its axis: from
// it to its hole, and from the hole in the first piece to that in the second. When
// the second stands to the side, the trail goes half the way, over, and on.
func (s *scene) driveOff(f model.Fastener) {
	n := len(s.trails)
	s.drive(f)
	first, second := s.shifted[f.Pieces[0]], s.shifted[f.Pieces[1]]
	way := second.Sub(first)
	along := way.Dot(f.Dir)
	aside := way.Sub(f.Dir.Mul(along))
	if aside.Len() < 0.3*along || along < 3 || len(s.trails) == n {
		return
	}
	last := s.trails[len(s.trails)-1]
	if last[1].Sub(last[0]).Sub(way).Len() > 1e-6 {
		return
	}
	half := f.Dir.Mul(along / 2)
	s.trails[len(s.trails)-1] = [2]geom.V3{last[0], last[0].Add(half)}
	s.trails = append(s.trails, [2]geom.V3{last[0].Add(half), last[1].Sub(half)}, [2]geom.V3{last[1].Sub(half), last[1]})
}

// A gaze tells what lies before a point.
type gaze struct {
	cam   view.Camera
	faces []gazed
}

type gazed struct {
	loops [][]geom.Pt
	box   geom.Box
	n     geom.V3 // in the camera's frame
	d     float64
}

// newGaze looks at the wood of a scene.
func newGaze(s *scene, cam view.Camera) *gaze {
	g := &gaze{cam: cam}
	for _, p := range s.pieces {
		if p.ID >= hardwareID {
			continue
		}
		for _, f := range p.Solid.Faces {
			n := eyed(cam, f.N)
			if n.Z < 1e-3 {
				continue
			}
			a := gazed{n: n, d: n.Dot(eyed(cam, f.Loops[0][0])), box: geom.NoBox()}
			for _, l := range f.Loops {
				var flat []geom.Pt
				for _, v := range l {
					q := cam.Flat(v)
					flat = append(flat, q)
					a.box = a.box.With(q)
				}
				a.loops = append(a.loops, flat)
			}
			g.faces = append(g.faces, a)
		}
	}
	return g
}

// hidden reports whether wood lies before p, by more than a touch.
func (g *gaze) hidden(p geom.V3) bool {
	const touch = 0.6
	e := eyed(g.cam, p)
	q := geom.Pt{X: e.X, Y: e.Y}
	for i := range g.faces {
		f := &g.faces[i]
		if f.box.Has(q) && (f.d-f.n.X*q.X-f.n.Y*q.Y)/f.n.Z > e.Z+touch && sight.Has(f.loops, q) {
			return true
		}
	}
	return false
}

// Trails are looked at every trailStep mm of paper; stretches shorter than
// trailLeast are no use, nor is a trail of which less than trailShare is seen.
const (
	trailStep  = 0.6
	trailLeast = 1.6
	trailShare = 0.4
)

// trails draws what is seen of the trails.
func (g *gaze) trails(s *scene, pic *woodwork.Picture) []render.Path {
	var out []render.Path
	for _, t := range s.trails {
		a, b := pic.Point(t[0]), pic.Point(t[1])
		long := b.Sub(a).Len()
		n := int(math.Ceil(long / trailStep))
		var runs []render.Path
		seen, from := 0.0, -1
		for i := 0; i <= n; i++ {
			free := i < n && !g.hidden(t[0].Add(t[1].Sub(t[0]).Mul((float64(i)+0.5)/float64(n))))
			switch {
			case free && from < 0:
				from = i
			case !free && from >= 0:
				p, q := float64(from)/float64(n), float64(i)/float64(n)
				if (q-p)*long >= min(trailLeast, 0.9*long) {
					runs = append(runs, render.Lines(a.Add(b.Sub(a).Mul(p)), a.Add(b.Sub(a).Mul(q))))
					seen += q - p
				}
				from = -1
			}
		}
		if seen >= trailShare {
			out = append(out, runs...)
		}
	}
	return out
}

// heads draws the heads of fasteners in their places: small dark rounds as their
// plane is seen.
func (g *gaze) heads(s *scene, all []model.Fastener, pic *woodwork.Picture) []render.Path {
	const sides = 10
	var out []render.Path
	for _, f := range all {
		at := f.Head.Add(s.shifted[f.Pieces[0]])
		if g.cam.Depth(f.Dir) > -0.1 || g.hidden(at) {
			continue
		}
		u := geom.V3{X: 1}
		if math.Abs(f.Dir.X) > 0.8 {
			u = geom.V3{Z: 1}
		}
		u = u.Sub(f.Dir.Mul(u.Dot(f.Dir))).Unit()
		v := f.Dir.Cross(u)
		r := max(woodwork.SizesOf(f.Hardware).Head/2, 0.35/pic.Scale)
		var ring []geom.Pt
		for k := range sides {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / sides)
			ring = append(ring, pic.Point(at.Add(u.Mul(r*cos)).Add(v.Mul(r*sin))))
		}
		out = append(out, render.Loop(ring...))
	}
	return out
}
