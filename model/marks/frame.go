package marks

import (
	"planset/model"
	"planset/model/geom"
)

// A twist is a small displacement of a rigid piece: of the point at the world's
// origin, and a turn in radians.
type twist struct{ move, turn geom.V3 }

// at returns how far the point p goes.
func (t twist) at(p geom.V3) geom.V3 { return t.move.Add(t.turn.Cross(p)) }

func (t twist) plus(u twist) twist { return twist{t.move.Add(u.move), t.turn.Add(u.turn)} }

// times returns t for an error k times as large.
func (t twist) times(k float64) twist { return twist{t.move.Mul(k), t.turn.Mul(k)} }

// frame is a plan seen as rigid pieces and ties. Everything in it is filled once.
type frame struct {
	plan    *model.Plan
	placed  []*model.Placed
	contact map[[2]int]geom.Patch // the greatest of two pieces, lower index first
	ties    []tie
	feet    []foot
	slips   []slip
	rows    []Row
	twists  [][]twist // for each piece, for each slip: of one millimetre
	stance  *stance
}

func newFrame(p *model.Plan) *frame {
	f := &frame{plan: p, placed: p.Placed}
	f.patches()
	f.fasteners()
	for i := range f.placed {
		f.feet = append(f.feet, f.feetOf(i)...)
	}
	f.layMarks()
	f.twists = make([][]twist, len(f.placed))
	for i := range f.twists {
		f.twists[i] = make([]twist, len(f.slips))
	}
	f.stance = newStance(f.feet, centerOf(p))
	return f
}

// centerOf returns the centre of mass of all pieces; where no mass is known,
// of their volume.
func centerOf(p *model.Plan) geom.V3 {
	var sum geom.V3
	mass, volume := 0.0, 0.0
	for _, q := range p.Placed {
		mass += q.Part.Mass
		volume += q.Part.Volume
	}
	total := 0.0
	for _, q := range p.Placed {
		m := q.Part.Mass
		if mass == 0 {
			m = q.Part.Volume
		}
		if mass == 0 && volume == 0 {
			m = 1
		}
		sum, total = sum.Add(q.Center.Mul(m)), total+m
	}
	return sum.Mul(1 / total)
}

// A field is what some slips together do: where every piece and every foot goes.
type field struct {
	pieces []twist
	lift   []float64 // of each foot, its own cut included
	shift  func(piece, face int, at geom.V3) float64
}

// field adds up slips, each of mm millimetres.
func (f *frame) field(slips []int, mm float64) field {
	signed := make([]signedSlip, len(slips))
	for i, s := range slips {
		signed[i] = signedSlip{s, mm}
	}
	return f.sum(signed)
}

type signedSlip struct {
	slip int
	mm   float64
}

func (f *frame) sum(slips []signedSlip) field {
	out := field{pieces: make([]twist, len(f.placed)), lift: make([]float64, len(f.feet))}
	for i := range f.placed {
		for _, s := range slips {
			out.pieces[i] = out.pieces[i].plus(f.twists[i][s.slip].times(s.mm))
		}
	}
	out.shift = func(piece, face int, at geom.V3) float64 {
		sum := 0.0
		for _, s := range slips {
			sum += s.mm * f.slips[s.slip].shift(piece, face, at)
		}
		return sum
	}
	for i, g := range f.feet {
		out.lift[i] = out.pieces[g.piece].at(g.at).Z - out.shift(g.piece, g.face, g.at)
	}
	return out
}

// times returns the field of errors k times as large.
func (d field) times(k float64) field {
	out := field{pieces: make([]twist, len(d.pieces)), lift: make([]float64, len(d.lift))}
	for i, t := range d.pieces {
		out.pieces[i] = t.times(k)
	}
	for i, h := range d.lift {
		out.lift[i] = h * k
	}
	out.shift = func(piece, face int, at geom.V3) float64 { return k * d.shift(piece, face, at) }
	return out
}
