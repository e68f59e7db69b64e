package assembly

import (
	"math"
	"strings"

	"planset/model/geom"
	"planset/model/reading"
)

// mover finds the three coordinates of a part's origin in its frame.
type mover struct {
	s    *solver
	p    *part
	pl   *reading.Place
	pose geom.Pose
	got  [3]bool
	by   [3]string
	val  [3]float64
	ok   bool
}

var axisNames = [3]string{"right", "rear", "up"}

func unitAxis(i int) geom.V3 { return [3]geom.V3{{X: 1}, {Y: 1}, {Z: 1}}[i] }

func coord(v geom.V3, i int) float64 { return [3]float64{v.X, v.Y, v.Z}[i] }

// run settles the origin from the meets, then what is found.
func (m *mover) run() bool {
	m.ok = true
	m.holes()
	for _, meet := range m.pl.Meets {
		if !meet.Hole.Given() {
			m.meet(meet)
		}
	}
	if !m.ok {
		return false
	}
	m.levels()
	if m.pl.Clear != nil && m.ok {
		m.clear()
	}
	if !m.ok {
		return false
	}
	m.centered()
	return m.free()
}

// meet settles one coordinate from one side or point.
func (m *mover) meet(meet reading.Meet) {
	s := m.s
	words := strings.Split(meet.Feature.Text, ".")
	pt, fixed, ok := s.spot(m.p, words, 0, meet.Feature.At)
	if !ok {
		m.ok = false
		return
	}
	i := m.axisOf(words, fixed, meet.Feature)
	if i < 0 {
		m.ok = false
		return
	}
	where, ok := 0.0, true
	if meet.Floor {
		ok = m.floorSquare(meet)
	} else {
		c := &scope{s: s, part: m.p, axis: &axis{unitAxis(i), m.pl.In.Text, axisNames[i]}}
		where, ok = s.length(s.main(meet.Where), c)
	}
	if !ok {
		m.ok = false
		return
	}
	m.settle(i, where-coord(m.pose.Dir(pt), i), meet.Feature)
}

// floorSquare accepts "floor" only where up is up and the frame's origin is on it.
func (m *mover) floorSquare(meet reading.Meet) bool {
	if m.pl.In.Text == "" || len(m.s.groupOf(m.pl.In.Text).Stands) > 0 {
		return true
	}
	m.s.problems.Errorf(meet.Where.At, "not-square", "the floor is not square to the frame of group %q", m.pl.In.Text).Fix("use level to fix a height above the floor from inside a leaning group")
	return false
}

func (s *solver) groupOf(key string) *reading.Group {
	if g := s.groups[key]; g != nil {
		return g.decl
	}
	return &reading.Group{}
}

// axisOf finds which direction of the frame a side is square to.
func (m *mover) axisOf(words []string, fixed [3]bool, at reading.Word) int {
	dirs := [3]geom.V3{m.pose.Along, m.pose.Across, m.pose.Thick}
	found := -1
	for i := range 3 {
		free := true
		for k := range 3 {
			if !fixed[k] && math.Abs(coord(dirs[k], i)) > 1e-9 {
				free = false
			}
		}
		if free {
			if found >= 0 {
				m.s.problems.Errorf(at.At, "point", "%s of part %q could meet something in more than one direction", at.Text, m.p.decl.Key).Fix("name one side")
				return -1
			}
			found = i
		}
	}
	if found < 0 {
		m.s.problems.Errorf(at.At, "not-square", "%s of part %q is not square to any direction of its frame", at.Text, m.p.decl.Key)
	}
	return found
}

// settle fixes one coordinate, or tells by how much two meets disagree.
func (m *mover) settle(i int, v float64, by reading.Word) {
	if !m.got[i] {
		m.got[i], m.val[i], m.by[i] = true, v, by.Text
		return
	}
	if d := math.Abs(v - m.val[i]); d > 0.01 {
		m.s.problems.Errorf(by.At, "held-twice", "part %q is held twice %s: %s and %s disagree by %s", m.p.decl.Key, slides[i], m.by[i], by.Text, m.s.opt.Unit.Long(d)).
			Fix("take one of the two away, or make them agree")
		m.ok = false
	}
}

