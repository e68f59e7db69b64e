package buying

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/cutting"
	"planset/model/geom"
)

// Limits of two pieces that are cut head to tail.
const (
	// steepest is what a taper jig takes, 15 degrees, and shortest what should
	// lie on it, 12 in: common practice.
	steepest = 15 * math.Pi / 180
	shortest = 304.8
	// level is a slant that is none, radians, and hair a length that is none, mm.
	level = 1e-6
	hair  = 0.01
)

// nest works out how two of a part lie head to tail in one blank, from its
// outline: the edge that they share is a straight taper from one end to the
// other, and the saw runs along it. The zero Nest is of a part that cannot.
func nest(p *model.Part, kerf float64) cutting.Nest {
	extra := p.RoughLength - p.Length
	box := p.Board.Outline.Box()
	switch {
	case math.Abs(box.Min.X) > hair, math.Abs(box.Min.Y) > hair, math.Abs(box.H()-p.Width) > hair:
		return cutting.Nest{} // it does not lie in its blank as the layout has it
	case p.Single, p.Match, p.AsBought, p.Edges[0].Bevel != 0, p.Edges[1].Bevel != 0:
		return cutting.Nest{}
	case p.RoughLength < shortest, extra < -hair:
		return cutting.Nest{}
	}
	best := cutting.Nest{}
	for _, edge := range [2]int{1, 0} {
		// Turned half round, the lower edge is the upper one.
		n, ok := headToTail(InBlank(p, edge == 0), blank{p.RoughLength, p.Width, kerf, p.Stock.Cleanup})
		if ok && (best.Key == "" || n.Width < best.Width-hair) {
			best = n
			best.Turned = edge == 0
			best.Key = nestKey(p, n, edge)
		}
	}
	if p.Hand == model.Pair && p.Face != "" {
		// A left one turned over is a right one, but its good face is then below.
		best.Most = p.Quantity / 4 * 2
		if best.Most == 0 {
			best = cutting.Nest{}
		}
	}
	return best
}

// InBlank is the outline of a finished part where it lies in its blank: along
// and across from the blank's lower left corner, turned half round if asked.
func InBlank(p *model.Part, turned bool) geom.Outline {
	o := p.Board.Outline.Move(geom.Pt{X: startOf(p, p.RoughLength-p.Length)})
	if !turned {
		return o
	}
	return o.MirrorX().MirrorY().Move(geom.Pt{X: p.RoughLength, Y: p.Width})
}

// startOf is where the finished part begins in its blank: what is over lies at
// the end that is trimmed later, else at the ends that are shaped.
func startOf(p *model.Part, extra float64) float64 {
	square := [2]bool{p.Ends[0].Shape == "square", p.Ends[1].Shape == "square"}
	switch {
	case p.TrimLater != "" && model.Spoken(p.TrimLater) == p.Names.Ends[0], p.TrimLater == "" && !square[0] && square[1]:
		return extra
	case p.TrimLater == "" && !square[0] && !square[1]:
		return extra / 2
	}
	return 0
}

// A blank is what is known of a rough piece besides its outline, mm.
type blank struct{ length, width, kerf, cleanup float64 }

// headToTail lays a piece and the same piece turned half round in one blank,
// with a straight cut along the upper edge of the first. The outline stands
// where it is in its own blank, lower edge at zero.
//
// The saw runs parallel to the tapered edge, with the clean-up of both pieces
// beside its kerf, all measured square to the cut. The middle of the cut is the
// middle of the blank, so the blank is twice as wide as the cut is high there:
// for an edge that tapers from end to end that is the wide end, the narrow end
// and the cut.
func headToTail(o geom.Outline, b blank) (cutting.Nest, bool) {
	edge, ok := slant(o)
	if !ok {
		return cutting.Nest{}, false
	}
	m := (edge.B.Y - edge.A.Y) / (edge.B.X - edge.A.X)
	at := func(x float64) float64 { return edge.A.Y + m*(x-edge.A.X) }
	for _, s := range o {
		// Nothing stands over the line of the cut, and no straight piece of edge
		// lies below it that would still have to be sawn off.
		if over(s, at) > hair || s.Turn == geom.Straight && math.Abs(s.A.Y-s.B.Y) < hair && s.A.Y > b.width-hair && s.A.Sub(s.B).Len() > 1 {
			return cutting.Nest{}, false
		}
	}
	square := math.Sqrt(1 + m*m)
	n := cutting.Nest{Width: 2*at(b.length/2) + (b.kerf+2*b.cleanup)*square}
	lower := b.cleanup * square // the kerf's lower side over the finished edge
	n.Start, n.Stop = at(0)+lower, at(b.length)+lower
	inside := n.Start > hair && n.Stop > hair && n.Width > b.width+hair
	return n, inside && n.Width < 2*b.width+b.kerf+2*b.cleanup-hair
}

// slant returns the longest straight segment on the upper side of an outline
// that is neither level nor steeper than a jig takes.
func slant(o geom.Outline) (geom.Seg, bool) {
	var best geom.Seg
	found := false
	for _, s := range o {
		d := s.A.Sub(s.B) // an outline runs anticlockwise: its upper side to the left
		if s.Turn != geom.Straight || d.X <= 0 {
			continue
		}
		a := math.Abs(math.Atan2(d.Y, d.X))
		if a > level && a <= steepest+level && (!found || d.Len() > best.A.Sub(best.B).Len()+hair) {
			best, found = s, true
		}
	}
	return best, found
}

// over is how far a segment stands over a line, mm, measured upward.
func over(s geom.Seg, line func(x float64) float64) float64 {
	most := max(s.A.Y-line(s.A.X), s.B.Y-line(s.B.X))
	if s.Turn == geom.Straight {
		return most
	}
	const chord = 0.001
	for _, p := range (geom.Outline{s}).Flatten(chord) {
		most = max(most, p.Y-line(p.X))
	}
	return most
}

// nestKey is the same for pieces that may lie in one blank: of one shape and
// need, and of one part where hands are told apart.
func nestKey(p *model.Part, n cutting.Nest, edge int) string {
	key := []string{p.Stock.Key, p.Need, fmt.Sprint(edge)}
	for _, x := range []float64{p.RoughLength, p.Width, n.Width, n.Start, n.Stop} {
		key = append(key, fmt.Sprintf("%.2f", x))
	}
	if p.Hand == model.Pair {
		key = append(key, p.Code)
	}
	return strings.Join(key, " ")
}
