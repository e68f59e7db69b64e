package sheets

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/layouts/sight"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
)

// explodedSheets are only the exploded views.
func explodedSheets() []sheet {
	for _, s := range order() {
		if s.key == "exploded" {
			return []sheet{s}
		}
	}
	return nil
}

// TestExplodedLook writes the exploded views where EXPL says, for the eye.
func TestExplodedLook(t *testing.T) {
	dir := os.Getenv("EXPL")
	if dir == "" {
		t.Skip("set EXPL to a folder to see the pages")
	}
	for _, e := range editionsOfRange {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			book, problems := compose(drawnPiece(t, e[0], e[1], unit), explodedSheets())
			for _, s := range problems {
				t.Log(e, unit, s)
			}
			var out bytes.Buffer
			require.NoError(t, pdf.Write(&out, book))
			require.NoError(t, os.WriteFile(dir+"/"+e[0]+e[1]+unit.String()+".pdf", out.Bytes(), 0o600))
		}
	}
}

// editionsOfRange are the examples with their sizes.
var editionsOfRange = [...][2]string{{"chair", ""}, {"chair", "tall"}, {"footstool", ""}, {"side-table", ""}}

// An explodedPicture is one picture of a book with the box it is drawn into.
type explodedPicture struct {
	name string
	view stageView
	box  geom.Box
	desk *desk
}

// eachExploded calls see with the exploded pictures of every example, size and
// unit, in boxes like those of the pages.
func eachExploded(t *testing.T, see func(t *testing.T, p explodedPicture)) {
	t.Helper()
	for _, e := range editionsOfRange {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			d := newDesk(drawnPiece(t, e[0], e[1], unit), nil)
			name := strings.Join([]string{e[0], e[1], unit.String()}, " ")
			all := everyPiece(d)
			legend := setLegend(d.legend(all), bodyW-45)
			box := geom.Box{Min: pt(15, 25+legend.height()), Max: pt(15+bodyW, 248)}
			see(t, explodedPicture{name + " whole", stageView{"whole", all, heroView, 0}, box, d})
			half := geom.Box{Min: pt(15, 70), Max: pt(151, 178)}
			for _, st := range d.plan.Stages {
				if v := d.stageView(st); len(v.pieces) > 1 && len(v.pieces) < len(all) {
					see(t, explodedPicture{name + " " + st.Key, v, half, d})
				}
			}
		}
	}
}

func everyPiece(d *desk) []int {
	var all []int
	for i := range d.plan.Placed {
		all = append(all, i)
	}
	return all
}

// leadersOf finds the leaders of balloons: from the dot to the tab.
func leadersOf(items []render.Item) (out [][2]geom.Pt) {
	each(items, func(item render.Item) {
		if g, ok := item.(render.Group); ok && g.Name == "balloon" {
			s := g.Items[0].(render.Stroke).Paths[0].Segs[0]
			out = append(out, [2]geom.Pt{s.A, s.B})
		}
	})
	return out
}

// frontAt is the face that is seen at p, exactly.
func frontAt(faces []dims.Face, p geom.Pt) *dims.Face {
	for i := len(faces) - 1; i >= 0; i-- {
		if sight.Has([][]geom.Pt{faces[i].Loop}, p) {
			return &faces[i]
		}
	}
	return nil
}

// The leaders of exploded views end on the part they name, run over no other,
// cross no other leader, and go at 30 to 75 degrees to the level; every balloon
// has its place and covers nothing of the picture.
func TestExplodedLeaders(t *testing.T) {
	eachExploded(t, func(t *testing.T, p explodedPicture) {
		e, items, problems := p.desk.setApart(p.view, p.box)
		assert.Empty(t, problems, p.name)
		leaders := leadersOf(items)
		require.Len(t, leaders, len(e.balloons), p.name)
		for i, l := range leaders {
			b := e.balloons[i].(dims.Balloon)
			name := p.name + ": " + b.Code + b.Hand
			at := frontAt(e.field.Faces, l[0])
			if assert.NotNil(t, at, "%s ends on nothing", name) {
				assert.Equal(t, b.Code+b.Hand, at.Code+at.Hand, "%s ends on it", name)
			}
			v := l[1].Sub(l[0])
			deg := math.Atan2(math.Abs(v.Y), math.Abs(v.X)) * 180 / math.Pi
			assert.True(t, deg > 29.9 && deg < 75.1, "%s at %.1f degrees", name, deg)
			over, n := 0.0, int(v.Len()/0.1)
			for k := range n {
				f := frontAt(e.field.Faces, l[0].Add(v.Mul((float64(k)+0.5)/float64(n))))
				if f != nil && !f.Small && f.Code+f.Hand != b.Code+b.Hand {
					over += 0.1
				}
			}
			// A leader may graze a corner between two cells of the map it was
			// chosen on, which are half a millimetre wide.
			assert.LessOrEqual(t, over, leastStray, "%s: mm of the leader over other parts", name)
			for _, m := range leaders[i+1:] {
				assert.False(t, inspect.Cross(l[0], l[1], m[0], m[1]), name)
			}
		}
		for _, q := range inspect.Texts(items) {
			assert.Nil(t, frontAt(e.field.Faces, q.C), "%s: a tab over a part", p.name)
		}
	})
}

