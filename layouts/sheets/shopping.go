package sheets

import (
	"fmt"
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/shop"
)

// shopping is the page to take along: wood, hardware, finish.
func shopping(d *desk, s sheet) {
	l := d.leaf(s, s.title, "Take this page to the yard; measure every board by its actual size.")
	if d.in.Cuts != nil && len(d.in.Cuts.Buying) > 0 {
		l.under("Wood")
		l = l.list(lumberTable(d))
		l.skip(5)
		l = l.woodNotes()
	}
	if len(d.plan.Hardware) > 0 {
		l.skip(6)
		l = l.need(44)
		l.under("Hardware")
		l = l.list(hardwareTable(d))
	}
	rows := finishRows(d)
	if len(rows) > 0 {
		l.skip(6)
		l = l.need(30)
		l.under("Finish and glue")
		l.list(&tables.Table{Narrow: true, Least: 7, Rows: rows, Columns: []tables.Column{
			{Title: "What", Share: 60}, {Title: "Buy", Share: 36}, {Title: "Reckoned from", Share: 60},
			{Title: "Price", Width: 16}, {Title: "Bought", Width: 13, Align: tables.Middle},
		}})
	}
}

// lumberTable has one row for each stock and length.
func lumberTable(d *desk) *tables.Table {
	amount := "Board feet"
	if d.plan.Unit == expr.MM {
		amount = "Running meters"
	}
	t := &tables.Table{Narrow: true, Least: 7, Columns: []tables.Column{
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

// woodNotes say how to choose the boards, what is spare and how wet they are.
func (l *leaf) woodNotes() *leaf {
	var notes []string
	spare := 0
	for _, b := range l.d.in.Cuts.Buying {
		spare += b.Spare
	}
	for _, st := range l.d.plan.Stocks {
		if st.Select != "" {
			notes = append(notes, sentence(st.Name+": "+st.Select))
		}
	}
	if clear := need(l.d.plan, "clear"); clear != "" {
		notes = append(notes, "Clear, straight wood for "+clear+inKnots(need(l.d.plan, "hidden")))
	}
	switch spare {
	case 0:
		notes = append(notes, "The count has no spare board; if the yard is far, buy one more.")
	case 1:
		notes = append(notes, "The count includes one spare board.")
	default:
		notes = append(notes, fmt.Sprintf("The count includes %d spare boards.", spare))
	}
	if brought := onHandWords(l.d); brought != "" {
		notes = append(notes, brought)
	}
	notes = append(notes, "Wood for outdoors is often sold wet. Stack it flat on sticks under a roof for one or two weeks; it shrinks before you cut it rather than after.")
	l = l.need(float64(len(notes)) * 9)
	l.topic("At the yard")
	l.points("–", notes)
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
	t := &tables.Table{Narrow: true, Least: 7, Gap: 3.6, Columns: []tables.Column{
		{Title: "Code", Width: 8}, {Title: "What", Share: 30}, {Title: "Size", Width: 9, Align: tables.Right},
		{Title: "Length", Width: 14, Align: tables.OnFraction}, {Title: "Material", Share: 42},
		{Title: "Plan", Width: 8, Align: tables.Right}, {Title: "Buy", Width: 8, Align: tables.Right}, {Title: "In steps", Share: 19, Apart: 2.4},
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
			cell(digits(h.Quantity)), bold(digits(h.Buy)), cell(shop.Numbers(shop.Uses(d.plan, h))), cell(""), tick(),
		}})
	}
	return t
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
			from = shop.Area(d.plan.Unit, f.Area) + " of wood"
		}
		if n := shop.FinishLitres(d.plan); n > 0 {
			buy = shop.Volume(d.plan.Unit, n)
			from += fmt.Sprintf(", %d coats", max(1, f.Coats))
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
	if glued > 0 {
		row("Waterproof wood glue", "a small bottle", fmt.Sprintf("%d glued places", glued))
	}
	if plugs > 0 {
		row("Wood plugs", digits(plugs), "one over each screw head")
	}
	return rows
}
