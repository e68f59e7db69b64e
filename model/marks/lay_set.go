package marks

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/geom"
)

// seat is one piece set on another by one joint.
type seat struct {
	a, b   int
	normal geom.V3
	middle geom.V3
	n      int
}

// setMarks are the places where one part is set on another: slid two ways and
// turned. Bolted parts are set where one is drilled through the other.
func (f *frame) setMarks() {
	for k, j := range f.plan.Joints {
		groups, order := f.seats(k)
		for _, key := range order {
			clamped := j.Kind == "bolted"
			if clamped && !f.matched(j) {
				continue
			}
			f.setRows(k, groups[key], clamped)
		}
	}
}

// seats gathers the pairs of pieces of a joint by the parts they are.
func (f *frame) seats(joint int) (groups map[string][]seat, order []string) {
	groups = map[string][]seat{}
	at := map[[2]int]*seat{}
	var pairs [][2]int
	for _, t := range f.ties {
		if t.joint != joint {
			continue
		}
		p := [2]int{t.a, t.b}
		if at[p] == nil {
			at[p] = &seat{a: t.a, b: t.b}
			pairs = append(pairs, p)
		}
		s := at[p]
		s.middle, s.n = s.middle.Add(t.at), s.n+1
	}
	for _, p := range pairs {
		s := at[p]
		s.middle = s.middle.Mul(1 / float64(s.n))
		s.normal = f.normalOf(joint, s)
		key := f.placed[s.a].Part.Key + "\x00" + f.placed[s.b].Part.Key
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], *s)
	}
	return groups, order
}

// normalOf is the direction that the two ties of the first fastener of a seat
// are square to.
func (f *frame) normalOf(joint int, s *seat) geom.V3 {
	var dirs []geom.V3
	for _, t := range f.ties {
		if t.joint == joint && t.a == s.a && t.b == s.b {
			dirs = append(dirs, t.dir)
			if len(dirs) == 2 {
				break
			}
		}
	}
	return dirs[0].Cross(dirs[1]).Unit()
}

// matched reports whether the second parts of a joint are drilled through the first.
func (f *frame) matched(j *model.Joint) bool {
	for _, p := range j.Second {
		for _, h := range p.Holes {
			if h.Matched && h.Joint == j {
				return true
			}
		}
	}
	return false
}

// setRows enters the slides and the turn of one part on another.
func (f *frame) setRows(joint int, seats []seat, clamped bool) {
	var on, set []int
	for _, s := range seats {
		on, set = append(on, s.b), append(set, s.a)
	}
	if clamped {
		on, set = set, on // the part that is drilled through the other is the one that is set
	}
	base := Row{Part: f.placed[on[0]].Part, Parts: append(f.codes(on), f.codes(set)...), Clamped: clamped}
	name := strings.ToLower(f.placed[set[0]].Part.Name)
	rows := [3][]off{}
	words := [3]string{}
	for i, s := range seats {
		ref := f.placed[on[i]]
		if ref.Part.Hand == model.NoHand && f.placed[set[i]].Part.Hand != model.NoHand {
			ref = f.placed[set[i]]
		}
		u, v, w := axesIn(ref.Pose, s.normal)
		words = [3]string{w[0], w[1], "out of line"}
		sign := 1.0
		if clamped {
			sign = -1 // the slip moves the first part, the words the second
		}
		o := off{kind: setSlip, piece: s.a, other: s.b, joint: joint}
		o.dir = u.Mul(sign)
		rows[0] = append(rows[0], o)
		o.dir = v.Mul(sign)
		rows[1] = append(rows[1], o)
		o.dir, o.pivot, o.slope = u.Cross(v), s.middle, sign/f.lever(s, clamped)
		rows[2] = append(rows[2], o)
	}
	for k := range rows {
		base.What = "place of the " + name + ", " + words[k]
		f.row(base, rows[k])
	}
}

// axesIn returns the two directions of a board that lie best in a plane, laid
// into it, with words for them.
func axesIn(p geom.Pose, n geom.V3) (u, v geom.V3, words [2]string) {
	type axis struct {
		d    geom.V3
		word string
	}
	list := []axis{{p.Along, "along"}, {p.Across, "across"}, {p.Thick, "sideways"}}
	worst := 0
	for i, a := range list {
		if math.Abs(a.d.Dot(n)) > math.Abs(list[worst].d.Dot(n))+1e-9 {
			worst = i
		}
	}
	list = append(list[:worst], list[worst+1:]...)
	flat := func(d geom.V3) geom.V3 { return d.Sub(n.Mul(d.Dot(n))).Unit() }
	return flat(list[0].d), flat(list[1].d), [2]string{list[0].word, list[1].word}
}

// lever is how far from each other the two marks are that keep a part from
// turning: what the parts touch over, or the whole part where it lies clamped.
func (f *frame) lever(s seat, clamped bool) float64 {
	most := 10.0
	if clamped {
		for _, face := range f.placed[s.b].Solid.Faces {
			for _, v := range face.Loops[0] {
				most = math.Max(most, v.Sub(s.middle).Len())
			}
		}
		return most
	}
	if c, ok := f.patch(s.a, s.b); ok {
		for i, v := range c.Loops[0] {
			run := c.Loops[0][(i+1)%len(c.Loops[0])].Sub(v).Unit()
			for _, w := range c.Loops[0] {
				most = math.Max(most, w.Sub(v).Dot(run))
			}
		}
	}
	return most
}
