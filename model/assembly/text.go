package assembly

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// text puts the numbers into a text: every {formula} is worked out and printed
// in the reader's units. A bare figure outside braces is a warning, since it
// would not follow when a size changes.
func (s *solver) text(w reading.Word) string {
	var out strings.Builder
	rest := w.Text
	for {
		before, after, found := strings.Cut(rest, "{")
		s.bareFigure(before, w, len(w.Text)-len(rest))
		out.WriteString(before)
		if !found {
			break
		}
		inside, tail, closed := strings.Cut(after, "}")
		if !closed {
			start := len(w.Text) - len(after)
			s.problems.Errorf(within(w, start-1, start), "placeholder", "the text opens a { that is never closed").Fix("add the } that belongs to it")
			break
		}
		name := strings.TrimSpace(inside)
		start := len(w.Text) - len(after) + strings.Index(inside, name)
		out.WriteString(s.fill(name, within(w, start, start+len(name))))
		rest = tail
	}
	return out.String()
}

// within is the place of a stretch of a text in the file; the whole value where
// the text is not written as it reads.
func within(w reading.Word, start, end int) source.Span {
	i := strings.Index(w.At.Text(), w.Text)
	if i < 0 {
		return w.At
	}
	return source.Span{File: w.At.File, Start: w.At.Start + i + start, End: w.At.Start + i + end}
}

// bareFigure warns of a number typed in prose; text begins at start in w.
func (s *solver) bareFigure(text string, w reading.Word, start int) {
	i := figure.FindStringIndex(text)
	if i == nil || s.opt.Quick {
		return
	}
	word := text[i[0]:]
	if j := strings.IndexAny(word, " ,.;:"); j > 0 {
		word = word[:j]
	}
	start += i[0]
	s.problems.Warnf(within(w, start, start+len(word)), "number-in-prose", "the number %q is typed in the text, so it will not follow the model", word).
		Fix("name the value in braces, as {leg.length}, {recline} or {count leg}")
}

// fill works out one placeholder.
func (s *solver) fill(inside string, at source.Span) string {
	verb, name, two := strings.Cut(inside, " ")
	if two {
		if text, ok := s.fillWord(verb, strings.TrimSpace(name), at); ok {
			return text
		}
	}
	fine := expr.Coarse
	if verb == "fine" && two {
		fine, inside = expr.Fine, name
	}
	if fine == expr.Fine && at.Valid() {
		at.Start = at.End - len(inside)
	}
	f := expr.Parse(inside, at, s.problems)
	if f == nil {
		return ""
	}
	v, ok := f.Eval(s.d.Unit, &scope{s: s}, s.problems)
	if !ok {
		return ""
	}
	return s.print(v, fine)
}

// fillWord answers {count part}, {code part}, {name part} and {hardware joint}.
func (s *solver) fillWord(verb, name string, at source.Span) (string, bool) {
	switch verb {
	case "count", "code", "name":
	case "hardware":
		for _, j := range s.plan.Joints {
			if j.Key == name && j.Hardware != nil {
				return HardwareName(j.Hardware, s.opt.Unit), true
			}
		}
		s.problems.Errorf(at, "placeholder", "there is no joint %q with hardware", name).Suggest(name, s.jointNames())
		return "", true
	case "fasteners":
		for _, j := range s.plan.Joints {
			if j.Key == name {
				return fmt.Sprint(len(j.Fasteners)), true
			}
		}
		s.problems.Errorf(at, "placeholder", "there is no joint %q", name).Suggest(name, s.jointNames())
		return "", true
	default:
		return "", false
	}
	p := s.parts[name]
	if p == nil {
		if !s.droppedPart(name) {
			s.problems.Errorf(at, "placeholder", "there is no part %q", name).Suggest(name, s.partNames())
		}
		return "", true
	}
	total, text := 0, ""
	for _, mp := range s.plan.Parts {
		if mp.Key != name {
			continue
		}
		total += mp.Quantity
		switch {
		case verb == "name":
			text = mp.Name
		case mp.Family != "":
			text = mp.Family
		default:
			text = mp.Code
		}
	}
	if verb == "count" {
		return fmt.Sprint(total), true
	}
	return text, true
}

// print writes a value in the reader's units.
func (s *solver) print(v expr.Value, f expr.Fineness) string {
	switch v.Dim {
	case expr.Dim{Length: 1}:
		return s.opt.Unit.LongTo(v.V, f)
	case expr.Dim{Angle: 1}:
		return expr.Angle(v.V, 0.5)
	}
	if v.V == math.Round(v.V) {
		return fmt.Sprint(int(v.V))
	}
	return fmt.Sprintf("%.1f", v.V)
}

// HardwareName is how a hardware is called in running text and lists.
func HardwareName(h *model.Hardware, u expr.Unit) string {
	size := strings.ReplaceAll(h.Size, "/", "⁄")
	if u == expr.Inch && (h.Kind == model.CarriageBolt || h.Kind == model.HexBolt || h.Part) {
		size += "″"
	}
	if h.Length > 0 {
		size += " × " + u.Length(h.Length, expr.Fine)
	}
	return size + " " + h.Name
}
