package sheets

import (
	"fmt"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/model/wood"
	"planset/render"
)

// boardSums closes the layouts: what the boards add up to, whether a cheaper
// purchase exists, how to set the saw, and what to do when a length is lacking.
// Where the page has no room for the table the sums are told in words, so that
// the sheet does not run on for them alone; where there is none for the words
// either, a page of their own has everything.
func (l *leaf) boardSums() *leaf {
	d := l.d
	sets := setupTables(d)
	work, others := workWords(d), alternativeWords(d, true)
	const heads, row, rule = 42.0, 7.0, 6.0 // mm, of what stands in the long form
	long := heads + row*float64(len(d.in.Cuts.Stocks)) + sets.height
	for _, texts := range [][]string{{leastWords(d)}, work, others} {
		long += pointsHeight(texts) + rule
	}
	for _, short := range shortWords(d, work) {
		if room := l.room(); room < long && room >= sets.height+pointsHeight(short)+rule {
			l = l.setups(sets)
			l.topic("In sum")
			l.points("–", short)
			return l
		}
	}
	l = l.need(long)
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(4)
	l.under("What it adds up to")
	l = l.list(sumsTable(d))
	l.skip(4)
	l = l.setups(sets)
	groups := []struct {
		name  string
		texts []string
	}{
		{"How to saw them", work},
		{"Is it the least?", []string{leastWords(d)}},
		{"If a length is lacking", others},
	}
	for _, g := range groups {
		if len(g.texts) == 0 {
			continue
		}
		l.topic(g.name)
		l.points("–", g.texts)
		l.skip(2)
	}
	return l
}

// shortWords are the sums without a table, the fullest first: with and without
// how to cut what is bought where a length is lacking.
func shortWords(d *desk, work []string) [][]string {
	brief := slices.Concat([]string{sumWords(d), leastWords(d)}, work)
	var out [][]string
	for _, layouts := range []bool{true, false} {
		others := alternativeWords(d, layouts)
		if len(others) == 0 {
			return [][]string{brief}
		}
		out = append(out, slices.Concat(brief, others), slices.Concat(brief, []string{strings.Join(others, " ")}))
	}
	return out
}

// workWords tell what the layouts ask for besides plain cuts.
func workWords(d *desk) []string {
	texts := []string{pairWords(d), restWords(d)}
	return slices.DeleteFunc(texts, func(s string) bool { return s == "" })
}

// pointsHeight is how far down the points of a list go, mm; none take nothing.
func pointsHeight(texts []string) float64 {
	if len(texts) == 0 {
		return 0
	}
	high := 3.0 // under the rule of the topic
	for _, text := range texts {
		high += pointHeight(text)
	}
	return high
}

// pointHeight is how far down a point of a list goes, mm.
func pointHeight(text string) float64 {
	width, s := textW-6, fractions(text)
	for tooLong(lettering.Wrap(s, width, plain)) {
		width -= 2
	}
	_, h := lettering.Paragraph(geom.Pt{}, s, width, plain)
	return h + 1.6
}

// sumWords are the last line of the table in words.
func sumWords(d *desk) string {
	boards, amount := 0, 0.0
	for _, b := range d.in.Cuts.Buying {
		st := stockOf(d.plan, b.Stock)
		if st == nil {
			continue
		}
		boards += b.Quantity
		amount += lumberAmount(d, st, b)
	}
	unit := "board feet"
	if d.plan.Unit == expr.MM {
		unit = "running meters"
	}
	text := fmt.Sprintf("%d %s to buy, %.1f %s", boards, plural(boards, "board", "boards"), amount, unit)
	if mass := boughtMass(d); mass > 0 {
		text += ", about " + shop.Mass(d.plan.Unit, mass) + " when dry"
	}
	if d.in.Cuts.Cost > 0 {
		text += ", for " + money(d.in.Cuts.Cost)
	}
	return text + "; " + percent(d.in.Cuts.Waste) + " of the wood is waste once the named offcuts are kept."
}

