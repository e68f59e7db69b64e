package assembly

import (
	"math"

	"planset/model/geom"
)

// clear keeps a side away from every piece of another part, as far as that part
// passes through the space this one fills.
func (m *mover) clear() {
	s, cl := m.s, m.pl.Clear
	f, ok := s.featureAt(m.p, cl.Feature.Text, cl.Feature.At)
	by, ok2 := s.length(s.main(cl.By), &scope{s: s, part: m.p})
	other := s.parts[cl.Of.Text]
	if other == nil {
		s.problems.Errorf(cl.Of.At, "unknown-part", "there is no part %q to keep clear of", cl.Of.Text).Suggest(cl.Of.Text, s.partNames())
	}
	if !ok || !ok2 || other == nil {
		m.ok = false
		return
	}
	normal := [3]geom.V3{m.pose.Along, m.pose.Across, m.pose.Thick}[f.axis]
	if f.side == 0 {
		normal = normal.Neg()
	}
	i := m.mainAxis(normal)
	if i < 0 || m.got[i] {
		s.problems.Errorf(cl.Feature.At, "clear", "%s of part %q is already held, or not square to its frame, so it cannot move clear", cl.Feature.Text, m.p.decl.Key)
		m.ok = false
		return
	}
	if i != 0 {
		m.centered() // what it must clear depends on where it is from side to side
	}
	m.moveClear(f, i, normal, other, by)
}

func (m *mover) mainAxis(n geom.V3) int {
	for i := range 3 {
		if math.Abs(math.Abs(coord(n, i))-1) < 1e-9 {
			return i
		}
	}
	return -1
}

// moveClear finds how far the other part reaches toward the side within the
// slab this part will fill, and puts the side that much and a gap beyond it.
func (m *mover) moveClear(f feature, i int, normal geom.V3, other *part, by float64) {
	s := m.s
	frame, ok := s.frame(m.pl.In.Text, m.pl.In.At)
	slab, ok2 := m.slab(i, frame)
	list, ok3 := s.instancesIn(other, "", m.pl.Clear.Of.At)
	if !ok || !ok2 || !ok3 {
		m.ok = false
		return
	}
	toward := frame.Dir(normal.Neg())
	most, met := math.Inf(-1), false
	for _, pc := range list {
		solid, ok := s.solidOf(other, pc.rank)
		if !ok {
			m.ok = false
			return
		}
		for _, pose := range m.hands(other, pc.pose) {
			if far, hit := solid.Transform(pose).MaxAlong(toward, slab); hit {
				most, met = math.Max(most, far), true
			}
		}
	}
	if !met {
		s.problems.Errorf(m.pl.Clear.Of.At, "clear", "part %q never passes part %q, so there is nothing to keep clear of", m.pl.Clear.Of.Text, m.p.decl.Key).Fix("let a side meet something instead")
		m.ok = false
		return
	}
	// toward·x = most+by in the world; taken back into the frame's coordinate.
	at := -(most + by - toward.Dot(frame.Origin)) * coord(normal, i)
	own := 0.0
	if f.side == 1 {
		own, ok = s.own(m.p, [...]string{"length", "width", "thick"}[f.axis], 0, m.pl.At)
		if !ok {
			m.ok = false
			return
		}
	}
	dir := [3]geom.V3{m.pose.Along, m.pose.Across, m.pose.Thick}[f.axis]
	m.got[i], m.by[i] = true, m.pl.Clear.Feature.Text
	m.val[i] = at - own*coord(dir, i)
}

// hands are the poses of both pieces of a handed part, else the one.
func (m *mover) hands(p *part, pose geom.Pose) []geom.Pose {
	if p.decl.Hands.Given() {
		return []geom.Pose{pose, pose.Mirror()}
	}
	return []geom.Pose{pose}
}

// slab is the space the part will fill in the two directions that are settled.
func (m *mover) slab(open int, frame geom.Pose) ([]geom.Plane, bool) {
	var out []geom.Plane
	for i := range 3 {
		if i == open {
			continue
		}
		if !m.got[i] {
			m.s.problems.Errorf(m.pl.At, "can-slide", "part %q can still slide %s, so what it must clear is not known", m.p.decl.Key, slides[i])
			return nil, false
		}
		lo, hi, ok := m.extent(i)
		if !ok {
			return nil, false
		}
		d := frame.Dir(unitAxis(i))
		out = append(out,
			geom.Plane{P: frame.Origin.Add(d.Mul(m.val[i] + hi)), N: d},
			geom.Plane{P: frame.Origin.Add(d.Mul(m.val[i] + lo)), N: d.Neg()})
	}
	return out, true
}

// solidOf is the solid of a part before others cut it, in its own frame.
func (s *solver) solidOf(p *part, rank int) (*geom.Solid, bool) {
	sh, ok := s.blank(p, rank)
	if !ok {
		return nil, false
	}
	if sh.solid == nil {
		solid, err := sh.board.Solid(chord)
		if err != nil {
			s.problems.Errorf(p.decl.At, "shape", "part %q cannot be cut so: %s", p.decl.Key, s.inUnit(err))
			return nil, false
		}
		sh.solid = solid
	}
	return sh.solid, true
}
