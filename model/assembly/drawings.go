package assembly

import (
	"slices"
	"strconv"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
)

// drawings hands what the author wants otherwise in drawings to the parts and
// the stages they are of.
func (s *solver) drawings() {
	s.plan.Exploded = s.exploded(s.d.Exploded)
	for _, d := range s.d.Drawings {
		p := s.parts[d.Part.Text]
		if p == nil {
			if !s.droppedPart(d.Part.Text) {
				s.problems.Errorf(d.Part.At, "unknown-part", "there is no part %q", d.Part.Text).Suggest(d.Part.Text, s.partNames())
			}
			continue
		}
		drawing := s.drawing(d, p)
		for _, q := range s.plan.Parts {
			if q.Key == d.Part.Text {
				q.Drawing = drawing
			}
		}
	}
}

func (s *solver) drawing(d reading.Drawing, p *part) model.Drawing {
	out := model.Drawing{Face: d.Face.Text, Scale: s.scale(d.Scale)}
	if d.Face.Given() && !slices.Contains(p.names.Faces[:], d.Face.Text) {
		s.problems.Errorf(d.Face.At, "unknown-side", "part %q has no face %q", p.decl.Key, d.Face.Text).Suggest(d.Face.Text, p.names.Faces[:])
	}
	for _, w := range d.Hide {
		out.Hide = append(out.Hide, w.Text)
	}
	for _, m := range d.Move {
		if x, y, ok := s.pairOf(m.By, &scope{s: s}); ok {
			out.Move = append(out.Move, model.Shift{Name: m.Name.Text, By: geom.Pt{X: x, Y: y}})
		}
	}
	return out
}

// scales are the ratios of part drawings, one to so many: those of ISO 5455 and
// the architect's rule.
func scales(u expr.Unit) []int {
	if u == expr.MM {
		return []int{1, 2, 5, 10, 20}
	}
	return []int{1, 2, 4, 8, 12, 16}
}

// scale reads "1:4". A scale of the other unit system counts as the next smaller
// one of this edition, so that one word serves both.
func (s *solver) scale(w reading.Word) float64 {
	if !w.Given() {
		return 0
	}
	ratio, ok := strings.CutPrefix(w.Text, "1:")
	n, err := strconv.Atoi(ratio)
	known := slices.Concat(scales(expr.Inch), scales(expr.MM))
	if !ok || err != nil || !slices.Contains(known, n) {
		s.problems.Errorf(w.At, "scale", "%q is no standard scale", w.Text).Fix("write one of 1:1, 1:2, 1:4, 1:8, 1:12, 1:16, or 1:5, 1:10, 1:20 in millimeters")
		return 0
	}
	of := scales(s.opt.Unit)
	for _, k := range of {
		if k >= n {
			return float64(k)
		}
	}
	return float64(of[len(of)-1])
}

// exploded reads how something is drawn taken apart.
func (s *solver) exploded(d reading.Exploded) model.Exploded {
	s.camera(d.View)
	apart, _ := s.lengthOr(d.Apart, &scope{s: s}, 0)
	if apart < 0 {
		s.problems.Errorf(d.Apart.At, "bad-value", "joints cannot be opened by less than nothing")
		apart = 0
	}
	return model.Exploded{View: d.View.Text, Apart: apart}
}

// cameraWords are the words that say where a picture is seen from.
var cameraWords = []string{"front", "rear", "left", "right", "high", "low", "level", "top", "bottom", "inside", "upside", "down"}

// camera reports words that say no place to look from.
func (s *solver) camera(w reading.Word) {
	for word := range strings.FieldsSeq(strings.ToLower(w.Text)) {
		if !slices.Contains(cameraWords, word) {
			s.problems.Errorf(w.At, "view", "%q says no place to look from", word).
				Fix(`write words such as "front right high", "rear left low" or "front left high upside down"`).Suggest(word, cameraWords)
			return
		}
	}
}
