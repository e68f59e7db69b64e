package check

import (
	"fmt"
	"slices"

	"planset/model"
	"planset/model/wood"
)

// boltProud is how much of a bolt may stick out beyond its nut and two threads,
// mm: 3/8 in (common practice).
const boltProud = 9.525

// boltLength holds each bolt against grip, washer, nut and two threads: too
// short will not go together, too long catches legs, and a shank longer than
// the wood stops the nut before it is tight.
func boltLength(s *shop) []Finding {
	var t tally
	for _, f := range s.fasteners() {
		size, known := wood.Bolt(f.Hardware.Size)
		if !isBolt(f) || !known {
			continue
		}
		need, right := boltNeeds(f, size)
		b := grip{f, need, right, f.Length - size.Thread(f.Length) - washerOf(f, size)}
		if finding, bad := s.gripFault(b); bad {
			t.add(f.Joint.Key, 0, finding, s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part)
		}
	}
	return t.list()
}

// washerOf is how thick the washer of a bolt is, 0 without one.
func washerOf(f model.Fastener, size wood.BoltSize) float64 {
	if slices.ContainsFunc(f.Joint.With, func(h *model.Hardware) bool { return h.Kind == model.Washer }) {
		return size.Wide.Thick
	}
	return 0
}

// boltNeeds is what wood, washer, nut and two threads take of a bolt, and the
// sold length that suits.
func boltNeeds(f model.Fastener, size wood.BoltSize) (need, right float64) {
	fit := wood.NoWasher
	if washerOf(f, size) > 0 {
		fit = wood.WideWasher
	}
	right, sum, _ := wood.BoltLength(f.Hardware.Size, f.Grip, fit)
	for _, term := range sum {
		need += term.Length
	}
	return need, right
}

// grip is a bolt with the length it needs, the sold one that suits, and the
// wood that its bare shank asks for.
type grip struct {
	model.Fastener
	need, right, shank float64
}

func (s *shop) gripFault(b grip) (Finding, bool) {
	name := jointName(b.Joint)
	f := Finding{Severity: Error, Value: b.Length, Limit: b.need, Unit: "mm", Fix: fmt.Sprintf("take one of %s", s.long(b.right))}
	if b.right == 0 {
		f.Fix = fmt.Sprintf("take one at least %s long", s.long(b.need))
	}
	switch {
	case b.Length < b.need-slack:
		f.Text = fmt.Sprintf("%s: a bolt of %s is too short; wood, washer, nut and two threads take %s", name, s.long(b.Length), s.long(b.need))
	case b.shank > b.Grip+slack:
		f.Value, f.Limit = b.Grip, b.shank
		f.Text = fmt.Sprintf("%s: the nut stops on the bare shank of the bolt; it needs %s of wood and has %s", name, s.long(b.shank), s.long(b.Grip))
	case b.Length > b.need+boltProud+slack && (b.right == 0 || b.Length > b.right+slack):
		f.Severity, f.Limit = Warning, b.need+boltProud
		f.Text = fmt.Sprintf("%s: a bolt of %s sticks out %s beyond its nut", name, s.long(b.Length), s.long(b.Length-b.need))
	default:
		return f, false
	}
	return f, true
}
