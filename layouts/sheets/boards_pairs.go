package sheets

import (
	"fmt"
	"slices"
	"strings"

	"planset/model"
	"planset/model/buying"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// taperedPiece is the outline of a piece that shares its blank, on paper.
func (w *barWriter) taperedPiece(p cutting.Placed) render.Path {
	part := partOfCode(w.d.plan, p.Code)
	o := geom.Rect(p.Length, p.Width)
	if part != nil {
		o = buying.InBlank(part, p.Turned)
	}
	onPaper := func(q geom.Pt) geom.Pt {
		return geom.Pt{X: (p.Along + q.X) / w.k, Y: w.bottom + (p.Across+q.Y)/w.k}
	}
	const chord = 0.02 // mm on paper
	pts := o.Flatten(chord * w.k)
	for i := range pts {
		pts[i] = onPaper(pts[i])
	}
	return render.Loop(pts...)
}

func partOfCode(plan *model.Plan, code string) *model.Part {
	i := slices.IndexFunc(plan.Parts, func(p *model.Part) bool { return p.Code == code })
	if i < 0 {
		return nil
	}
	return plan.Parts[i]
}

// wideEnd is where along a paired piece its label has most room: a quarter of
// the way from the end where the slanted cut leaves it wide.
func wideEnd(b cutting.Board, p cutting.Placed) float64 {
	blank := b.Blanks[p.Pair-1]
	c := b.Cuts[blank.Cut-1]
	left := c.At > c.Stop // the lower piece is wide at the left
	upper := p.Across > blank.Across+sameEdge
	if left != upper {
		return 0.25
	}
	return 0.75
}

// pairWords tell how two parts come out of one blank, with the marks of each
// shape of blank.
func pairWords(d *desk) string {
	u := d.plan.Unit
	var marks []string
	for _, b := range d.in.Cuts.Boards {
		for i, blank := range b.Blanks {
			c := b.Cuts[blank.Cut-1]
			mark := fmt.Sprintf("%s at the left end, %s at the right", u.LongTo(c.At-blank.Across, expr.Fine), u.LongTo(c.Stop-blank.Across, expr.Fine))
			var codes []string
			for _, p := range b.Pieces {
				if p.Pair == i+1 && !slices.Contains(codes, p.Code) {
					codes = append(codes, p.Code)
				}
			}
			if mark = strings.Join(codes, " and ") + " " + mark; !slices.Contains(marks, mark) {
				marks = append(marks, mark)
			}
		}
	}
	if len(marks) == 0 {
		return ""
	}
	return "Parts in pairs lie head to tail. Crosscut and rip their blank whole, as if it were one part, and lay it down as drawn. " +
		"Mark the slanted cut from the near edge: " + strings.Join(marks, "; ") + ". Lay the blank on the taper jig with the line along " +
		"the blade and part the two with one cut; then each is shaped by itself."
}

// blankWidth is how wide the blanks are sawn that pieces of a part share with
// another, the widest; 0 if none does.
func blankWidth(d *desk, p *model.Part) float64 {
	wide := 0.0
	if d.in.Cuts == nil {
		return wide
	}
	for _, b := range d.in.Cuts.Boards {
		for _, q := range b.Pieces {
			if q.Code == p.Code && q.Pair > 0 {
				wide = max(wide, b.Blanks[q.Pair-1].Sawn)
			}
		}
	}
	return wide
}

// offcutNames numbers what is left of the boards, kept or used, in the order of
// the set: by board, first the rests that short pieces are cut from. What is
// kept of such a rest has no number of its own, 0.
type offcutNames struct{ rests, kept [][]int }

func offcutsOf(c *cutting.Plan) offcutNames {
	var names offcutNames
	n := 0
	for _, b := range c.Boards {
		var rests, kept []int
		for range b.Rests {
			n++
			rests = append(rests, n)
		}
		for _, o := range b.Offcuts {
			if o.Keep && restOf(b, o) == 0 {
				n++
				kept = append(kept, n)
				continue
			}
			kept = append(kept, 0)
		}
		names.rests, names.kept = append(names.rests, rests), append(names.kept, kept)
	}
	return names
}

// restOf is the rest of a board, counted from 1, that an offcut is left of; 0
// for none.
func restOf(b cutting.Board, o cutting.Offcut) int {
	return 1 + slices.IndexFunc(b.Rests, func(r cutting.Rest) bool {
		return o.Along > r.Along-sameEdge && o.Along+o.Length < r.Along+r.Length+sameEdge
	})
}

// keptOf is the longest offcut that is kept of a rest.
func keptOf(b cutting.Board, rest int) (cutting.Offcut, bool) {
	var best cutting.Offcut
	for _, o := range b.Offcuts {
		if o.Keep && restOf(b, o) == rest && o.Length > best.Length {
			best = o
		}
	}
	return best, best.Keep
}

// restCodes names the parts that are cut from a rest of a board.
func restCodes(b cutting.Board, rest int) []string {
	var codes []string
	for _, p := range b.Pieces {
		if p.Rest == rest && !slices.Contains(codes, p.Code) {
			codes = append(codes, p.Code)
		}
	}
	return codes
}

// restWords tell how short parts come out of an offcut, if any do.
func restWords(d *desk) string {
	for _, b := range d.in.Cuts.Boards {
		if len(b.Rests) > 0 {
			return fmt.Sprintf("Parts shorter than %s are cut from an offcut, when everything else on that board is done: mark them on it, "+
				"clamp it down and saw with a jigsaw or by hand; do not hold short wood at a power saw.", d.plan.Unit.LongTo(d.in.Cuts.Rules.Short, expr.Coarse))
		}
	}
	return ""
}
