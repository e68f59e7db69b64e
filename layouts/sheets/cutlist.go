package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/buying"
	"planset/model/expr"
	"planset/model/shop"
)

// cutList is every part with its rough and finished size, in the order in which
// the wood is used up.
func cutList(d *desk, s sheet) {
	if len(d.plan.Parts) == 0 {
		return
	}
	l := d.leaf(s, s.title, "Every part, by stock and then by length. Tick it when cut and when shaped.")
	spare := func(p *model.Part) bool { return buying.Spare(d.plan, p) > 0 }
	text := "Angles are measured from square: 0° is a plain crosscut. R is a radius. " + unitWords(d.plan.Unit)
	if slices.ContainsFunc(d.plan.Parts, fitted) {
		text += " A length in brackets is cut to fit at the step named; leave the part at its rough length until then."
	}
	if slices.ContainsFunc(d.plan.Parts, spare) {
		text += " A number after + is of spare pieces."
	}
	l.para(0, 132, text+sharedWords(d), plain)
	l.skip(4)
	l.list(l.shortest(cutTable(d), 6.5))
}

// cutTable has the columns in the order a sawyer asks for them.
func cutTable(d *desk) *tables.Table {
	t := &tables.Table{Narrow: true, Least: 8, Gap: 1.6, Pad: 1.35, Columns: []tables.Column{
		{Title: "Code", Width: 8},
		{Title: "Part name", Share: 15},
		{Title: "Qty", Width: 6, Align: tables.Middle},
		{Title: "Hand", Width: 8},
		{Title: "L", Group: "Rough", Width: 11, Align: tables.OnFraction},
		{Title: "W", Group: "Rough", Width: 8, Align: tables.OnFraction},
		{Title: "T", Group: "Finish", Width: 5, Align: tables.OnFraction, Apart: 1.6},
		{Title: "W", Group: "Finish", Width: 8, Align: tables.OnFraction},
		{Title: "L", Group: "Finish", Width: 11, Align: tables.OnFraction},
		{Title: "End and edge cuts", Share: 28},
		{Title: "Shape", Width: 9},
		{Title: "Face and grain", Share: 19},
		{Title: "Board", Width: 9},
		{Title: "Cut", Width: 5, Align: tables.Middle},
		{Title: "Shaped", Width: 10, Align: tables.Middle},
	}}
	var first *model.Part // of the family
	var stock *model.Stock
	for _, p := range cutOrder(d.plan) {
		if p.Stock != stock {
			stock = p.Stock
			t.Rows = append(t.Rows, tables.Row{Head: true, Cells: []tables.Cell{cell(stockHead(d, stock))}})
		}
		row := tables.Row{Cells: cutCells(d, p)}
		if first != nil && p.Family != "" && p.Family == first.Family {
			row.Keep = true
			asFirst(row.Cells, cutCells(d, first), first.Code)
		} else {
			first = p
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// stockHead stands over the parts that are cut from one stock: what the yard
// calls it, and what it measures.
func stockHead(d *desk, s *model.Stock) string {
	if s == nil {
		return "No stock"
	}
	return "Stock: " + s.Name + ", actual " + across(d.plan.Unit, s.Thick, s.Width)
}

// The fields of a row that may be long.
const (
	cutsField = 9
	noteField = 11
)

// asFirst shortens the long fields of a member of a family that say the same
// as those of its first.
func asFirst(cells, first []tables.Cell, code string) {
	for _, i := range []int{cutsField, noteField} {
		if cells[i].Text == first[i].Text && len(cells[i].Text) > len("as ")+len(code) {
			cells[i].Text = "as " + code
		}
	}
}

// cutCells are the fields of one part.
func cutCells(d *desk, p *model.Part) []tables.Cell {
	u := d.plan.Unit
	size := func(mm float64) tables.Cell { return cell(u.Bare(mm, expr.Coarse)) }
	length := bold(u.Bare(p.Length, expr.Coarse))
	if fitted(p) {
		length.Text = "(" + length.Text + ")"
	}
	shape := "–"
	if p.Template {
		shape = "full size"
		if ref := d.onTemplate(p.Code); ref != "" {
			shape = ref
		}
	}
	return []tables.Cell{
		{Tabs: []tables.Tab{{Code: p.Code}}, Page: d.tabPage(p)},
		bold(p.Name), cell(countWords(d.plan, p)), cell(handWords(p)),
		size(p.RoughLength), size(p.RoughWidth),
		cell(u.Bare(p.Thick, expr.Fine)), bold(u.Bare(p.Width, expr.Coarse)), length,
		cell(cuts(u, p)), {Text: shape, Page: d.page("template " + p.Code)}, cell(d.sawNote(p)),
		cell(boardsOf(d, p)), tick(), tick(),
	}
}

// countWords is how many are cut; spare ones are counted apart.
func countWords(plan *model.Plan, p *model.Part) string {
	if n := buying.Spare(plan, p); n > 0 {
		return digits(p.Quantity) + "+" + digits(n)
	}
	return digits(p.Quantity)
}

// sawNote is the note of a part, with what the layouts ask of it.
func (d *desk) sawNote(p *model.Part) string {
	const pair = "cut in pairs, head to tail"
	note := partNote(d.plan, p)
	switch {
	case blankWidth(d, p) == 0:
		return note
	case note == "":
		return upper(pair)
	}
	return note + "; " + pair
}

// sharedWords say how wide the blanks are that parts share: a pair is ripped to
// the width of its blank, not of the part.
func sharedWords(d *desk) string {
	var wide []string
	for _, p := range cutOrder(d.plan) {
		if w := blankWidth(d, p); w > 0 {
			wide = append(wide, p.Code+" "+d.plan.Unit.LongTo(w, expr.Fine))
		}
	}
	if len(wide) == 0 {
		return ""
	}
	return " Two parts cut in a pair share a blank, of this width: " + strings.Join(wide, ", ") + "."
}

// cutOrder sorts parts by stock in the order of the plan, then by length, the
// longest first; a family stays together, in its own order, where its longest is.
func cutOrder(plan *model.Plan) []*model.Part {
	stock := map[*model.Stock]int{}
	for i, s := range plan.Stocks {
		stock[s] = i
	}
	long := map[string]float64{}
	for _, p := range plan.Parts {
		long[shop.FamilyCode(p)] = max(long[shop.FamilyCode(p)], p.RoughLength, p.Length)
	}
	out := slices.Clone(plan.Parts)
	slices.SortStableFunc(out, func(a, b *model.Part) int {
		fa, fb := shop.FamilyCode(a), shop.FamilyCode(b)
		switch {
		case stock[a.Stock] != stock[b.Stock]:
			return stock[a.Stock] - stock[b.Stock]
		case fa != fb && long[fa] > long[fb]:
			return -1
		case fa != fb && long[fa] < long[fb]:
			return 1
		case fa != fb:
			return strings.Compare(fa, fb)
		}
		return a.Rank - b.Rank
	})
	return out
}

// fitted reports whether a part gets its length only when it is put in.
func fitted(p *model.Part) bool { return p.TrimLater != "" }

func handWords(p *model.Part) string {
	switch p.Hand {
	case model.Pair:
		return "L + R"
	case model.LeftHand:
		return "L"
	case model.RightHand:
		return "R"
	}
	return "–"
}

// partNote says which side is the good one and what else to watch.
func partNote(plan *model.Plan, p *model.Part) string {
	var out []string
	if p.Face != "" {
		out = append(out, p.Face+" shows")
	}
	switch p.Need {
	case "clear":
		out = append(out, "clear")
	case "hidden":
		out = append(out, "knots allowed")
	}
	if p.Match {
		out = append(out, "match grain")
	}
	if p.AsBought {
		out = append(out, "as bought")
	}
	if fitted(p) {
		out = append(out, trimWords(plan, p))
	}
	if p.Note != "" {
		out = append(out, p.Note)
	}
	return upper(strings.Join(out, "; "))
}

// trimWords says when a part gets its length.
func trimWords(plan *model.Plan, p *model.Part) string {
	last := 0
	for _, s := range plan.Steps {
		if slices.Contains(s.Make, p) {
			last = s.Number
		}
	}
	if last > 0 { // the parts are made in steps: the last of them trims
		return "trim in step\u00a0" + digits(last)
	}
	for _, s := range plan.Steps {
		for _, i := range s.Add {
			if i >= 0 && i < len(plan.Placed) && plan.Placed[i].Part == p {
				return "fit at step\u00a0" + digits(s.Number)
			}
		}
	}
	return "cut to fit: " + p.TrimLater
}

// boardsOf lists the numbers of the boards a part is cut from, and says of which
// only an offcut.
func boardsOf(d *desk, p *model.Part) string {
	if d.in.Cuts == nil {
		return ""
	}
	var whole, rest []int
	for i, b := range d.in.Cuts.Boards {
		for _, piece := range b.Pieces {
			list := &whole
			if piece.Rest > 0 {
				list = &rest
			}
			if piece.Code == p.Code && !slices.Contains(*list, i+1) {
				*list = append(*list, i+1)
			}
		}
	}
	var out []string
	if len(whole) > 0 {
		out = append(out, shop.Numbers(whole))
	}
	if len(rest) > 0 {
		out = append(out, "offcut of\u00a0"+shop.Numbers(rest))
	}
	return strings.Join(out, ", ")
}

// cuts says how ends and edges are sawn; what is square and straight is not said.
func cuts(u expr.Unit, p *model.Part) string {
	var out []string
	if p.Free {
		out = append(out, "to template")
	}
	for i, e := range p.Ends {
		if e.Shape == "free" && p.Free {
			continue
		}
		if s := endCut(u, e); s != "" {
			out = append(out, orElse(p.Names.Ends[i], [2]string{"datum end", "far end"}[i])+" "+s)
		}
	}
	for i, e := range p.Edges {
		if e.Bevel != 0 {
			out = append(out, orElse(p.Names.Edges[i], "edge")+" edge beveled "+expr.Angle(abs(e.Bevel), 0.5))
		}
	}
	for _, t := range p.Tapers {
		edges := "taper"
		if t.Edge < 2 {
			edges = orElse(p.Names.Edges[t.Edge], "one") + " edge tapers"
		}
		out = append(out, edges+" "+u.Bare(t.FromWidth, expr.Coarse)+" to "+u.Bare(t.ToWidth, expr.Coarse))
	}
	for _, c := range p.Corners {
		if c.Radius > 0 {
			s := orElse(p.Names.Ends[c.End], "end") + " corner R\u00a0" + u.Bare(c.Radius, expr.Coarse)
			if !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	if len(out) == 0 {
		return "square"
	}
	return upper(strings.Join(out, "; "))
}

// endCut says how one end is sawn, or nothing for a square one.
func endCut(u expr.Unit, e model.EndCut) string {
	var out []string
	switch e.Shape {
	case "half round", "round":
		out = append(out, e.Shape+" R\u00a0"+u.Bare(e.Radius, expr.Coarse))
	case "free":
		out = append(out, "to template")
	}
	if e.Miter != 0 {
		out = append(out, miterWords(e.Miter))
	}
	if e.Bevel != 0 {
		out = append(out, "bevel "+expr.Angle(abs(e.Bevel), 0.5))
	}
	if e.Then != 0 {
		out = append(out, "then "+miterWords(e.Then)+" after a flat of "+u.Bare(e.Flat, expr.Coarse))
	}
	return strings.Join(out, ", ")
}

// steepest is what a miter saw or gauge can be set to: common practice.
const steepest = 50 * math.Pi / 180

// miterWords tells an angle off square, or against the edge where no saw can
// be set to it.
func miterWords(a float64) string {
	if abs(a) > steepest {
		return expr.Angle(math.Pi/2-abs(a), 0.5) + " to the edge"
	}
	return "miter " + expr.Angle(abs(a), 0.5)
}

func orElse(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

func abs(x float64) float64 { return max(x, -x) }
