package marks

import "planset/model/geom"

// slipKind is what is off by a little.
type slipKind int8

const (
	holeSlip slipKind = iota // a bolt hole, across or along its face
	faceSlip                 // a sawn face, moved out of the wood or turned
	setSlip                  // one piece on another, slid or turned
)

// A slip is an error of one millimetre, at one piece or at several alike.
type slip []off

// off is what is off at one piece.
type off struct {
	kind  slipKind
	piece int
	other int         // the piece it is set on
	dir   geom.V3     // which way, in the world; of a turn, its axis
	pivot geom.V3     // a turned face or piece stays here
	slope float64     // of a turn: millimetres of error a millimetre from the pivot; 0 for a slide
	faces map[int]int // numbers of the faces that move
	joint int
	fast  map[int]int // the fasteners through the hole
}

// gap returns how much farther b stands from a along the tie.
func (s slip) gap(t *tie) float64 {
	sum := 0.0
	for i := range s {
		sum += s[i].gap(t)
	}
	return sum
}

// shift returns how far a face stands farther out of its wood at a point.
func (s slip) shift(piece, face int, at geom.V3) float64 {
	sum := 0.0
	for i := range s {
		sum += s[i].shift(piece, face, at)
	}
	return sum
}

func (s *off) gap(t *tie) float64 {
	switch s.kind {
	case holeSlip:
		if _, ok := s.fast[t.fast]; !ok || t.joint != s.joint {
			return 0
		}
		if t.a == s.piece {
			return t.dir.Dot(s.dir)
		}
		if t.b == s.piece {
			return -t.dir.Dot(s.dir)
		}
	case faceSlip:
		if t.joint >= 0 {
			return 0
		}
		if t.a == s.piece {
			return s.shift(t.a, t.faceA, t.at)
		}
		return s.shift(t.b, t.faceB, t.at)
	case setSlip:
		if t.joint == s.joint && t.a == s.piece && t.b == s.other {
			return -t.dir.Dot(s.moved(t.at))
		}
	}
	return 0
}

// moved is how far a point of the piece that is set goes.
func (s *off) moved(at geom.V3) geom.V3 {
	if s.slope == 0 {
		return s.dir
	}
	return s.dir.Cross(at.Sub(s.pivot)).Mul(s.slope)
}

func (s *off) shift(piece, face int, at geom.V3) float64 {
	if s.kind != faceSlip || piece != s.piece {
		return 0
	}
	if _, ok := s.faces[face]; !ok {
		return 0
	}
	if s.slope == 0 {
		return 1
	}
	return s.dir.Dot(at.Sub(s.pivot)) * s.slope
}
