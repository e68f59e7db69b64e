package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// Water stands on a floor of more than 1 in² that has no drain, in pockets that
// open upward, and between boards that lie flat on each other over 2 in and
// more; end grain that looks up drinks it (common practice).
const (
	pondMost  = 645.16
	lapMost   = 50.8
	looksUp   = 0.94 // the cosine of 20 degrees
	opensUp   = 0.5
	drainWide = 12.7 // mm: 1/2 in
	endSheds  = 21   // degrees: just beyond looksUp
)

// waterTrap finds places where rain stays.
func waterTrap(s *shop) []Finding {
	var t tally
	for i, p := range s.Placed {
		floor, ends := 0.0, 0.0
		for k, f := range p.Solid.Faces {
			if f.N.Z < looksUp || f.Smooth != 0 {
				continue
			}
			switch f.Kind {
			case geom.Hollow:
				if !drained(p, f) {
					floor = math.Max(floor, f.Area()-s.coveredArea(i, k))
				}
			case geom.End:
				ends = math.Max(ends, f.Area()-s.coveredArea(i, k))
			}
		}
		if floor > pondMost {
			t.add(p.Part.Key+"pond", floor, Finding{Severity: Warning, Value: floor, Limit: pondMost, Unit: "mm2",
				Text: fmt.Sprintf("a hollow with a floor of %s looks up and has no drain", s.area(floor)),
				Fix:  fmt.Sprintf("drill a drain of %s through it, or turn it over", s.drill(12.7))}, p.Part)
		}
		if ends > pondMost && !s.seals(p.Part) {
			t.add(p.Part.Key+"end", ends, Finding{Severity: Warning, Value: ends, Limit: pondMost, Unit: "mm2",
				Text: fmt.Sprintf("end grain of %s looks up to the rain", s.area(ends)),
				Fix:  fmt.Sprintf("say in end_grain of [finish] what it gets, or slope it by %d°", endSheds)}, p.Part)
		}
	}
	s.pocketsUp(&t)
	s.flatLaps(&t)
	return t.named()
}

// coveredArea is how much of a face of a piece others lie on.
func (s *shop) coveredArea(piece, face int) float64 {
	sum := 0.0
	for k := range s.Placed {
		if k == piece {
			continue
		}
		for _, c := range s.contact(piece, k) {
			if c.FaceA == face {
				sum += c.Area
			}
		}
	}
	return sum
}

// drained reports whether water runs off the floor of a hollow: over a side
// where no wall stands, or through a hole of 1/2 in that goes right through.
func drained(p *model.Placed, floor geom.Face) bool {
	for _, hole := range floor.Loops[1:] {
		mid := geom.V3{}
		for _, v := range hole {
			mid = mid.Add(v.Mul(1 / float64(len(hole))))
		}
		far, out := leaves(p.Solid, mid.Sub(floor.N.Mul(inside)), floor.N.Neg())
		_, wide := spread(hole, floor.N)
		if out && wide >= drainWide-slack && !p.Solid.Inside(mid.Sub(floor.N.Mul(far))) {
			return true
		}
	}
	loop := floor.Loops[0]
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		for _, g := range p.Solid.Faces {
			if g.Kind != geom.Hollow && shares(g, a, b) {
				return true
			}
		}
	}
	return false
}

// shares reports whether a face has an edge from b to a: the other side of one
// that runs from a to b.
func shares(f geom.Face, a, b geom.V3) bool {
	for _, loop := range f.Loops {
		for i, v := range loop {
			if v.Sub(b).Len() < slack/100 && loop[(i+1)%len(loop)].Sub(a).Len() < slack/100 {
				return true
			}
		}
	}
	return false
}

// bedded reports whether two parts are glued where they lie on each other, or the
// note of their joint speaks of sealant.
func (s *shop) bedded(a, b *model.Part) bool {
	return slices.ContainsFunc(s.Joints, func(j *model.Joint) bool {
		both := has(j.First, a) && has(j.Second, b) || has(j.First, b) && has(j.Second, a)
		return both && (j.Glue || j.Bond || hasWord(j.Note, "sealant", "bedd"))
	})
}

// pocketsUp looks for pocket mouths in faces that look up.
func (s *shop) pocketsUp(t *tally) {
	for _, j := range s.Joints {
		for _, f := range j.Fasteners {
			p := s.Placed[f.Pieces[0]]
			face := p.Pose.Thick
			if face.Dot(f.Dir) > 0 {
				face = face.Neg()
			}
			if f.Hardware.Kind != model.PocketScrew || j.Plug || face.Z < opensUp {
				continue
			}
			t.add(j.Key+"pocket", face.Z, Finding{Severity: Warning, Value: math.Acos(math.Min(1, face.Z)) * 180 / math.Pi, Limit: 60, Unit: "deg",
				Text: fmt.Sprintf("%s: the pockets open upward and fill with rain", jointName(j)),
				Fix:  "turn the mouths down with mouth, or plug them"}, p.Part)
		}
	}
}

// flatLaps looks for wide faces that lie on each other level, where water that
// creeps in does not run out.
func (s *shop) flatLaps(t *tally) {
	for i, a := range s.Placed {
		for k := i + 1; k < len(s.Placed); k++ {
			for _, c := range s.contact(i, k) {
				long, short := spread(c.Loops[0], c.N)
				if math.Abs(c.N.Z) < looksUp || short < lapMost-slack || s.bedded(a.Part, s.Placed[k].Part) {
					continue
				}
				b := s.Placed[k]
				t.add("lap"+a.Part.Key+b.Part.Key, short, Finding{Severity: Warning, Value: short, Limit: lapMost, Unit: "mm",
					Text: fmt.Sprintf("they lie flat on each other over %s by %s, where water stays", s.long(long), s.long(short)),
					Fix:  fmt.Sprintf("say in the note of their joint that they are bedded in sealant, or set them %s apart on washers", s.long(3.175))}, a.Part, b.Part)
			}
		}
	}
}

// spread is how long and how wide a flat loop is: the least width over its sides
// and the length square to that.
func spread(loop []geom.V3, n geom.V3) (long, short float64) {
	short = math.Inf(1)
	for i, p := range loop {
		u := loop[(i+1)%len(loop)].Sub(p).Unit()
		if u.Len() == 0 {
			continue
		}
		l, w := extent(loop, u), extent(loop, n.Cross(u))
		if w < short {
			long, short = l, w
		}
	}
	return long, short
}

func extent(loop []geom.V3, dir geom.V3) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range loop {
		lo, hi = math.Min(lo, p.Dot(dir)), math.Max(hi, p.Dot(dir))
	}
	return hi - lo
}