// Exploded pictures are as large as their boxes let them be, of every part enough
// is seen to know it by, and no piece stands in another.
func TestExplodedPicturesShowTheirParts(t *testing.T) {
	eachExploded(t, func(t *testing.T, p explodedPicture) {
		e, _, _ := p.desk.setApart(p.view, p.box)
		w, h := p.box.W()-2*besideExploded, p.box.H()-2*overExploded
		assert.InDelta(t, 1, math.Max(e.pic.Box.W()/w, e.pic.Box.H()/h), 1e-6, p.name)
		whole := map[string]float64{}
		seen := map[string]float64{}
		step := pt(2.3, 2.3)
		for y := e.pic.Box.Min.Y; y < e.pic.Box.Max.Y; y += step.Y {
			for x := e.pic.Box.Min.X; x < e.pic.Box.Max.X; x += step.X {
				under := map[string]bool{}
				for _, f := range e.field.Faces {
					if !f.Small && sight.Has([][]geom.Pt{f.Loop}, pt(x, y)) {
						under[f.Code+f.Hand] = true
					}
				}
				for k := range under {
					whole[k]++
				}
				if f := frontAt(e.field.Faces, pt(x, y)); f != nil && !f.Small {
					seen[f.Code+f.Hand]++
				}
			}
		}
		for k, n := range whole {
			// The rail of the chair lies behind six slats, whatever is opened.
			assert.Greater(t, seen[k]/n, 0.2, "%s: of %s", p.name, k)
		}
		for i, s := range e.solids {
			for k, other := range e.solids {
				if i == k || !s.Box3(geom.Home()).Meets(other.Box3(geom.Home())) {
					continue
				}
				for _, q := range alongEdges(other) {
					if s.Inside(q) && s.Distance(q) > 1 {
						assert.Fail(t, "a piece stands in another", "%s: %s in %s", p.name, e.keys[k], e.keys[i])
						break
					}
				}
			}
		}
	})
}

// alongEdges are points along the edges of a solid.
func alongEdges(s *geom.Solid) []geom.V3 {
	var out []geom.V3
	for _, f := range s.Faces {
		for _, l := range f.Loops {
			for i, a := range l {
				for _, t := range [...]float64{0, 0.33, 0.67} {
					out = append(out, a.Add(l[(i+1)%len(l)].Sub(a).Mul(t)))
				}
			}
		}
	}
	return out
}

// Joints come apart along their fasteners by what they are opened, but for one
// that only closes a ring.
func TestJointsOpenAlongTheirAxes(t *testing.T) {
	const open = 100.0
	checked := 0
	for _, e := range editionsOfRange {
		d := newDesk(drawnPiece(t, e[0], e[1], expr.Inch), nil)
		all := everyPiece(d)
		u := d.undo(all)
		off := u.offsets(u.evenly(open))
		for _, j := range d.plan.Joints {
			if !u.opens(j) {
				continue
			}
			for _, f := range j.Fasteners {
				along := off[f.Pieces[1]].Sub(off[f.Pieces[0]]).Dot(f.Dir)
				assert.InDelta(t, open, along, 0.1*open, "%s: %s", e, j.Key) // pocket screws lean
				checked++
			}
		}
	}
	assert.Greater(t, checked, 100)
}

// What the author says joints are opened by holds for all of them, and nothing
// else does.
func TestAuthorSaysHowFar(t *testing.T) {
	d := newDesk(drawn(t, "", expr.Inch), nil)
	u := d.undo(everyPiece(d))
	for _, apart := range []float64{60, 150, 1e6} {
		open := newJudge(u, lookFrom(heroView), geom.Size{W: 150, H: 150}).best(u, apart)
		for w, y := range u.ways {
			if y.joint != nil && !y.lift {
				assert.InDelta(t, apart, open[w], 1e-6*apart)
			}
		}
	}
	free := newJudge(u, lookFrom(heroView), geom.Size{W: 150, H: 150})
	best := free.best(u, 0)
	tooNear := free.price(inCells(free, u.evenly(0.1*d.apart(u.pieces))), math.Inf(1))
	assert.Less(t, free.price(inCells(free, best), math.Inf(1)), tooNear)
	assert.Less(t, free.work, mostWork/2, "the search is not cut short")
}