var slides = [3]string{"left to right", "front to rear", "up and down"}

// centered puts a part on the center line when no word says left or right.
func (m *mover) centered() {
	if m.got[0] {
		return
	}
	if m.p.decl.Hands.Given() {
		return
	}
	lo, hi, ok := m.extent(0)
	if !ok {
		m.ok = false
		return
	}
	m.got[0], m.val[0] = true, -(lo+hi)/2
}

// extent is how far the blank reaches along a direction of the frame, from the
// part's origin.
func (m *mover) extent(i int) (lo, hi float64, ok bool) {
	dirs := [3]geom.V3{m.pose.Along, m.pose.Across, m.pose.Thick}
	for k, what := range []string{"length", "width", "thick"} {
		c := coord(dirs[k], i)
		if math.Abs(c) < 1e-12 {
			continue
		}
		mm, ok := m.s.own(m.p, what, 0, m.pl.At)
		if !ok {
			return 0, 0, false
		}
		lo, hi = lo+math.Min(0, c*mm), hi+math.Max(0, c*mm)
	}
	return lo, hi, true
}

// free tells what is left free, or moves the part to where it belongs.
func (m *mover) free() bool {
	if !m.ok {
		return false
	}
	var left []string
	for i := range 3 {
		if !m.got[i] {
			left = append(left, slides[i])
		}
	}
	if len(left) > 0 {
		m.s.problems.Errorf(m.pl.At, "can-slide", "part %q can still slide %s", m.p.decl.Key, strings.Join(left, " and ")).
			Fix("let one of its sides meet something in that direction")
		return false
	}
	m.pose.Origin = geom.V3{X: m.val[0], Y: m.val[1], Z: m.val[2]}
	return true
}

// levels settles the coordinate that is open from heights above the floor.
func (m *mover) levels() {
	for _, l := range m.pl.Level {
		pt, fixed, ok := m.s.spot(m.p, strings.Split(l.Feature.Text, "."), 0, l.Feature.At)
		f, ok2 := m.s.frame(m.pl.In.Text, m.pl.In.At)
		if !ok || !ok2 {
			m.ok = false
			return
		}
		where, ok := 0.0, true
		if !l.Floor {
			where, ok = m.s.length(m.s.main(l.Where), &scope{s: m.s, part: m.p, axis: &axis{geom.V3{Z: 1}, "", "up"}})
		}
		if !ok || !m.levelPoint(l, fixed, f) {
			m.ok = false
			return
		}
		m.level(l, pt, f, where)
	}
}

// levelPoint refuses a level of something that has no one height.
func (m *mover) levelPoint(l reading.Meet, fixed [3]bool, f geom.Pose) bool {
	for k, d := range []geom.V3{m.pose.Along, m.pose.Across, m.pose.Thick} {
		if !fixed[k] && math.Abs(f.Dir(d).Z) > 1e-9 {
			m.s.problems.Errorf(l.Feature.At, "not-square", "%s of part %q is not level, so it has no one height", l.Feature.Text, m.p.decl.Key).
				Fix("name an arris or a corner, as %s.%s", m.p.names.Edges[1], m.p.names.Faces[0])
			return false
		}
	}
	return true
}

// level solves the one open coordinate that moves the part up or down.
func (m *mover) level(l reading.Meet, pt geom.V3, f geom.Pose, where float64) {
	open := -1
	z := f.Origin.Z + f.Dir(m.pose.Dir(pt)).Z
	for _, i := range []int{2, 1, 0} {
		lift := f.Dir(unitAxis(i)).Z
		if m.got[i] {
			z += lift * m.val[i]
			continue
		}
		if open < 0 && math.Abs(lift) > 1e-6 {
			open = i
		}
	}
	if open < 0 {
		if d := math.Abs(z - where); d > 0.01 {
			m.s.problems.Errorf(l.Feature.At, "held-twice", "part %q is already held; its %s is %s from the height asked for", m.p.decl.Key, l.Feature.Text, m.s.opt.Unit.Long(d))
			m.ok = false
		}
		return
	}
	m.got[open], m.by[open] = true, l.Feature.Text
	m.val[open] = (where - z) / f.Dir(unitAxis(open)).Z
}
