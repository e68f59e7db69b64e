package sheets

import (
	"fmt"
	"math"
	"slices"

	"planset/layouts/tiles"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// Templates are the parts of a plan that need a full-size template, one for a
// family of like ends, in the order of the parts. A template shows the part's
// first face: drawn with x right and y up, that is the face at thick = 0.
func Templates(p *model.Plan) []tiles.Template {
	var out []tiles.Template
	done := map[string]bool{}
	for _, q := range p.Parts {
		if !q.Template || q.Quantity == 0 {
			continue
		}
		key := q.Code
		if q.Family != "" {
			key = q.Family
		}
		if done[key] {
			continue
		}
		done[key] = true
		out = append(out, templateOf(p, q))
	}
	return out
}

// templateOf is the template of one part; of a family, that of its longest.
func templateOf(p *model.Plan, q *model.Part) tiles.Template {
	t := tiles.Template{Code: q.Code, Name: q.Name, Outline: q.Board.Outline, Face: faceUp(q.Names.Faces[0]),
		End: q.Names.Ends[0], Edge: q.Names.Edges[0], Blank: geom.Size{W: q.Length, H: q.Width}}
	t.Note = cutNote(q.Quantity, q.Hand)
	if q.Family != "" {
		t.Code = q.Family
		t.Family, t.Note = familyOf(p, q)
	}
	for _, h := range q.Holes {
		if h.Into == "face" && h.Kind != model.PilotHole && alikeInFamily(p, q, h) {
			t.Holes = append(t.Holes, tiles.Hole{At: geom.Pt{X: h.Along, Y: h.Across}, Diam: h.Diam,
				Note: "⌀ " + p.Unit.Length(h.Diam, expr.Drill), Matched: h.Matched})
		}
	}
	return t
}

// sameHole is how far a hole of one member of a family may be from that of another
// and still be laid out from one template, mm.
const sameHole = 0.05

// alikeInFamily reports whether every member of q's family has the hole h, at
// the same distances from its datum end and its reference edge.
func alikeInFamily(p *model.Plan, q *model.Part, h model.Hole) bool {
	for _, m := range p.Parts {
		if m == q || q.Family == "" || m.Family != q.Family {
			continue
		}
		if !slices.ContainsFunc(m.Holes, func(o model.Hole) bool {
			return o.Into == h.Into && o.From == h.From && math.Abs(o.Along-h.Along) < sameHole &&
				math.Abs(o.Across-h.Across) < sameHole && math.Abs(o.Diam-h.Diam) < sameHole
		}) {
			return false
		}
	}
	return true
}

// faceUp says which face one looks down on.
func faceUp(name string) string {
	switch name {
	case "":
		return ""
	case "face":
		return "face up"
	}
	return name + " face up"
}

// cutNote says how many to cut and which way round.
func cutNote(n int, hand model.Hand) string {
	if hand == model.Pair {
		if n == 2 {
			return "Cut 2: one each way up"
		}
		return fmt.Sprintf("Cut %d: half of them each way up", n)
	}
	return fmt.Sprintf("Cut %d", n)
}

// familyOf is the table of a family's lengths and the note that goes with it.
func familyOf(p *model.Plan, first *model.Part) ([][]string, string) {
	rows := [][]string{{"Part", "Pieces", "Length"}}
	total := 0
	for _, q := range p.Parts {
		if q.Family != first.Family {
			continue
		}
		rows = append(rows, []string{q.Code, fmt.Sprint(q.Quantity), p.Unit.Long(q.Length)})
		total += q.Quantity
	}
	if first.TrimLater != "" {
		return rows, fmt.Sprintf("Cut %d alike, then trim the %s", total, first.TrimLater)
	}
	return rows, fmt.Sprintf("Cut %d; all lengths but the longest shorten the plain run between the ends", total)
}
