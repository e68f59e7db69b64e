package assembly

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// piece is one standing piece: in its group's frame until layOut takes it into
// the world.
type piece struct {
	pose geom.Pose
	rank int
	hand model.Hand
	copy int // of around
}

// instancesIn returns the pieces of a part as seen from a frame: those of its
// first place, the right ones of a pair.
func (s *solver) instancesIn(p *part, frame string, at source.Span) ([]piece, bool) {
	if p.place == nil {
		s.problems.Errorf(at, "not-placed", "part %q is not placed, so it is nowhere", p.decl.Key).Fix("give it a [[place]]")
		return nil, false
	}
	list, ok := s.inGroup(p, p.place, at)
	if !ok || p.place.In.Text == frame {
		return list, ok
	}
	own, ok1 := s.frame(p.place.In.Text, p.place.In.At)
	asked, ok2 := s.frame(frame, at)
	if !ok1 || !ok2 {
		return nil, false
	}
	out := make([]piece, len(list))
	for i, pc := range list {
		world := pc.pose.Then(own)
		pc.pose = geom.Pose{Origin: asked.Local(world.Origin), Along: asked.LocalDir(world.Along), Across: asked.LocalDir(world.Across), Thick: asked.LocalDir(world.Thick)}
		out[i] = pc
	}
	return out, true
}

// inGroup works out the pieces of one place in its own group's frame.
func (s *solver) inGroup(p *part, pl *reading.Place, at source.Span) ([]piece, bool) {
	key := "place of " + p.decl.Key
	for i, other := range p.places {
		if other == pl && i > 0 {
			key = fmt.Sprintf("%s no. %d", key, i+1)
		}
	}
	ok := s.once(key, at, func() bool {
		list, ok := s.put(p, pl)
		s.pieces[key] = list
		return ok
	})
	return s.pieces[key], ok
}

// put turns and moves a part to where its place wants it, and repeats it.
func (s *solver) put(p *part, pl *reading.Place) ([]piece, bool) {
	pose, ok := s.lies(p, pl)
	if !ok {
		return nil, false
	}
	if pl.Fan != nil {
		return s.fan(p, pl, pose)
	}
	m := &mover{s: s, p: p, pl: pl, pose: pose}
	if !m.run() {
		return nil, false
	}
	list := []piece{{pose: m.pose}}
	if pl.Row != nil {
		return s.row(p, pl, list[0])
	}
	return list, true
}

// lies turns the part: two of its sides look somewhere, the third follows.
// Should the author's face names make the frame left-handed, the names of the
// faces change places: a board has no hand until something is cut in it.
func (s *solver) lies(p *part, pl *reading.Place) (geom.Pose, bool) {
	var dir [3]geom.V3
	var set [3]bool
	for _, l := range pl.Lies {
		f, ok := s.featureAt(p, l.Feature.Text, l.Feature.At)
		if !ok {
			return geom.Pose{}, false
		}
		d := way(l.Way.Text)
		if f.side == 0 {
			d = d.Neg()
		}
		if set[f.axis] && d.Sub(dir[f.axis]).Len() > 1e-9 {
			s.problems.Errorf(l.Feature.At, "lies", "%q cannot look %s: its opposite side already looks the same way", l.Feature.Text, l.Way.Text)
			return geom.Pose{}, false
		}
		dir[f.axis], set[f.axis] = d, true
	}
	return s.square(p, pl, dir, set)
}

// square completes the three directions of a part.
func (s *solver) square(p *part, pl *reading.Place, dir [3]geom.V3, set [3]bool) (geom.Pose, bool) {
	n := 0
	for i := range set {
		if set[i] {
			n++
		}
	}
	if n < 2 {
		s.problems.Errorf(pl.At, "can-turn", "part %q can still turn: only %d of its sides is told where to look", p.decl.Key, n).
			Fix(`say it of two sides, as lies = { %s = "left", %s = "front" }`, p.names.Ends[0], p.names.Edges[0])
		return geom.Pose{}, false
	}
	for i := range 3 {
		if set[i] {
			continue
		}
		dir[i] = dir[(i+1)%3].Cross(dir[(i+2)%3])
		if i < 2 && p.looksAway(pl, i, dir[i]) {
			dir[i] = dir[i].Neg() // the faces change names below, so that no board is a mirror image
		}
	}
	for i := range 3 {
		if math.Abs(dir[i].Dot(dir[(i+1)%3])) > 1e-9 || dir[i].Len() < 0.5 {
			s.problems.Errorf(pl.At, "lies", "two neighboring sides of part %q are told to look along the same line", p.decl.Key).Fix("let them look in directions square to each other")
			return geom.Pose{}, false
		}
	}
	if dir[0].Cross(dir[1]).Dot(dir[2]) < 0 {
		if p.place == pl && !p.flipped {
			p.names.Faces[0], p.names.Faces[1] = p.names.Faces[1], p.names.Faces[0]
			p.flipped = true
			dir[2] = dir[2].Neg()
		} else {
			s.problems.Errorf(pl.At, "lies", "part %q would have to be its own mirror image to lie so", p.decl.Key).Fix("turn one of the three sides round, or name only two")
			return geom.Pose{}, false
		}
	}
	if !set[2] && p.looksAway(pl, 2, dir[2]) {
		p.names.Faces[0], p.names.Faces[1] = p.names.Faces[1], p.names.Faces[0]
		p.flipped = true
	}
	return geom.Pose{Along: dir[0], Across: dir[1], Thick: dir[2]}, true
}

// looksAway reports whether the two sides along an axis that nobody turned are
// named for directions and look the other way, in the place that settles the
// names: an edge called front looks front.
func (p *part) looksAway(pl *reading.Place, axis int, dir geom.V3) bool {
	if p.place != pl || p.flipped {
		return false
	}
	word := [][2]string{p.names.Ends, p.names.Edges, p.names.Faces}[axis][1]
	switch word {
	case "up", "down", "front", "rear", "left", "right":
	case "top":
		word = "up"
	case "bottom":
		word = "down"
	case "inside", "outside":
		if !p.decl.Hands.Given() {
			return false
		}
		word = strings.TrimSuffix(word, "side")
	default:
		return false
	}
	return way(word).Dot(dir) < -0.5
}

// ridingFrame is the frame of a group that rides on a part: at a point of it,
// with right, rear and up as that part's sides look by its own place.
func (s *solver) ridingFrame(on reading.Word) (geom.Pose, bool) {
	head, rest, _ := strings.Cut(on.Text, ".")
	p := s.parts[head]
	if p == nil || p.place == nil || rest == "" {
		bad := s.problems.Errorf(on.At, "unknown-part", "%q is not a point of a placed part", on.Text).Fix(`write it as "part.end.edge"`)
		if p == nil {
			bad.Suggest(head, s.partNames())
		}
		return geom.Pose{}, false
	}
	list, ok := s.instancesIn(p, "", on.At)
	if !ok || len(list) == 0 {
		return geom.Pose{}, false
	}
	lie, ok := s.lies(p, p.place)
	pt, _, ok2 := s.spot(p, strings.Split(rest, "."), 0, on.At)
	if !ok || !ok2 {
		return geom.Pose{}, false
	}
	w := list[0].pose
	turn := func(v geom.V3) geom.V3 { return w.Dir(lie.LocalDir(v)) }
	f := geom.Pose{Along: turn(geom.V3{X: 1}), Across: turn(geom.V3{Y: 1}), Thick: turn(geom.V3{Z: 1})}
	at := w.Point(pt)
	at.X = 0
	f.Origin = at
	return f, true
}
