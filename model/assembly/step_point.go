package assembly

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// inAir is how far in mm a named point may lie off the wood: a sharp arris that
// is eased by hand is still where the tape hooks on, a rounded one is not.
const inAir = 1.0

// A hold is one end of what a step measures: the floor, a piece, or a side, an
// arris or a corner of a piece.
type hold struct {
	text  string
	at    source.Span
	floor bool
	p     *part
	many  []int // pieces the name may mean; the first counts
	words []string
	point geom.V3 // in the world; in the middle of what is not named
	fixed [3]bool
	out   geom.V3 // of a single side: out of the wood
}

// named counts the sides that a hold names.
func (h *hold) named() int { return len(h.words) }

// piece is the piece that is held, or model.Floor.
func (h *hold) piece() int {
	if h.floor {
		return model.Floor
	}
	return h.many[0]
}

// A benchView is what the picture of a step shows, for what is measured in it.
type benchView struct {
	step  *model.Step
	shown map[int]bool
}

// viewOf finds the pieces in the picture of the newest step.
func (s *solver) viewOf(st *model.Step) benchView {
	v := benchView{step: st, shown: map[int]bool{}}
	if !st.OnBench() {
		for _, earlier := range s.plan.Steps {
			for _, i := range earlier.Add {
				v.shown[i] = true
			}
		}
	}
	for _, i := range st.Add {
		v.shown[i] = true
	}
	return v
}

// pieceName parts "leg left.top.front" into the part, its hand, and the rest.
func pieceName(text string) (key, hand string, words []string) {
	head, rest, dotted := strings.Cut(text, ".")
	key, hand, _ = strings.Cut(head, " ")
	if dotted {
		words = strings.Split(rest, ".")
	}
	return key, hand, words
}

// hold reads what is named in a step and finds it in the world. It is not ok,
// and nothing is told, where the variant leaves the part out.
func (s *solver) hold(w reading.Word, v benchView) (*hold, bool) {
	h := &hold{text: w.Text, at: w.At}
	if w.Text == "floor" {
		h.floor, h.out = true, geom.V3{Z: 1}
		return h, true
	}
	key, hand, words := pieceName(w.Text)
	list, ok := s.piecesOf(key, hand, w)
	if !ok {
		return h, false
	}
	h.p, h.words = s.parts[key], words
	if len(words) > 0 && (words[0] == "first" || words[0] == "last") {
		h.words = words[1:]
		at := 0
		if words[0] == "last" {
			at = len(list) - 1
		}
		list = list[at : at+1]
	}
	h.many = slices.DeleteFunc(slices.Clone(list), func(i int) bool { return !v.shown[i] })
	if len(h.many) == 0 || len(h.words) > 0 && h.many[0] != list[0] {
		s.notThere(w, s.plan.Placed[list[0]], v)
		return h, false
	}
	return h, s.stand1(h)
}

// piecesOf finds the pieces of a part that a name means, the right ones of a
// pair first.
func (s *solver) piecesOf(key, hand string, w reading.Word) ([]int, bool) {
	if s.parts[key] == nil {
		if !s.droppedPart(key) {
			s.problems.Errorf(w.At, "unknown-part", "there is no part %q", key).Suggest(key, s.partNames())
		}
		return nil, false
	}
	if hand != "" && hand != "left" && hand != "right" {
		s.problems.Errorf(w.At, "unknown-word", "%q names no piece", w.Text).Fix(`write "%s", "%s left" or "%s right", and then its sides`, key, key, key)
		return nil, false
	}
	var list []int
	for _, want := range []model.Hand{model.RightHand, model.NoHand, model.LeftHand} {
		for _, i := range s.placed[key] {
			if has := s.plan.Placed[i].Hand; has == want && (hand == "" || string(has) == hand) {
				list = append(list, i)
			}
		}
	}
	if len(list) == 0 {
		s.problems.Errorf(w.At, "not-placed", "no piece %q is placed, so nothing can be measured on it", strings.TrimSpace(key+" "+hand))
	}
	return list, len(list) > 0
}

// notThere tells that a piece is not in the picture of a step.
func (s *solver) notThere(w reading.Word, p *model.Placed, v benchView) {
	name := pieceWords(p)
	bad := s.problems.Errorf(w.At, "not-there", "%s is not in the picture of step %d", name, v.step.Number)
	if v.step.OnBench() && slices.ContainsFunc(s.plan.Steps, func(st *model.Step) bool { return slices.Contains(st.Add, p.Index) }) {
		bad.Fix("this step joins only its own pieces, so they are drawn by themselves; measure on those, or measure in the next step")
		return
	}
	bad.Fix("add the piece in this step or in an earlier one, or measure in a later step")
}

// pieceWords is a piece in words: "the left leg".
func pieceWords(p *model.Placed) string {
	if p.Hand == model.NoHand {
		return "the " + p.Part.Key
	}
	return fmt.Sprintf("the %s %s", p.Hand, p.Part.Key)
}

// stand1 finds where in the world the named sides of a piece are.
func (s *solver) stand1(h *hold) bool {
	placed := s.plan.Placed[h.many[0]]
	pt, fixed, ok := s.spot(h.p, h.words, placed.Part.Rank, h.at)
	if !ok {
		return false
	}
	h.fixed = fixed
	c := [3]*float64{&pt.X, &pt.Y, &pt.Z}
	for i, what := range []string{"length", "width", "thick"} {
		if fixed[i] {
			continue
		}
		mm, ok := s.own(h.p, what, placed.Part.Rank, h.at)
		if !ok {
			return false
		}
		*c[i] = mm / 2
	}
	if s.trimmedEnd(h) {
		pt = leftOf(placed.Part, pt)
	}
	h.point = placed.Pose.Point(pt)
	if len(h.words) == 1 {
		f, _ := h.p.feature(h.words[0])
		h.out = [...]geom.V3{placed.Pose.Along, placed.Pose.Across, placed.Pose.Thick}[f.axis]
		if f.side == 0 {
			h.out = h.out.Neg()
		}
	}
	return true
}

// trimmedEnd reports whether a hold is a corner at an end that another plane cuts.
func (s *solver) trimmedEnd(h *hold) bool {
	if !h.fixed[0] || !h.fixed[1] || h.words[0] == "hole" {
		return false
	}
	return slices.ContainsFunc(h.p.decl.Trims, func(t reading.Trim) bool { return slices.Contains(h.words, t.Name.Text) })
}

// leftOf is the corner of a part's outline nearest to a corner of its blank:
// where a trimmed end leaves it.
func leftOf(p *model.Part, pt geom.V3) geom.V3 {
	best := math.Inf(1)
	at := pt
	for _, seg := range p.Board.Outline {
		if d := math.Hypot(seg.A.X-pt.X, seg.A.Y-pt.Y); d < best {
			best = d
			at.X, at.Y = seg.A.X, seg.A.Y
		}
	}
	return at
}

// onWood refuses a point where the part has no wood: a rounded corner, a side
// that is sawn to a slant.
func (s *solver) onWood(h *hold) bool {
	if h.floor || h.words[0] == "hole" {
		return true
	}
	off := s.plan.Placed[h.many[0]].Solid.Distance(h.point)
	if off <= inAir {
		return true
	}
	s.problems.Errorf(h.at, "in-air", "%q is %s off the wood: it is cut away there", h.text, s.opt.Unit.Long(off)).
		Fix("name a corner that is left, as %s", s.pointHint(h.p))
	return false
}
