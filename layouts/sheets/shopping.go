package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/buying"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/shop"
)

// Measures of the shopping list, mm.
const (
	tickRow    = 6.5 // a row with a box to tick
	overTable  = 5.0 // over the caption of a table
	captionOf  = 7.2 // what a caption takes
	overTopics = 4.0
)

// finishCaption names what else is bought.
func finishCaption(d *desk) string {
	glued := slices.ContainsFunc(d.plan.Joints, func(j *model.Joint) bool { return j.Glue || j.Bond })
	if glued {
		return "Finish and glue"
	}
	return "Finish"
}

// shopping is the page to take along: wood, hardware, finish. It is one page
// where that can be: what to buy where a length is lacking then stands with the
// board layouts only, if there is no room for it here.
func shopping(d *desk, s sheet) {
	l := d.leaf(s, s.title, "Take this page to the yard; measure every board by its actual size.")
	var wood, goods []captioned
	if d.in.Cuts != nil && len(d.in.Cuts.Buying) > 0 {
		wood = append(wood, captioned{"Wood", lumberTable(d)})
	}
	if len(d.plan.Hardware) > 0 {
		goods = append(goods, captioned{"Hardware", hardwareTable(d)})
	}
	if rows := finishRows(d); len(rows) > 0 {
		goods = append(goods, captioned{finishCaption(d), finishTable(rows)})
	}
	if len(wood) > 0 {
		high := -overTable // none over the first
		for _, t := range slices.Concat(wood, goods) {
			high += overTable + captionOf + tableHeight(t.table)
		}
		l.under(wood[0].caption)
		l = l.list(wood[0].table)
		l.skip(overTopics)
		l = l.woodNotes(l.body.H() - high)
	}
	for _, t := range goods {
		l.skip(overTable)
		l = l.need(captionOf + min(tableHeight(t.table), 36))
		l.under(t.caption)
		l = l.list(t.table)
	}
}

// A captioned is a table with what stands over it.
type captioned struct {
	caption string
	table   *tables.Table
}

// tableHeight is how much a table takes, all of it, mm.
func tableHeight(t *tables.Table) float64 {
	laid, _ := tables.Lay(t, bodyW)
	return laid.Height(0, laid.Rows())
}

// finishTable sets the rows of the finish.
func finishTable(rows []tables.Row) *tables.Table {
	return &tables.Table{Narrow: true, Least: tickRow, Pad: 1.45, Rows: rows, Columns: []tables.Column{
		{Title: "What", Share: 46}, {Title: "Buy", Share: 40}, {Title: "Reckoned from", Share: 74},
		{Title: "Price", Width: 14}, {Title: "Bought", Width: 13, Align: tables.Middle},
	}}
}

// lumberTable has one row for each stock and length.
func lumberTable(d *desk) *tables.Table {
	amount := "Board feet"
	if d.plan.Unit == expr.MM {
		amount = "Running meters"
	}
	t := &tables.Table{Narrow: true, Least: tickRow, Pad: 1.45, Columns: []tables.Column{
		{Title: "Ask for", Share: 44}, {Title: "Actual size", Share: 30}, {Title: "Wood", Share: 34},
		{Title: "Length", Width: 13, Align: tables.Right}, {Title: "Plan", Width: 9, Align: tables.Right},
		{Title: "Buy", Width: 9, Align: tables.Right}, {Title: amount, Width: 16, Align: tables.OnFraction},
		{Title: "Price", Width: 14, Apart: 3}, {Title: "Bought", Width: 13, Align: tables.Middle},
	}}
	sum, boards := 0.0, 0
	for _, b := range d.in.Cuts.Buying {
		st := stockOf(d.plan, b.Stock)
		if st == nil {
			d.problem("the layouts buy %q, which is no stock of the plan", b.Stock)
			continue
		}
		n := lumberAmount(d, st, b)
		sum += n
		boards += b.Quantity
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(st.Name), cell(across(d.plan.Unit, st.Thick, st.Width)), cell(st.Species),
			cell(d.plan.Unit.BoardLength(b.Length)), cell(digits(b.Quantity - b.Spare)), bold(digits(b.Quantity)),
			cell(fmt.Sprintf("%.1f", n)), cell(""), tick(),
		}})
	}
	t.Rows = append(t.Rows, tables.Row{Keep: true, Cells: []tables.Cell{
		bold("Together"), cell(""), cell(""), cell(""), cell(""), bold(digits(boards)), bold(fmt.Sprintf("%.1f", sum)), cell(""), cell(""),
	}})
	return t
}

