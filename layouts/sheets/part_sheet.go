package sheets

import (
	"math"
	"strconv"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A block is a finished piece of a page that can be put where there is room:
// its upper left corner is the origin.
type block struct {
	items  []render.Item
	height float64
}

// partName is the style of a part's name over its drawing.
var partName = lettering.Style{Face: fonts.CondBold, Size: 17}

// partGap is the least room between two drawings, mm.
const partGap = 5.0

// namePart lets other sheets refer to the drawing of a part.
func (d *desk) namePart(set []*model.Part) {
	for _, p := range set {
		d.name("part " + p.Code)
	}
	if f := set[0].Family; f != "" {
		d.name("part " + f)
	}
	d.mark(familyOr(set[0])+", "+set[0].Name, 1)
}

// put sets a block at the top of what is free.
func (l *leaf) put(b block) {
	l.add(Moved(b.items, geom.Pt{X: l.left(), Y: l.y})...)
	l.skip(b.height)
}

// families returns the parts in order, members of one family together.
func families(plan *model.Plan) [][]*model.Part {
	var sets [][]*model.Part
	at := map[string]int{}
	for _, p := range plan.Parts {
		if i, ok := at[p.Family]; ok && p.Family != "" {
			sets[i] = append(sets[i], p)
			continue
		}
		if p.Family != "" {
			at[p.Family] = len(sets)
		}
		sets = append(sets, []*model.Part{p})
	}
	return sets
}

func toleranceWords(u expr.Unit) string {
	return "Work to " + tolerance(u) + " unless a size is marked."
}

// under puts one block under another.
func under(top, low block) block {
	return block{append(top.items, Moved(low.items, pt(0, -top.height))...), top.height + low.height}
}

// partHeading heads the drawing of a part, or of a family. It names pages, so
// it is made anew in every pass.
func (d *desk) partHeading(set []*model.Part) block {
	b := d.partPage(set)
	b.heading()
	return block{b.items, -b.y}
}

// partPage begins the drawing of one part, or of a family by its first member.
func (d *desk) partPage(set []*model.Part) *partPage {
	return &partPage{d: d, set: set, p: set[0], room: bodyW}
}

// partBody draws one part, or a family by its first member. Low asks for the
// lowest way to lay it out: what stands under the face view goes beside it. A low
// drawing in which something finds no place is none, and is as high as can be.
func (d *desk) partBody(set []*model.Part, low bool) block {
	b := d.partPage(set)
	b.low = low
	if !low || !b.besideFace() {
		b.face()
		b.smallViews()
	}
	b.table()
	b.notes()
	if low && len(d.problems) > 0 {
		d.problems = nil
		return block{height: math.Inf(1)}
	}
	return block{b.items, -b.y}
}

// A partPage is one part's block being made; y runs down from 0.
type partPage struct {
	d     *desk
	set   []*model.Part
	p     *model.Part
	y     float64
	room  float64 // how wide the face view and its sizes may be
	low   bool    // as low as can be
	items []render.Item
	view  *plate
	seen  []render.Path // lines of the face view
	other int           // which hole of a group its note points at
	side  *leafBox      // room for notes beside the small views
}

// leafBox is room for text beside something.
type leafBox struct{ x, top, width float64 }

func (b *partPage) add(items ...render.Item) { b.items = append(b.items, items...) }

func (b *partPage) line(x, y float64, s string, st lettering.Style, a render.Align) {
	b.add(lettering.Line(pt(x, y), s, st, a)...)
}

func (b *partPage) unit() expr.Unit { return b.d.plan.Unit }

// heading is the tab, the name, how many, and the line of sizes.
func (b *partPage) heading() {
	const high = 8.0
	p, x := b.p, 0.0
	codes := []string{p.Code}
	if p.Family != "" {
		codes = []string{p.Family}
	}
	for _, c := range codes {
		items, w := lettering.Tab(pt(x, -high), c, "", high, b.d.accent)
		b.add(items...)
		x += w + 2.5
	}
	base := -high/2 - lettering.Cap(partName)/2
	big := lettering.Style{Face: fonts.SansBold, Size: render.Measure}
	b.y = base
	right := bodyW - b.thumbnails()
	b.line(right, base, b.makeWords(), big, toRight)
	name, st := squeezed(p.Name, right-lettering.Width(b.makeWords(), big)-x-5, partName)
	b.line(x+1, base, name, st, toLeft)
	b.y = -high - 5.8
	b.line(0, b.y, b.sizeWords(), big, toLeft)
	w := lettering.Width(b.sizeWords(), big)
	b.line(w+5, b.y, lettering.Shorten(b.stockWords(), bodyW-w-5, plain), plain, toLeft)
	if n := b.d.page("template " + p.Code); n > 0 {
		b.add(render.Link{Box: geom.Box{Min: pt(w+5, b.y-1.5), Max: pt(bodyW, b.y+4)}, Page: n - 1})
	}
	b.y -= 2
}

// squeezed sets a heading smaller when it is too long for its room, and shortens
// it only when the smallest size does not do.
func squeezed(s string, width float64, st lettering.Style) (string, lettering.Style) {
	for st.Size > render.Step && lettering.Width(s, st) > width {
		st.Size--
	}
	return lettering.Shorten(s, width, st), st
}

// makeWords says how many, and of which hand.
func (b *partPage) makeWords() string {
	n := 0
	for _, p := range b.set {
		n += p.Quantity
	}
	s := "make " + strconv.Itoa(n)
	if b.p.Hand == model.Pair {
		s += ": " + count(n/2) + " right, " + count(n/2) + " left"
	}
	return s
}

// count writes small numbers as words.
func count(n int) string {
	if n > 0 && n < 10 {
		return [...]string{"", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}[n]
	}
	return strconv.Itoa(n)
}

// sizeWords is thickness by width by length, the length of a family in its table.
func (b *partPage) sizeWords() string {
	u, p := b.unit(), b.p
	long := u.Length(p.Length, expr.Coarse)
	if len(b.set) > 1 {
		long = "L"
	}
	return u.Length(p.Thick, expr.Coarse) + " × " + u.Length(p.Width, expr.Coarse) + " × " + long
}

// stockWords says what it is cut from and where its template is.
func (b *partPage) stockWords() string {
	p := b.p
	var out []string
	if p.Stock != nil {
		s := "from " + strings.ReplaceAll(p.Stock.Name, "/", "⁄")
		if p.AsBought {
			s += " at its full width"
		}
		out = append(out, s)
	}
	switch p.Need {
	case "clear":
		out = append(out, "clear wood")
	case "hidden":
		out = append(out, "knots are fine, it is hidden")
	}
	if p.Face != "" {
		out = append(out, "good side: "+p.Face)
	}
	if n := b.d.onTemplate(p.Code); n != "" {
		out = append(out, "template "+n)
	}
	return strings.Join(out, "  ·  ")
}

// table lists the members of a family.
func (b *partPage) table() {
	if len(b.set) < 2 {
		return
	}
	u := b.unit()
	t := &tables.Table{Accent: b.d.accent, Columns: []tables.Column{
		{Title: "Part", Width: 16}, {Title: "Make", Width: 14, Align: tables.Right}, {Title: "Rough length", Share: 1, Align: tables.OnFraction},
		{Title: "L, finished length", Share: 1.2, Align: tables.OnFraction},
	}}
	letters := b.view.letters
	for _, c := range letters {
		t.Columns = append(t.Columns, tables.Column{Title: c.letter, Share: 0.7, Align: tables.OnFraction})
	}
	for i, p := range b.set {
		row := tables.Row{Cells: []tables.Cell{
			{Tabs: []tables.Tab{{Code: p.Code}}}, cell(strconv.Itoa(p.Quantity)), cell(u.Length(p.RoughLength, expr.Coarse)), bold(u.Length(p.Length, expr.Coarse)),
		}}
		for _, c := range letters {
			row.Cells = append(row.Cells, cell(c.values[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	laid, faults := tables.Lay(t, min(bodyW, 96+22*float64(len(letters))))
	b.d.problems = append(b.d.problems, faults...)
	items, h := laid.Draw(pt(0, b.y), 0, laid.Rows())
	b.add(items...)
	b.y -= h + 3
}
