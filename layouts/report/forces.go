package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/strength"
)

// little is the share of what it may carry under which a board or a joint is
// only named.
const little = 0.15

// forces are the tables of loads, joints, balance and movement.
func (r *book) forces(l *leaf, g sizes) *leaf {
	if slices.ContainsFunc(g, func(s Section) bool { return s.Forces == nil }) {
		return l
	}
	l = r.leaf(g, "Forces and balance", "Trial loads of the author's own, on clear wood of the species named. They find weak places; they rate nothing.")
	r.mark("Forces and balance", 1)
	if f := g[0].Forces; f.Skipped != "" {
		l.para(0, l.width(), "Boards and joints are left out: "+f.Skipped+".", plain)
		l.y -= 4
	}
	l = r.balance(l, g)
	if t, rest := g.boardTable(); len(t.Rows) > 0 {
		l = l.head("Bending of boards", 40)
		l = l.table(t)
		l.rest("A board that is asked to be clear may come to 150 %, as loads of minutes go. Under 15 %", rest)
	}
	if t, rest := g.jointTable(); len(t.Rows) > 0 {
		l = l.head("The most loaded fastener of each joint", 40)
		l = l.table(t)
		l.rest("Under 15 %", rest)
	}
	if t := g.gapTable(); len(t.Rows) > 0 {
		l = l.head("Gaps after a damp season", 22)
		l = l.table(t)
	}
	return l
}

// rest names what is left out of a table.
func (l *leaf) rest(why string, names []string) {
	if len(names) == 0 {
		return
	}
	l.y += 2
	l.para(0, l.width(), why+": "+strings.Join(names, ", ")+".", small)
	l.y -= 2
}

// balance sets what tips the piece over beside a picture in which its hardest
// worked boards are toned.
func (r *book) balance(l *leaf, g sizes) *leaf {
	t := g.tipTable()
	if len(t.Rows) == 0 {
		return l
	}
	l = l.head("What tips it over", pictureH+8)
	codes := hardest(g[0].Forces.Boards)
	if len(codes) == 0 {
		return l.table(t)
	}
	top := l.y
	box := geom.Box{Min: geom.Pt{X: side, Y: top - pictureH}, Max: geom.Pt{X: side + pictureW, Y: top}}
	l.add(newAlbum(g.plan()).picture(codes, box, l.accent())...)
	words := l.paraAt(geom.Pt{X: side, Y: box.Min.Y - 1}, pictureW, "Toned: the hardest worked boards.", small) + 1
	t.Accent = l.accent()
	laid, _ := tables.Lay(t, l.width()-pictureW-gutter)
	items, high := laid.Draw(geom.Pt{X: side + pictureW + gutter, Y: top}, 0, laid.Rows())
	l.add(items...)
	l.y = top - math.Max(pictureH+words, high) - 3
	return l
}

// hardest are the letters of the three boards that work hardest, when any works.
func hardest(list []strength.Board) []string {
	boards := slices.Clone(list)
	slices.SortStableFunc(boards, func(a, b strength.Board) int { return cmp.Compare(b.Used, a.Used) })
	var codes []string
	for _, b := range boards[:min(3, len(boards))] {
		if b.Used >= little {
			codes = append(codes, b.Part.Code)
		}
	}
	return codes
}

func (g sizes) tipTable() *tables.Table {
	out := list(tables.Column{Title: "Way", Width: 15}, tables.Column{Title: "Loads", Share: 8})
	out.Columns = append(out.Columns, g.columns("Holding over tipping", tipWide(g))...)
	out.Columns = append(out.Columns, g.columns("Empty, falls at", tipWide(g))...)
	out.Columns = append(out.Columns, tables.Column{Title: "Loads from", Width: 18, Apart: 1})
	for k, t := range g[0].Forces.Tips {
		of := func(i int, read func(strength.Tip) string) string {
			if k >= len(g[i].Forces.Tips) {
				return dash
			}
			return read(g[i].Forces.Tips[k])
		}
		from := "second hand"
		if t.Memory {
			from = "memory"
		}
		cells := []tables.Cell{cell(t.Way), cell(t.What)}
		cells = append(cells, g.cells(func(i int) string { return of(i, marginOf) })...)
		cells = append(cells, g.cells(func(i int) string {
			return of(i, func(t strength.Tip) string { return fmt.Sprintf("%.0f°", t.Slope*180/math.Pi) })
		})...)
		out.Rows = append(out.Rows, tables.Row{Cells: append(cells, cell(from))})
	}
	return out
}

// tipWide is how wide a column of the balance is, mm.
func tipWide(g sizes) float64 {
	if len(g) == 1 {
		return 20
	}
	return 14
}

func marginOf(t strength.Tip) string {
	if math.IsInf(t.Margin, 0) {
		return "nothing tips"
	}
	return fmt.Sprintf("%.2f", t.Margin)
}

// boardOf is what a size says of the part with a letter.
func (s Section) boardOf(code string) (strength.Board, bool) {
	i := slices.IndexFunc(s.Forces.Boards, func(b strength.Board) bool { return b.Part.Code == code })
	if i < 0 {
		return strength.Board{}, false
	}
	return s.Forces.Boards[i], true
}