// lumberAmount returns board feet, or running meters for a metric reader.
func lumberAmount(d *desk, st *model.Stock, b cutting.Buy) float64 {
	if d.plan.Unit == expr.MM {
		return b.Length * float64(b.Quantity) / 1000
	}
	return shop.BoardFeet(st, b.Length) * float64(b.Quantity)
}

func stockOf(plan *model.Plan, key string) *model.Stock {
	i := slices.IndexFunc(plan.Stocks, func(s *model.Stock) bool { return s.Key == key })
	if i < 0 {
		return nil
	}
	return plan.Stocks[i]
}

// woodNotes say how to choose the boards, what is spare and how wet they are,
// in so many mm where possible.
func (l *leaf) woodNotes(room float64) *leaf {
	var notes []string
	spare := 0
	for _, b := range l.d.in.Cuts.Buying {
		spare += b.Spare
	}
	for _, st := range l.d.plan.Stocks {
		bought := slices.ContainsFunc(l.d.in.Cuts.Buying, func(b cutting.Buy) bool { return b.Stock == st.Key })
		if st.Select != "" && bought {
			notes = append(notes, sentence(st.Name+": "+st.Select))
		}
	}
	if clear := need(l.d.plan, "clear"); clear != "" {
		notes = append(notes, "Clear, straight wood for "+clear+inKnots(need(l.d.plan, "hidden")))
	}
	notes = append(notes, spareWords(l.d, spare))
	if brought := onHandWords(l.d); brought != "" {
		notes = append(notes, brought)
	}
	notes = append(notes, amountWords(l.d),
		"Wood for outdoors is often sold wet. Stack it flat on sticks under a roof for one or two weeks; it shrinks before you cut it rather than after.")
	others := alternativeWords(l.d, false)
	if high := pointsHeight(notes); len(others) > 0 && high+pointsHeight(others)+overTopics > room {
		others = []string{strings.Join(others, " ")}
		if high+pointsHeight(others)+overTopics > room {
			others = nil
			notes = append(notes, "Where the yard lacks a length, the board layouts say what to buy instead.")
		}
	}
	l = l.need(pointsHeight(notes) + pointsHeight(others) + overTopics)
	l.topic("At the yard")
	l.points("–", notes)
	if len(others) > 0 {
		l.skip(overTopics / 2)
		l.topic("If a length is lacking")
		l.points("–", others)
	}
	return l
}

// onHandWords name the boards on hand that the layouts use.
func onHandWords(d *desk) string {
	var names []string
	for _, b := range d.in.Cuts.Boards {
		if !b.OnHand {
			continue
		}
		name := b.Stock
		if st := stockOf(d.plan, b.Stock); st != nil {
			name = st.Name
		}
		if b.Name != "" {
			name += " “" + b.Name + "”"
		}
		names = append(names, name+", "+d.plan.Unit.LongTo(b.Length, expr.Coarse))
	}
	if len(names) == 0 {
		return ""
	}
	return "On hand and not in the count: " + strings.Join(names, "; ") + "."
}

// sentence ends a text of the maker's with a full stop.
func sentence(s string) string { return strings.TrimRight(s, ". ") + "." }

func inKnots(hidden string) string {
	if hidden == "" {
		return "."
	}
	return "; small knots are welcome in " + hidden + "."
}

