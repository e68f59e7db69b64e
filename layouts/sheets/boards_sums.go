package sheets

import (
	"cmp"
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
// the sheet does not run on for them alone.
func (l *leaf) boardSums() *leaf {
	d := l.d
	others := alternativeWords(d)
	const heads, row, line = 61, 7, 6 // mm, of what stands in the long form
	if l.room() < heads+row*float64(len(d.in.Cuts.Stocks))+line*float64(len(others)) {
		return l.shortSums(others)
	}
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(4)
	l.under("What it adds up to")
	l = l.list(sumsTable(d))
	l.skip(4)
	groups := []struct {
		name  string
		texts []string
	}{
		{"Is it the least?", []string{leastWords(d)}},
		{"Setting the saw", settingWords(d)},
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

// shortSums is boardSums without a table.
func (l *leaf) shortSums(others []string) *leaf {
	d := l.d
	texts := []string{sumWords(d), leastWords(d)}
	texts = append(texts, settingWords(d)...)
	if len(others) > 0 {
		texts = append(texts, strings.Join(others, " "))
	}
	high := 3.0 // under the rule of the topic
	for _, text := range texts {
		high += pointHeight(text)
	}
	l = l.need(high)
	l.topic("In sum")
	l.points("–", texts)
	return l
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
	boards, amount, mass := 0, 0.0, 0.0
	for _, b := range d.in.Cuts.Buying {
		st := stockOf(d.plan, b.Stock)
		if st == nil {
			continue
		}
		boards += b.Quantity
		amount += lumberAmount(d, st, b)
		mass += woodMass(st.Species, b.Length*float64(b.Quantity)*st.Thick*st.Width)
	}
	unit := "board feet"
	if d.plan.Unit == expr.MM {
		unit = "running meters"
	}
	text := fmt.Sprintf("%d %s to buy, %.1f %s", boards, plural(boards, "board", "boards"), amount, unit)
	if mass > 0 {
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
	bought, weight, onHand, amounts := 0, 0.0, 0, 0.0
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
		bought, weight, onHand, amounts = bought+n, weight+mass, onHand+hand, amounts+feet
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(st.Name), cell(digits(n)), cell(countOrNone(hand)), cell(fmt.Sprintf("%.1f", feet)),
			cell(massOrNone(d.plan.Unit, mass)), cell(percent(r.Waste)), cell(money(cost)),
		}})
	}
	t.Rows = append(t.Rows, tables.Row{Keep: true, Cells: []tables.Cell{
		bold("Together"), bold(digits(bought)), cell(countOrNone(onHand)), bold(fmt.Sprintf("%.1f", amounts)),
		cell(massOrNone(d.plan.Unit, weight)), bold(percent(d.in.Cuts.Waste)), bold(money(d.in.Cuts.Cost)),
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
	switch {
	case c.Bound.Proved && priced:
		return fmt.Sprintf("No cheaper purchase exists: however these parts are cut from these lengths, edge to edge, the boards cost %s or more.", money(c.Cost))
	case c.Bound.Proved:
		return "No shorter purchase exists, however these parts are cut from these lengths, edge to edge."
	case priced:
		return fmt.Sprintf("No purchase can cost less than %s; this one costs %s, which is at most %.1f %% over the least.",
			money(c.Bound.Cost), money(c.Cost), 100*(c.Cost/c.Bound.Cost-1))
	}
	return "A shorter purchase may exist: the layouts are good, but not proved to be the least."
}

// A fence is a width that the rip fence is set to, with the parts it serves.
type fence struct {
	width float64
	codes []string
}

// settingWords list the fence settings, widest first, so that each is set once.
func settingWords(d *desk) []string {
	var fences []fence
	for _, b := range d.in.Cuts.Boards {
		for _, p := range b.Pieces {
			if p.Sawn < b.Width-sameEdge {
				fences = addFence(fences, p.Sawn, p.Code)
			}
		}
	}
	slices.SortStableFunc(fences, func(a, b fence) int { return cmp.Compare(b.width, a.width) })
	var out []string
	for _, f := range fences {
		slices.Sort(f.codes)
		out = append(out, fmt.Sprintf("fence at %s: %s", d.plan.Unit.LongTo(f.width, expr.Fine), strings.Join(f.codes, ", ")))
	}
	if len(out) == 0 {
		return nil
	}
	return []string{"Crosscut first, then set each width once and rip all its parts from every board: " + strings.Join(out, "; ") + ". Each has its clean-up."}
}

// sameEdge is how near two widths must be to count as one, mm.
const sameEdge = 0.05

func addFence(fences []fence, width float64, code string) []fence {
	at := slices.IndexFunc(fences, func(f fence) bool { return f.width > width-sameEdge && f.width < width+sameEdge })
	if at < 0 {
		return append(fences, fence{width, []string{code}})
	}
	if !slices.Contains(fences[at].codes, code) {
		fences[at].codes = append(fences[at].codes, code)
	}
	return fences
}

// mostAlternatives is how many lacking lengths are told of.
const mostAlternatives = 4

// alternativeWords say what to buy where the yard lacks a length.
func alternativeWords(d *desk) []string {
	var out []string
	for _, a := range d.in.Cuts.Alternatives {
		st := stockOf(d.plan, a.Stock)
		if st == nil || len(out) == mostAlternatives {
			continue
		}
		var buy []string
		for _, b := range a.Buying {
			buy = append(buy, fmt.Sprintf("%d × %s", b.Quantity, d.plan.Unit.BoardLength(b.Length)))
		}
		more := ""
		at := slices.IndexFunc(d.in.Cuts.Stocks, func(r cutting.Result) bool { return r.Stock == a.Stock })
		if at >= 0 && a.Cost > d.in.Cuts.Stocks[at].Cost+0.005 {
			more = fmt.Sprintf(", for %s more", money(a.Cost-d.in.Cuts.Stocks[at].Cost))
		}
		out = append(out, fmt.Sprintf("%s not in %s: buy %s%s.", st.Name, d.plan.Unit.BoardLength(a.Without), strings.Join(buy, " and "), more))
	}
	return out
}
