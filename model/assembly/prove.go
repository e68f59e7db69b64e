package assembly

import (
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// prove solves the bolted frame again from the numbers that are printed, rounded
// as they are printed: hole positions of both parts and the corners of the heel.
// A buyer who works to the paper gets this frame; how far it turns tells what
// rounding costs.
func (s *solver) prove() {
	if s.problems.Failed() {
		return
	}
	a, b := s.boltedPair()
	if a == nil {
		return
	}
	turn, tilt, ok := s.rounded(a, b)
	if !ok {
		return
	}
	proof := &model.Proof{Tilt: tilt}
	if v, ok := s.measured["recline"]; ok {
		proof.Recline = v.V + turn - tilt
		s.solved("recline_as_printed", expr.Radians(proof.Recline, expr.Plumb), "the back's lean when built to the printed numbers")
	}
	if v, ok := s.measured["seat_slope"]; ok {
		proof.SeatSlope = v.V + turn - tilt
		s.solved("seat_slope_as_printed", expr.Radians(proof.SeatSlope, expr.Level), "the seat's fall when built to the printed numbers")
	}
	s.plan.Proof = proof
}

// boltedPair is the first two pieces on one side that stand on the floor and
// share two match-drilled bolts.
func (s *solver) boltedPair() (a, b *model.Placed) {
	for _, j := range s.plan.Joints {
		if j.Kind != "bolted" || j.Each != 2 || len(j.Fasteners) < 2 {
			continue
		}
		f := j.Fasteners[0]
		a, b = s.plan.Placed[f.Pieces[0]], s.plan.Placed[f.Pieces[1]]
		if onFloor(a) && onFloor(b) {
			return a, b
		}
	}
	return nil, nil
}

// onFloor reports whether a piece stands on the floor; where only one of two
// does, the pair does not settle its own tilt and there is nothing to prove.
func onFloor(p *model.Placed) bool {
	down, _ := p.Solid.MaxAlong(geom.V3{Z: -1}, nil)
	return down > -touching
}

// rounded returns how far the second part turns against the first (rear down
// is positive) and how far both tip rearward on the floor.
func (s *solver) rounded(a, b *model.Placed) (turn, tilt float64, ok bool) {
	side := func(v geom.V3) geom.Pt { return geom.Pt{X: v.Y, Y: v.Z} }
	var ha, hb []geom.Pt
	for _, h := range b.Part.Holes {
		if !h.Matched || h.Kind != model.BoltHole {
			continue
		}
		for _, g := range a.Part.Holes {
			if g.Kind == model.BoltHole && a.Pose.Point(g.InPart).Sub(b.Pose.Point(h.InPart)).Cross(a.Pose.Thick).Len() < 0.5 {
				ha = append(ha, side(a.Pose.Point(s.printed(g))))
				hb = append(hb, side(b.Pose.Point(s.printed(h))))
			}
		}
	}
	if len(ha) < 2 {
		return 0, 0, false
	}
	da, db := ha[1].Sub(ha[0]), hb[1].Sub(hb[0])
	turn = math.Atan2(db.Cross(da), db.Dot(da))
	var pts []geom.Pt
	for _, p := range s.corners(a.Part) {
		pts = append(pts, side(a.Pose.Point(p)))
	}
	for _, p := range s.corners(b.Part) {
		pts = append(pts, side(b.Pose.Point(p)).Sub(hb[0]).Turn(turn).Add(ha[0]))
	}
	p, q, ok := restingEdge(pts, side(a.Center.Add(b.Center).Mul(0.5)).X)
	if !ok {
		return 0, 0, false
	}
	return -turn, math.Atan2(q.Y-p.Y, q.X-p.X) * -1, true
}

// printed is a hole where the drawing puts it.
func (s *solver) printed(h model.Hole) geom.V3 {
	f := expr.Coarse
	if h.Fine || h.Matched {
		f = expr.Fine
	}
	return geom.V3{X: s.opt.Unit.Round(h.Along, f), Y: s.opt.Unit.Round(h.Across, f), Z: h.InPart.Z}
}

// corners are the corners of a part where the drawing puts them.
func (s *solver) corners(p *model.Part) []geom.V3 {
	var out []geom.V3
	for _, seg := range p.Board.Outline {
		out = append(out, geom.V3{X: s.opt.Unit.Round(seg.A.X, expr.Coarse), Y: s.opt.Unit.Round(seg.A.Y, expr.Coarse)})
	}
	return out
}
