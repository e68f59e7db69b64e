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
	swingSteps   = 72
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
	return float64(min(best, swingSteps)) * 360 / swingSteps
}

// entry looks for room to push the bolt in.
func (s *shop) entry(t *tally, step int, f model.Fastener, size wood.BoltSize) {
	among := s.site.with(step, f.Pieces[0], f.Pieces[1])
	r := size.Head.Max/2 - 0.5
	run := bar(f.Head, f.Dir.Neg(), 1, f.Length+2*r, r)
	blocker, short := s.free([]rod{run}, among)
	if blocker < 0 {
		return
	}
	p := s.Placed[blocker].Part
	free := s.freeRun(f, r, blocker)
	t.add(f.Joint.Key+"\x00entry", short, Finding{Severity: Error, Value: free, Limit: f.Length, Unit: "mm",
		Text: fmt.Sprintf("%s: in step %d %s keeps the bolts from going in: %s is free before the hole, and the bolt is %s long", jointName(f.Joint), s.Steps[step].Number, called(p), s.long(free), s.long(f.Length)),
		Fix:  fmt.Sprintf("turn the bolt round, or push it in before %s is there", called(p))}, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part, p)
}

// freeRun is how far a bolt's head can stand off before a piece stops it.
func (s *shop) freeRun(f model.Fastener, r float64, blocker int) float64 {
	lo, hi := 0.0, f.Length+2*r
	for range 20 {
		mid := (lo + hi) / 2
		if b, _ := s.free([]rod{bar(f.Head, f.Dir.Neg(), 1, mid, r)}, []int{blocker}); b < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return max(0, lo-slack)
}