// need lists the parts that ask for a kind of wood: "the back slats (F), the arms (J)".
func need(plan *model.Plan, kind string) string {
	var out []string
	for _, p := range plan.Parts {
		s := strings.ToLower(p.Name) + " (" + shop.FamilyCode(p) + ")"
		if p.Need == kind && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}

// hardwareTable has one row for each line of the hardware.
func hardwareTable(d *desk) *tables.Table {
	t := &tables.Table{Narrow: true, Least: tickRow, Pad: 1.45, Gap: 3.6, Columns: []tables.Column{
		{Title: "Code", Width: 8}, {Title: "What", Share: 30}, {Title: "Size", Width: 9, Align: tables.Right},
		{Title: "Length", Width: 14, Align: tables.OnFraction}, {Title: "Material", Share: 42},
		{Title: "Plan", Width: 8, Align: tables.Right}, {Title: "Buy", Width: 15, Align: tables.Right}, {Title: "In steps", Share: 19, Apart: 2.4},
		{Title: "Price", Width: 12}, {Title: "Bought", Width: 13, Align: tables.Middle},
	}}
	before := ""
	for _, h := range d.plan.Hardware {
		material := h.Material
		if h.Part && material == before {
			material = "the same"
		}
		before = h.Material
		length := ""
		if h.Length > 0 {
			length = d.plan.Unit.LongTo(h.Length, expr.Fine)
		}
		t.Rows = append(t.Rows, tables.Row{Keep: h.Part, Cells: []tables.Cell{
			bold(h.Code), cell(upper(h.Name)), cell(h.Size), cell(length), cell(material),
			cell(digits(h.Quantity)), bold(boxWords(h)), cell(shop.Numbers(shop.Uses(d.plan, h))), cell(""), tick(),
		}})
	}
	return t
}

// boxWords is how many to buy: boxes, or pieces where they are sold singly.
func boxWords(h *model.Hardware) string {
	if h.Box <= 1 {
		return digits(h.Buy)
	}
	return digits((h.Buy+h.Box-1)/h.Box) + " × " + digits(h.Box)
}

// finishRows are the finish, glue and plugs that the plan uses.
func finishRows(d *desk) []tables.Row {
	var rows []tables.Row
	row := func(what, buy, from string) {
		rows = append(rows, tables.Row{Cells: []tables.Cell{bold(what), cell(buy), cell(from), cell(""), tick()}})
	}
	f := d.plan.Finish
	if f.Name != "" {
		buy, from := "see its label", ""
		if f.Area > 0 {
			from = shop.Area(d.plan.Unit, f.Area)
		}
		if n := shop.FinishLitres(d.plan); n > 0 {
			buy = buying.FinishToBuy(d.plan, n)
			from += fmt.Sprintf(", %d %s at %s", max(1, f.Coats), plural(max(1, f.Coats), "coat", "coats"), spreadWords(d.plan))
		}
		row(upper(f.Name), buy, from)
	}
	glued, plugs := 0, 0
	for _, j := range d.plan.Joints {
		if j.Glue || j.Bond {
			glued += max(1, j.Places)
		}
		if j.Plug {
			plugs += j.Each * j.Places
		}
	}
	if words, area := buying.GlueToBuy(d.plan); words != "" {
		from := fmt.Sprintf("%d glued %s", glued, plural(glued, "place", "places"))
		if area > 0 {
			from += ", " + faceArea(d.plan.Unit, area) + " in all"
		}
		row("Wood glue, Type I or D4", words, from)
	}
	if plugs > 0 {
		row("Wood plugs", digits(plugs), "one over each screw head")
	}
	return rows
}

// spreadWords says how far the finish goes: "290 sq ft a gallon".
func spreadWords(p *model.Plan) string {
	const perGallon = 3.785411784 / 0.09290304 // square feet to the US gallon for each m² to the litre, exact by definition
	if p.Unit == expr.MM {
		return fmt.Sprintf("%g m² a liter", p.Finish.Cover)
	}
	return fmt.Sprintf("%.0f sq ft a gallon", math.Round(p.Finish.Cover*perGallon/5)*5)
}

// faceArea writes a small area for the reader: "7 sq in" or "45 cm²".
func faceArea(u expr.Unit, mm2 float64) string {
	if u == expr.MM {
		return fmt.Sprintf("%.0f cm²", math.Ceil(mm2/100))
	}
	return fmt.Sprintf("%.0f sq in", math.Ceil(mm2/(25.4*25.4)))
}