// sumsTable has a row for each stock: boards, length, wood, waste, weight, cost.
func sumsTable(d *desk) *tables.Table {
	amount := "Board feet"
	if d.plan.Unit == expr.MM {
		amount = "Running meters"
	}
	t := &tables.Table{Narrow: true, Least: 7, Columns: []tables.Column{
		{Title: "Stock", Share: 50}, {Title: "Boards", Width: 13, Align: tables.Right}, {Title: "On hand", Width: 14, Align: tables.Right},
		{Title: amount, Width: 24, Align: tables.OnFraction}, {Title: "Weight, dry", Width: 20, Align: tables.Right},
		{Title: "Waste", Width: 16, Align: tables.Right}, {Title: "Cost", Width: 20, Align: tables.OnFraction},
	}}
	bought, onHand, amounts := 0, 0, 0.0
	for _, r := range d.in.Cuts.Stocks {
		st := stockOf(d.plan, r.Stock)
		if st == nil {
			continue
		}
		n, hand, feet, mass, cost := 0, 0, 0.0, 0.0, 0.0
		for _, b := range d.in.Cuts.Buying {
			if b.Stock == r.Stock {
				n += b.Quantity
				feet += lumberAmount(d, st, b)
				mass += woodMass(st.Species, b.Length*float64(b.Quantity)*st.Thick*st.Width)
				cost += b.Cost
			}
		}
		for _, b := range d.in.Cuts.Boards {
			if b.Stock == r.Stock && b.OnHand {
				hand++
			}
		}
		bought, onHand, amounts = bought+n, onHand+hand, amounts+feet
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(st.Name), cell(digits(n)), cell(countOrNone(hand)), cell(fmt.Sprintf("%.1f", feet)),
			cell(massOrNone(d.plan.Unit, mass)), cell(percent(r.Waste)), cell(money(cost)),
		}})
	}
	t.Rows = append(t.Rows, tables.Row{Keep: true, Cells: []tables.Cell{
		bold("Together"), bold(digits(bought)), cell(countOrNone(onHand)), bold(fmt.Sprintf("%.1f", amounts)),
		cell(massOrNone(d.plan.Unit, boughtMass(d))), bold(percent(d.in.Cuts.Waste)), bold(money(d.in.Cuts.Cost)),
	}})
	return t
}

// dryMC is the moisture content in percent that wood is weighed at.
const dryMC = 12

// woodMass is the mass in kg of a volume in cubic mm, 0 for an unknown wood.
func woodMass(species string, volume float64) float64 {
	w, ok := wood.Species(species)
	if !ok {
		return 0
	}
	return w.Mass(volume, dryMC)
}

// boughtMass is what all the boards to buy weigh dry, kg; 0 where a wood is not
// known.
func boughtMass(d *desk) float64 {
	sum := 0.0
	for _, b := range d.in.Cuts.Buying {
		st := stockOf(d.plan, b.Stock)
		if st == nil {
			continue
		}
		mass := woodMass(st.Species, b.Length*float64(b.Quantity)*st.Thick*st.Width)
		if mass == 0 {
			return 0
		}
		sum += mass
	}
	return sum
}

func massOrNone(u expr.Unit, kg float64) string {
	if kg == 0 {
		return "–"
	}
	return shop.Mass(u, kg)
}

func countOrNone(n int) string {
	if n == 0 {
		return "–"
	}
	return digits(n)
}

// money writes a sum at the plan's prices; it names no currency.
func money(x float64) string {
	if x == 0 {
		return "–"
	}
	return fmt.Sprintf("%.2f", x)
}

// leastWords say whether a cheaper purchase exists, or how far the plan may be
// from the least.
func leastWords(d *desk) string {
	c := d.in.Cuts
	priced := !slices.ContainsFunc(c.Stocks, func(r cutting.Result) bool { return !r.Priced })
	way := "edge to edge"
	if slices.ContainsFunc(c.Boards, func(b cutting.Board) bool { return len(b.Blanks) > 0 }) {
		way += " and in pairs"
	}
	switch {
	case c.Bound.Proved && priced:
		return fmt.Sprintf("No cheaper purchase exists: however these parts are cut from these lengths, %s, the boards cost %s or more.", way, money(c.Cost))
	case c.Bound.Proved:
		return "No shorter purchase exists, however these parts are cut from these lengths, " + way + "."
	case priced:
		return fmt.Sprintf("No purchase can cost less than %s; this one costs %s, which is at most %.1f %% over the least.",
			money(c.Bound.Cost), money(c.Cost), 100*(c.Cost/c.Bound.Cost-1))
	}
	return "A shorter purchase may exist: the layouts are good, but not proved to be the least."
}

// sameEdge is how near two places on a board must be to count as one, mm.
const sameEdge = 0.05
