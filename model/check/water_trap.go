package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// Water stands on a floor of more than 1 in² that has no drain, in pockets that
// open upward, and between boards that lie flat on each other over 2 in and
// more; end grain that looks up drinks it (common practice).
const (
	pondMost = 645.16
	lapMost  = 50.8
	looksUp  = 0.94 // the cosine of 20 degrees
	opensUp  = 0.5
)

// sealed are the words for end grain that is not left bare.
var sealed = []string{"end grain", "seal"}

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
				floor = math.Max(floor, f.Area()-s.coveredArea(i, k))
			case geom.End:
				ends = math.Max(ends, f.Area()-s.coveredArea(i, k))
			}
		}
		if floor > pondMost {
			t.add(p.Part.Key+"pond", floor, Finding{Severity: Warning, Value: floor, Limit: pondMost, Unit: "mm2",
				Text: fmt.Sprintf("a hollow with a floor of %s looks up and has no drain", s.area(floor)),
				Fix:  fmt.Sprintf("drill a drain of %s through it, or turn it over", s.drill(12.7))}, p.Part)
		}
		if ends > pondMost && !s.told(sealed...) && !hasWord(p.Part.Note, sealed...) {
			t.add(p.Part.Key+"end", ends, Finding{Severity: Warning, Value: ends, Limit: pondMost, Unit: "mm2",
				Text: fmt.Sprintf("end grain of %s looks up to the rain", s.area(ends)),
				Fix:  "name the end grain in the finish, or slope it by 15°"}, p.Part)
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
				if math.Abs(c.N.Z) < looksUp || short < lapMost-slack {
					continue
				}
				b := s.Placed[k]
				t.add("lap"+a.Part.Key+b.Part.Key, short, Finding{Severity: Warning, Value: short, Limit: lapMost, Unit: "mm",
					Text: fmt.Sprintf("they lie flat on each other over %s by %s, where water stays", s.long(long), s.long(short)),
					Fix:  fmt.Sprintf("bed them in sealant, or set them %s apart on washers", s.long(3.175))}, a.Part, b.Part)
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
