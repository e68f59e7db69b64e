package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// A wrench on a hex nut must swing through 60 degrees with a handle of 6 in; a
// ratchet with a socket does with 30 (common practice).
const (
	swingLeast   = 60
	ratchetLeast = 30
	handleReach  = 150
	wrenchR      = 3 // mm, half as thick as an open-ended wrench
	socketLong   = 70
	ratchetR     = 12
	swingSteps   = 180
	headSpokes   = 8
)

// wrenchRoom finds nuts that no wrench can turn, at the step that makes the
// joint or tightens it, and bolts that cannot be pushed in.
func wrenchRoom(s *shop) []Finding {
	var t tally
	for i, st := range s.Steps {
		for _, j := range slices.Concat(st.Fasten, st.Tighten) {
			for _, f := range j.Fasteners {
				size, known := wood.Bolt(f.Hardware.Size)
				if !isBolt(f) || !known {
					continue
				}
				if !st.Loose || !slices.Contains(st.Fasten, j) {
					s.swing(&t, i, f, size)
				}
				if slices.Contains(st.Fasten, j) {
					s.entry(&t, i, f, size)
					s.nutOn(&t, i, f, size)
				}
			}
		}
	}
	return t.list()
}

// swing looks for room to turn the nut.
func (s *shop) swing(t *tally, step int, f model.Fastener, size wood.BoltSize) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	nut := f.Head.Add(f.Dir.Mul(f.Grip + size.Wide.Thick + size.Nut.Thick.Max/2))
	open := s.sweep(f, nut, wrenchR, among)
	if open >= swingLeast {
		return
	}
	corners := math.Max(size.Nut.Corners.Max, size.Nut.Flats.Max)/2 + 3
	socket := []rod{bar(nut, f.Dir, 0, socketLong+ratchetR, corners)}
	if b, _ := s.free(socket, among); b < 0 && s.sweep(f, nut.Add(f.Dir.Mul(socketLong)), ratchetR, among) >= ratchetLeast {
		return
	}
	t.add(f.Joint.Key+"\x00swing", swingLeast-open, Finding{Severity: Error, Value: open, Limit: swingLeast, Unit: "deg",
		Text: fmt.Sprintf("%s: in step %d a wrench on the nut swings through %.0f°, and %d° are needed; no socket gets there either", jointName(f.Joint), s.Steps[step].Number, open, swingLeast),
		Fix:  fmt.Sprintf("keep %s free on one side of the nut, or turn the bolt round", s.long(handleReach))},
		s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part)
}

// sweep is the greatest angle, degrees, through which a handle on the nut is
// free.
func (s *shop) sweep(f model.Fastener, at geom.V3, r float64, among []int) float64 {
	var open []bool
	for _, d := range spokes(f.Dir, swingSteps) {
		b, _ := s.free([]rod{bar(at, d, r, handleReach, r)}, among)
		open = append(open, b < 0)
	}
	best, run := 0, 0
	for i := range 2 * swingSteps { // twice round, for the run over the start
		if run++; !open[i%swingSteps] {
			run = 0
		}
		best = max(best, run)
	}
	if best >= swingSteps {
		return 360
	}
	return float64(max(best-1, 0)) * 360 / swingSteps // from the first free direction to the last
}

// entry looks for room to push the bolt in: its length and its head, before the
// hole.
func (s *shop) entry(t *tally, step int, f model.Fastener, size wood.BoltSize) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	need := f.Length + size.HeadHeight.Max
	blocker, short := s.free(headRun(f, size, need), among)
	if blocker < 0 {
		return
	}
	p := s.Placed[blocker].Part
	room := s.freeRun(need, func(run float64) []rod { return headRun(f, size, run) }, blocker)
	t.add(f.Joint.Key+"\x00entry", short, Finding{Severity: Error, Value: room, Limit: need, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s keeps the bolts from going in: %s is free before the hole, and bolt and head take %s", jointName(f.Joint), s.Steps[step].Number, called(p), s.long(room), s.long(need)),
		Fix:  fmt.Sprintf("turn the bolt round, push it in before %s is there, or move that off by %s", called(p), s.more(need-room))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}

// headRun is the space that the head of a bolt sweeps before its hole: a bar on
// the axis, and thin ones round it since the ends of a bar are round.
func headRun(f model.Fastener, size wood.BoltSize, run float64) []rod {
	r, out := size.Head.Max/2-0.5, f.Dir.Neg()
	rods := []rod{bar(f.Head, out, 1, run, r)}
	for _, d := range spokes(f.Dir, headSpokes) {
		rods = append(rods, bar(f.Head.Add(d.Mul(r-1)), out, 1, run, 1))
	}
	return rods
}

// nutOn looks for room behind the wood for the end of the bolt, and to put the
// nut on it.
func (s *shop) nutOn(t *tally, step int, f model.Fastener, size wood.BoltSize) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	from := f.Head.Add(f.Dir.Mul(f.Grip))
	need, r := f.Length-f.Grip+size.Nut.Thick.Max, size.Nut.Flats.Max/2
	behind := func(run float64) []rod { return []rod{bar(from, f.Dir, 1, run, min(r, run/2))} }
	blocker, short := s.free(behind(need), among)
	if blocker < 0 {
		return
	}
	p := s.Placed[blocker].Part
	room := s.freeRun(need, behind, blocker)
	t.add(f.Joint.Key+"\x00nut", short, Finding{Severity: Error, Value: room, Limit: need, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s stands %s behind the wood where the nut goes on, and bolt and nut take %s", jointName(f.Joint), s.Steps[step].Number, called(p), s.long(room), s.long(need)),
		Fix:  fmt.Sprintf("move it off by %s, or make the joint before it is there", s.more(need-room))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}

// freeRun is how long a run of bars may be before a piece stops it, up to most.
func (s *shop) freeRun(most float64, run func(float64) []rod, blocker int) float64 {
	lo, hi := 0.0, most
	for range 30 {
		mid := (lo + hi) / 2
		if b, _ := s.free(run(mid), []int{blocker}); b < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return max(0, lo-slack)
}
