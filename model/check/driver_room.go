package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// A driver is a bit, a chuck and the body of a drill behind it, mm along the
// axis from the screw: 2 3/4 in thick, 9 in from the screw to its rear (common
// practice). It may lean by some degrees before the bit slips out.
type driver struct {
	bit, chuck, rear    float64 // where each ends
	bitR, chuckR, bodyR float64
	lean                float64 // radians
}

// The drivers there are: the usual one with a 2 in bit, longer bits, and a
// right-angle head of 4 in.
var (
	plainDriver = driver{50, 110, 230, 6, 22, 35, 5 * math.Pi / 180}
	angleDriver = driver{25, 60, 102, 6, 22, 22, 0}
)

// longBits are the long bits that are sold, mm: 6 and 12 in.
func longBits(u expr.Unit) []float64 {
	if u == expr.MM {
		return []float64{150, 300}
	}
	return []float64{152.4, 304.8}
}

// longer is a driver with a longer bit.
func (d driver) longer(bit float64) driver {
	more := bit - d.bit
	return driver{bit, d.chuck + more, d.rear + more, d.bitR, d.chuckR, d.bodyR, 8 * math.Pi / 180}
}

const (
	handleLong = 200 // mm, of a right-angle driver
	handleR    = 20
	offHead    = 7 // mm: a bit that touches the wood round the head is no fault
)

// driverRoom finds screws that no driver reaches at the step in which they are
// driven, past the pieces that stand there then. A screw that takes a long bit
// or a right-angle driver is let be where the step has the key for it, and the
// tool it names fits.
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
	blocker, short := s.fits(plainDriver, f, among)
	if blocker < 0 || s.toolFits(step, f, among) {
		return
	}
	level, how, st := Error, "no driver reaches it", s.Steps[step]
	room := s.besides(plainDriver, f, offHead, blocker)
	short = plainDriver.bodyR - room
	fix := s.before(blocker, step, f, s.moveOff(plainDriver, f, blocker, room))
	for _, bit := range longBits(s.Unit) {
		if b, _ := s.fits(plainDriver.longer(bit), f, among); b < 0 && level == Error {
			level, how = Warning, fmt.Sprintf("it takes a bit of %s", s.long(bit))
			fix = fmt.Sprintf("write bit = %s in step %d, or %s", s.plain(bit), st.Number, fix)
		}
	}
	if level == Error && s.angleFits(f, among) {
		level, how = Warning, fmt.Sprintf("it takes a right-angle driver of %s", s.long(angleDriver.rear))
		fix = fmt.Sprintf("write right_angle = true in step %d, or %s", st.Number, fix)
	}
	p := s.Placed[blocker].Part
	t.add(f.Joint.Key+"\x00"+string(level), short, Finding{Severity: level, Value: plainDriver.bodyR - short, Limit: plainDriver.bodyR, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s stands in the way of the driver; %s", jointName(f.Joint), st.Number, called(p), how), Fix: fix},
		s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}

// toolFits reports whether the bit or the driver that a step names has room.
func (s *shop) toolFits(step int, f model.Fastener, among []int) bool {
	st := s.Steps[step]
	if st.Angled && s.angleFits(f, among) {
		return true
	}
	if st.Bit <= plainDriver.bit {
		return false
	}
	blocker, _ := s.fits(plainDriver.longer(st.Bit), f, among)
	return blocker < 0
}

// plain is a length as an author writes it, with its unit: "6 in" or "150 mm".
func (s *shop) plain(mm float64) string {
	if s.Unit == expr.MM {
		return fmt.Sprintf("\"%g mm\"", math.Round(mm))
	}
	return fmt.Sprintf("\"%g in\"", math.Round(mm/25.4*64)/64)
}

// fits returns -1 when a driver has room on the axis of a screw or leaning a
// little; else what is in its way upright, and by how much.
func (s *shop) fits(d driver, f model.Fastener, among []int) (blocker int, short float64) {
	out := f.Dir.Neg()
	blocker, short = s.free(d.straight(f.Head, out), among)
	if blocker < 0 || d.lean == 0 {
		return blocker, short
	}
	for _, side := range spokes(f.Dir, seatSpan) {
		way := out.Mul(math.Cos(d.lean)).Add(side.Mul(math.Sin(d.lean)))
		if b, _ := s.free(d.straight(f.Head, way), among); b < 0 {
			return -1, 0
		}
	}
	return blocker, short
}

// straight is the space of a driver that reaches a head from a direction.
func (d driver) straight(head, out geom.V3) []rod { return d.upTo(head, out, d.rear) }

// upTo is straight as far as a run from the head.
func (d driver) upTo(head, out geom.V3, run float64) []rod {
	rods := []rod{bar(head, out, offHead-d.bitR, min(d.bit, run), d.bitR)}
	if run > d.bit {
		rods = append(rods, bar(head, out, d.bit, min(d.chuck, run), d.chuckR))
	}
	if run > d.chuck {
		rods = append(rods, bar(head, out, d.chuck, run, d.bodyR))
	}
	return rods
}

// besides is how far a piece stays from the axis of a driver, from some way off the
// head to where its rear is round; nothing where it lies across it.
func (s *shop) besides(d driver, f model.Fastener, from float64, blocker int) float64 {
	line := rod{segment{f.Head.Sub(f.Dir.Mul(from)), f.Dir.Mul(from + d.bodyR - d.rear)}, d.bodyR}
	return min(line.r, line.room(s.Placed[blocker].Solid, s.boxes[blocker]))
}

// moveOff says how far a piece must go to be out of the way of a driver: aside,
// or along the screw when it lies across its axis, where room is nothing.
func (s *shop) moveOff(d driver, f model.Fastener, blocker int, room float64) string {
	who := called(s.Placed[blocker].Part)
	if room > 0 {
		return fmt.Sprintf("move it %s farther from %s", s.more(d.bodyR-room), who)
	}
	free := s.freeRun(d.rear, func(run float64) []rod { return d.upTo(f.Head, f.Dir.Neg(), run) }, blocker)
	return fmt.Sprintf("move %s off by %s along the screw", who, s.more(d.rear-free))
}

// angleFits reports whether a right-angle driver has room, its handle to any
// side.
func (s *shop) angleFits(f model.Fastener, among []int) bool {
	if b, _ := s.free(angleDriver.straight(f.Head, f.Dir.Neg()), among); b >= 0 {
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
func (s *shop) before(blocker, step int, f model.Fastener, away string) string {
	if added := s.addedIn(blocker); added >= 0 && added < step && blocker != f.Pieces[0] && blocker != f.Pieces[1] {
		if both := max(s.addedIn(f.Pieces[0]), s.addedIn(f.Pieces[1])); both < added {
			return fmt.Sprintf("drive it before step %d adds %s", s.Steps[added].Number, called(s.Placed[blocker].Part))
		}
	}
	return away
}

// mouthOf is how far outside the head of a fastener its axis leaves the piece
// under the head: the length of a pocket or a counterbore.
func (s *shop) mouthOf(f model.Fastener) float64 {
	out := f.Dir.Neg()
	mm, ok := leaves(s.Placed[f.Pieces[0]].Solid, f.Head.Add(out.Mul(inside)), out)
	if !ok {
		return 0
	}
	return mm + inside
}
