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
// along their slant: past what stands there before the step, or past each other's
// pieces where a board goes between two.
func pocketRoom(s *shop) []Finding {
	var t tally
	for i := range s.Steps {
		var ends []pocketEnd
		for _, f := range s.pocketsOf(i) {
			among := s.site.with(i, f.Pieces[0], f.Pieces[1])
			if blocker, short := s.slant(f, among); blocker >= 0 {
				s.noSlant(&t, i, f, blocker, short)
				continue
			}
			ends = append(ends, s.laterBlocked(i, f))
		}
		s.lastEnds(&t, i, ends)
	}
	return t.list()
}

// pocketsOf are the pocket screws that a step drives.
func (s *shop) pocketsOf(step int) []model.Fastener {
	var out []model.Fastener
	for _, j := range s.Steps[step].Fasten {
		for _, f := range j.Fasteners {
			if f.Hardware.Kind == model.PocketScrew {
				out = append(out, f)
			}
		}
	}
	return out
}

// pocketEnd is a pocket screw and the lumps of pieces that would be in its way if
// they were fixed to the same board before it.
type pocketEnd struct {
	model.Fastener
	by map[int]blocked
}

// blocked is the piece in the way and by how much.
type blocked struct {
	piece int
	short float64
}

// laterBlocked tries a screw with each lump that the step joins to its board.
func (s *shop) laterBlocked(step int, f model.Fastener) pocketEnd {
	e := pocketEnd{f, map[int]blocked{}}
	lumps := s.site.lumps[step]
	for _, j := range s.Steps[step].Fasten {
		for _, g := range j.Fasteners {
			l := lumps[g.Pieces[1]]
			if _, done := e.by[l]; done || g.Pieces[0] != f.Pieces[0] || l == lumps[f.Pieces[1]] {
				continue
			}
			piece, short := s.slant(f, s.site.with(step, g.Pieces[1]))
			e.by[l] = blocked{piece, short}
		}
	}
	return e
}

// lastEnds finds boards that go between two lumps each of which bars the pockets
// at the other's end: whichever end comes first, the last one is out of reach.
func (s *shop) lastEnds(t *tally, step int, ends []pocketEnd) {
	lumps := s.site.lumps[step]
	for i, b := range ends {
		for _, a := range ends[i+1:] {
			bars, there := a.by[lumps[b.Pieces[1]]]
			back, also := b.by[lumps[a.Pieces[1]]]
			if a.Pieces[0] == b.Pieces[0] && there && also && bars.piece >= 0 && back.piece >= 0 {
				s.noSlant(t, step, a.Fastener, bars.piece, bars.short)
			}
		}
	}
}

// slant returns what is in the way of a driver at a pocket and by how much, -1
// when nothing is.
func (s *shop) slant(f model.Fastener, among []int) (blocker int, short float64) {
	out := f.Dir.Neg()
	d := pocketDriver
	// The bit lies in the open pocket of its own piece.
	bit := bar(f.Head, out, s.mouthOf(f), d.bit, d.bitR)
	others := slices.DeleteFunc(slices.Clone(among), func(i int) bool { return i == f.Pieces[0] })
	if blocker, short = s.free([]rod{bit}, others); blocker < 0 {
		blocker, short = s.free(d.straight(f.Head, out)[1:], among)
	}
	return blocker, short
}

// noSlant enters the finding.
func (s *shop) noSlant(t *tally, step int, f model.Fastener, blocker int, short float64) {
	p, d := s.Placed[blocker].Part, pocketDriver
	room := s.besides(d, f, d.bit, blocker)
	t.add(f.Joint.Key+"\x00"+p.Key, short, Finding{Severity: Error, Value: d.bodyR - short, Limit: d.bodyR, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s is in the way of the driver at the pockets", jointName(f.Joint), s.Steps[step].Number, called(p)),
		Fix:  s.before(blocker, step, f, s.moveOff(d, f, blocker, room))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}
