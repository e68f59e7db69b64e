package check

import (
	"fmt"

	"planset/model"
)

// A driver is a bit and, behind it, the body of a drill or driver, mm: 2 3/4 in
// thick, 9 in from the screw to its rear (common practice).
type driver struct {
	bit, bitR, rear, bodyR float64
	handle                 bool // it lies across the axis and needs room to one side
}

// The drivers there are: the usual one with a 2 in bit, one with a 6 in bit, and
// a right-angle head of 4 in.
var (
	plainDriver = driver{50, 6, 230, 35, false}
	longDriver  = driver{150, 6, 330, 35, false}
	angleDriver = driver{25, 6, 102, 22, true}
)

const (
	handleLong = 200 // mm, of a right-angle driver
	handleR    = 20
	offHead    = 7 // mm: a bit that touches the wood round the head is no fault
)

// driverRoom finds screws that no driver reaches at the step in which they are
// driven, past the pieces that stand there then.
func driverRoom(s *shop) []Finding {
	var t tally
	for i, st := range s.Steps {
		for _, j := range st.Fasten {
			for _, f := range j.Fasteners {
				if f.Hardware.Kind == model.WoodScrew {
					s.reach(&t, i, f)
				}
			}
		}
	}
	return t.list()
}

// reach looks whether the screw can be driven in a step.
func (s *shop) reach(t *tally, step int, f model.Fastener) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	blocker, short := s.free(plainDriver.straight(f, 0), among)
	if blocker < 0 {
		return
	}
	level, how := Error, "no driver reaches it"
	if b, _ := s.free(longDriver.straight(f, 0), among); b < 0 {
		level, how = Warning, fmt.Sprintf("only a driver with a bit of %s reaches it", s.long(longDriver.bit))
	} else if s.angleFits(f, among) {
		level, how = Warning, "only a right-angle driver reaches it"
	}
	p := s.Placed[blocker].Part
	t.add(f.Joint.Key+"\x00"+p.Key+string(level), short, Finding{Severity: level, Value: plainDriver.bodyR - short, Limit: plainDriver.bodyR, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s stands in the way of the driver; %s", jointName(f.Joint), s.Steps[step].Number, called(p), how),
		Fix:  s.before(blocker, step, f, short)}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}

// straight is the space of a driver on the axis of a screw, its bit going in
// from some way outside the head.
func (d driver) straight(f model.Fastener, from float64) []rod {
	out := f.Dir.Neg()
	return []rod{bar(f.Head, out, from+offHead-d.bitR, from+d.bit, d.bitR), bar(f.Head, out, from+d.bit, from+d.rear, d.bodyR)}
}

// angleFits reports whether a right-angle driver has room, its handle to any
// side.
func (s *shop) angleFits(f model.Fastener, among []int) bool {
	if b, _ := s.free(angleDriver.straight(f, 0), among); b >= 0 {
		return false
	}
	at := f.Head.Sub(f.Dir.Mul((angleDriver.bit + angleDriver.rear) / 2))
	for _, d := range spokes(f.Dir, seatSpan) {
		if b, _ := s.free([]rod{bar(at, d, 0, handleLong, handleR)}, among); b < 0 {
			return true
		}
	}
	return false
}

// before says what would clear the way: another order, where the piece in the
// way came earlier, else a place farther off.
func (s *shop) before(blocker, step int, f model.Fastener, short float64) string {
	if added := s.addedIn(blocker); added >= 0 && added < step && blocker != f.Pieces[0] && blocker != f.Pieces[1] {
		if both := max(s.addedIn(f.Pieces[0]), s.addedIn(f.Pieces[1])); both <= added {
			return fmt.Sprintf("drive it before step %d adds %s", s.Steps[added].Number, called(s.Placed[blocker].Part))
		}
	}
	return fmt.Sprintf("move it %s farther from %s", s.more(short), called(s.Placed[blocker].Part))
}

// mouthOf is how far outside the head of a fastener its axis leaves the piece
// under the head: the length of a pocket or a counterbore.
func (s *shop) mouthOf(f model.Fastener) float64 {
	out := f.Dir.Neg()
	at := f.Head.Add(out.Mul(inside))
	mm, ok := leaves(s.Placed[f.Pieces[0]].Solid, at, out)
	if !ok {
		return 0
	}
	return mm + inside
}
