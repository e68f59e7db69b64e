package check

import (
	"fmt"

	"planset/model"
)

// intoHoles finds fasteners that run into a hole of one of their pieces that is
// there for something else, a cord or a pole: they find no wood there.
func (s *shop) intoHoles(t *tally) {
	for _, f := range s.fasteners() {
		for _, i := range f.Pieces {
			for _, h := range s.Placed[i].Part.Holes {
				if h.Kind != model.PlainHole || h.Joint != nil {
					continue
				}
				gap := shaft(f).to(s.boreOf(i, h)).Len() - f.Hardware.Diam/2 - h.Diam/2
				if gap < clashRoom-0.1 {
					s.holeClash(t, f, i, gap)
				}
			}
		}
	}
}

// boreOf is the middle line of a hole of a piece, in the world.
func (s *shop) boreOf(piece int, h model.Hole) segment {
	p := s.Placed[piece]
	deep := h.Depth
	if deep == 0 {
		deep = p.Part.Thick
	}
	return segment{p.Pose.Point(h.InPart), p.Pose.Dir(h.Dir).Mul(deep)}
}

func (s *shop) holeClash(t *tally, f model.Fastener, piece int, gap float64) {
	p := s.Placed[piece].Part
	has, wants := s.against(gap, clashRoom)
	text := fmt.Sprintf("a fastener of %q passes %s from a hole in %s; %s of wood is needed between them", jointName(f.Joint), has, called(p), wants)
	if gap < slack {
		text = fmt.Sprintf("a fastener of %q runs into a hole in %s", jointName(f.Joint), called(p))
	}
	t.add(f.Joint.Key+"\x00hole\x00"+p.Key, -gap, Finding{Severity: Error, Value: gap, Limit: clashRoom, Unit: "mm", Text: text,
		Fix: fmt.Sprintf("move one %s straight away from the other", s.more(clashRoom-gap))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part)
}