// inCells takes what the ways are opened by from mm to cells.
func inCells(j *judge, open []float64) []float64 {
	var out []float64
	for _, o := range open {
		out = append(out, o/j.cell)
	}
	return out
}

// The one joint of the chair that closes a ring is that of the arms to the rail:
// the arms hang on their caps by then.
func TestRingsStayOpen(t *testing.T) {
	d := newDesk(drawn(t, "", expr.Inch), nil)
	u := d.undo(everyPiece(d))
	for _, j := range d.plan.Joints {
		assert.Equal(t, j.Key != "arm_rail_screws", u.opens(j), j.Key)
	}
}

// Of a row of like fasteners the outermost two are drawn off their holes and of
// the others the heads; together they are all there are.
func TestRowsAreDrawnSparsely(t *testing.T) {
	for _, e := range editionsOfRange {
		d := newDesk(drawnPiece(t, e[0], e[1], expr.Inch), nil)
		u := d.undo(everyPiece(d))
		off, heads := u.shown()
		all := 0
		for _, j := range d.plan.Joints {
			for _, f := range j.Fasteners {
				if f.Hardware != nil {
					all++
				}
			}
		}
		assert.Equal(t, all, len(off)+len(heads), "%s", e)
		rows := map[rowKey][]model.Fastener{}
		for _, f := range off {
			rows[u.rowOf(f)] = append(rows[u.rowOf(f)], f)
		}
		for k, row := range rows {
			require.LessOrEqual(t, len(row), 2, "%s", e)
			if len(row) < 2 {
				continue
			}
			far := row[0].Head.Sub(row[1].Head).Len()
			for _, f := range heads {
				for _, g := range heads {
					if u.rowOf(f) == k && u.rowOf(g) == k {
						assert.LessOrEqual(t, f.Head.Sub(g.Head).Len(), far+1e-6, "%s", e)
					}
				}
			}
		}
	}
}

// Every line of a legend stands in its columns, whatever the width.
func TestLegendsFit(t *testing.T) {
	d := newDesk(drawn(t, "", expr.Inch), nil)
	lines := d.legend(everyPiece(d))
	names := func(lines []legendLine) (out string) {
		for _, l := range lines {
			out += " " + l.name
		}
		return strings.Join(strings.Fields(out), " ")
	}
	for _, width := range []float64{30, 46, 90, 139, 184} {
		s := setLegend(lines, width)
		assert.Equal(t, fractions(names(lines)), names(s.lines), "%g mm", width)
		n := 0
		for i, l := range s.lines {
			right := s.x[i/s.rows] + l.lead() + lettering.Width(l.name, narrow)
			assert.LessOrEqual(t, right, width+1e-6, "%g mm: %s", width, l.name)
			if i/s.rows+1 < len(s.x) {
				assert.Less(t, right, s.x[i/s.rows+1], "%g mm: %s", width, l.name)
			}
			n += l.n
		}
		want := 0
		for _, l := range lines {
			want += l.n
		}
		assert.Equal(t, want, n, "%g mm", width)
	}
}

// A pile counts what a plain search finds.
func TestPileCountsWhatIsSeen(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	d := newDesk(in, nil)
	u := d.undo(everyPiece(d))
	j := newJudge(u, lookFrom(heroView), geom.Size{W: 150, H: 150})
	j.usual = 10
	for _, open := range []float64{0, 0.6, 2} {
		j.settle(u.evenly(open * j.usual))
		type place struct{ x, y int }
		top := map[place][2]int{} // nearness and mask
		for i := range j.masks {
			for _, c := range j.masks[i].cells {
				at := place{int(c.x) + int(j.shift[i].X), int(c.y) + int(j.shift[i].Y)}
				z := int(c.z) + int(math.Round(j.shift[i].Z*nearStep))
				if old, had := top[at]; !had || old[0] < z || old[0] == z && old[1] < i {
					top[at] = [2]int{z, i}
				}
			}
		}
		seen := make([]int, len(j.masks))
		for at, v := range top {
			if got := j.pile.look(at.x, at.y); got != underRim {
				assert.Equal(t, v[1], got, fmt.Sprint(at))
				seen[v[1]]++
			}
		}
		assert.Equal(t, seen, j.seen, "open %g", open)
	}
}

func BenchmarkExploded(b *testing.B) {
	in := drawn(b, "", expr.Inch)
	for b.Loop() {
		compose(in, explodedSheets())
	}
}