// boardTable has the boards that work at 15 % of a third and more, and
// names the others.
func (g sizes) boardTable() (out *tables.Table, rest []string) {
	u := g.plan().Unit
	out = list(tables.Column{Title: "Part", Width: 11}, tables.Column{Title: "Name", Share: 4}, tables.Column{Title: "Worst load", Share: 6})
	out.Columns = append(out.Columns, g.columns("Stress, MPa", 14)...)
	out.Columns = append(out.Columns, tables.Column{Title: "Breaks at, MPa", Width: 15, Align: tables.Right})
	out.Columns = append(out.Columns, g.columns("Of a third of it", 14)...)
	out.Columns = append(out.Columns, g.columns("Sag", 14)...)
	for _, p := range g.parts() {
		var boards []strength.Board
		var cases []string
		most, mor := 0.0, 0.0
		for _, s := range g {
			b, _ := s.boardOf(p.Code)
			boards, cases = append(boards, b), append(cases, b.Case)
			most, mor = math.Max(most, b.Used), math.Max(mor, b.MOR)
		}
		switch {
		case mor == 0:
			continue
		case most < little:
			rest = append(rest, p.Name+" "+p.Code)
			continue
		}
		cells := []tables.Cell{tabs(p), cell(p.Name), cell(said(cases))}
		cells = append(cells, g.cells(func(i int) string { return fmt.Sprintf("%.1f", boards[i].Stress) })...)
		cells = append(cells, cell(fmt.Sprintf("%.0f", mor)))
		cells = append(cells, g.cells(func(i int) string { return percent(boards[i].Used) })...)
		out.Rows = append(out.Rows, tables.Row{Cells: append(cells, g.cells(func(i int) string { return u.LongTo(boards[i].Sag, expr.Drill) })...)})
	}
	return out, rest
}

// parts are those of all sizes, each letter once.
func (g sizes) parts() []*model.Part {
	var out []*model.Part
	for _, s := range g {
		for _, p := range s.Plan.Parts {
			if !slices.ContainsFunc(out, func(q *model.Part) bool { return q.Code == p.Code }) {
				out = append(out, p)
			}
		}
	}
	return out
}

// jointOf is what a size says of the joint with a key.
func (s Section) jointOf(key string) strength.Joint {
	i := slices.IndexFunc(s.Forces.Joints, func(j strength.Joint) bool { return j.Joint.Key == key })
	if i < 0 {
		return strength.Joint{}
	}
	return s.Forces.Joints[i]
}

func (g sizes) jointTable() (out *tables.Table, rest []string) {
	out = list(tables.Column{Title: "Joint", Share: 6}, tables.Column{Title: "Worst load", Share: 5})
	out.Columns = append(out.Columns, g.columns("Across, N", 13)...)
	out.Columns = append(out.Columns, tables.Column{Title: "of", Width: 9, Align: tables.Right})
	out.Columns = append(out.Columns, g.columns("Along, N", 13)...)
	out.Columns = append(out.Columns, tables.Column{Title: "of", Width: 9, Align: tables.Right}, tables.Column{Title: "Mode", Width: 10, Apart: 1})
	out.Columns = append(out.Columns, g.columns("Used", 13)...)
	for _, j := range g[0].Forces.Joints {
		var in []strength.Joint
		var cases []string
		most := 0.0
		for _, s := range g {
			k := s.jointOf(j.Joint.Key)
			in, cases, most = append(in, k), append(cases, k.Case), math.Max(most, k.Used)
		}
		name := j.Joint.Name
		if j.EndGrain {
			name += ", in end grain"
		}
		if most < little {
			rest = append(rest, name)
			continue
		}
		along := "nut"
		if j.W > 0 {
			along = fmt.Sprintf("%.0f", j.W)
		}
		newtons := func(read func(strength.Joint) float64) []tables.Cell {
			return g.cells(func(i int) string { return fmt.Sprintf("%.0f", read(in[i])) })
		}
		cells := append([]tables.Cell{cell(name), cell(said(cases))}, newtons(func(j strength.Joint) float64 { return j.Shear })...)
		cells = append(append(cells, cell(fmt.Sprintf("%.0f", j.Z))), newtons(func(j strength.Joint) float64 { return j.Pull })...)
		cells = append(cells, cell(along), cell(j.Mode))
		out.Rows = append(out.Rows, tables.Row{Cells: append(cells, g.cells(func(i int) string { return percent(in[i].Used) })...)})
	}
	return out, rest
}

// gapTable has the gaps between neighbors; pairs with the same gap share a row.
func (g sizes) gapTable() *tables.Table {
	u := g.plan().Unit
	out := list(tables.Column{Title: "Between", Share: 4})
	out.Columns = append(out.Columns, g.columns("As made", 22)...)
	out.Columns = append(out.Columns, g.columns("Left when damp", 22)...)
	for _, gap := range g[0].Forces.Gaps {
		in := make([]*strength.Gap, len(g))
		for i, s := range g {
			for k := range s.Forces.Gaps {
				if slices.Equal(s.Forces.Gaps[k].Parts, gap.Parts) {
					in[i] = &s.Forces.Gaps[k]
				}
			}
		}
		read := func(of func(*strength.Gap) float64) []tables.Cell {
			return g.cells(func(i int) string {
				if in[i] == nil {
					return dash
				}
				return u.LongTo(of(in[i]), expr.Drill)
			})
		}
		cells := append(read(func(g *strength.Gap) float64 { return g.Made }), read(func(g *strength.Gap) float64 { return g.Left })...)
		between := strings.Join(gap.Parts, " and ")
		if n := len(out.Rows); n > 0 && slices.EqualFunc(out.Rows[n-1].Cells[1:], cells, func(a, b tables.Cell) bool { return a.Text == b.Text }) {
			out.Rows[n-1].Cells[0].Text += ", " + between
			continue
		}
		out.Rows = append(out.Rows, tables.Row{Cells: append([]tables.Cell{cell(between)}, cells...)})
	}
	return out
}

func percent(x float64) string {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return dash
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}
