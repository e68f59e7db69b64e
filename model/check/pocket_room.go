package check

import (
	"fmt"
	"slices"

	"planset/model"
)

// pocketDriver drives a pocket screw: a 6 in bit, of which the body behind is 2
// in thick (common practice).
var pocketDriver = driver{150, 190, 330, 4, 20, 25, 0}

// pocketRoom finds pocket screws that a driver with a long bit does not reach
// along their slant.
func pocketRoom(s *shop) []Finding {
	var t tally
	for i, st := range s.Steps {
		for _, j := range st.Fasten {
			for _, f := range j.Fasteners {
				if f.Hardware.Kind == model.PocketScrew {
					s.slant(&t, i, f)
				}
			}
		}
	}
	return t.list()
}

func (s *shop) slant(t *tally, step int, f model.Fastener) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	out := f.Dir.Neg()
	d := pocketDriver
	// The bit lies in the open pocket of its own piece.
	bit := bar(f.Head, out, s.mouthOf(f), d.bit, d.bitR)
	others := slices.DeleteFunc(slices.Clone(among), func(i int) bool { return i == f.Pieces[0] })
	blocker, short := s.free([]rod{bit}, others)
	if blocker < 0 {
		blocker, short = s.free(d.straight(f.Head, out)[1:], among)
	}
	if blocker < 0 {
		return
	}
	p := s.Placed[blocker].Part
	room := s.besides(d, f, d.bit, blocker)
	t.add(f.Joint.Key+"\x00"+p.Key, short, Finding{Severity: Error, Value: d.bodyR - short, Limit: d.bodyR, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s is in the way of the driver at the pockets", jointName(f.Joint), s.Steps[step].Number, called(p)),
		Fix:  s.before(blocker, step, f, s.moveOff(d, f, blocker, room))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}
