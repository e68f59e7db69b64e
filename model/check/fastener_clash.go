package check

import (
	"fmt"

	"planset/model"
)

// clashRoom is the wood there must be between two fasteners, mm: 1/8 in.
const clashRoom = 3.175

// fastenerClash finds fasteners that would be drilled into each other or into a
// hole that is there for something else.
func fastenerClash(s *shop) []Finding {
	all := s.fasteners()
	var t tally
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.Head.Sub(b.Head).Len() > a.Length+b.Length+20 {
				continue
			}
			gap := shaft(a).to(shaft(b)).Len() - a.Hardware.Diam/2 - b.Hardware.Diam/2
			if gap >= clashRoom-0.1 {
				continue
			}
			t.add(a.Joint.Key+"\x00"+b.Joint.Key, -gap, s.clash(a, b, gap),
				s.Placed[a.Pieces[0]].Part, s.Placed[a.Pieces[1]].Part, s.Placed[b.Pieces[0]].Part, s.Placed[b.Pieces[1]].Part)
		}
	}
	s.intoHoles(&t)
	return t.list()
}

func shaft(f model.Fastener) segment { return segment{f.Head, f.Dir.Mul(f.Length)} }

func (s *shop) clash(a, b model.Fastener, gap float64) Finding {
	who := "two fasteners" + ofJoints(a.Joint, b.Joint)
	has, wants := s.against(gap, clashRoom)
	text := fmt.Sprintf("%s pass %s apart; %s of wood is needed between them", who, has, wants)
	if gap < slack {
		text = who + " run into each other"
	}
	return Finding{Severity: Error, Value: gap, Limit: clashRoom, Unit: "mm", Text: text, Fix: fmt.Sprintf("move one %s straight away from the other", s.more(clashRoom-gap))}
}
