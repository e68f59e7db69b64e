package sheets

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
	"planset/render"
)

// written solves a plan of one file.
func written(t *testing.T, unit expr.Unit, text string) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(fstest.MapFS{"plan.toml": {Data: []byte(text)}}, "plan.toml", "", &problems)
	p := assembly.Solve(d, assembly.Options{Unit: unit}, &problems)
	var b strings.Builder
	source.Write(&b, &problems, false)
	require.False(t, problems.Failed(), b.String())
	return p
}

// leansLeft tells which way a line through a point leans as it rises.
func leansLeft(t *testing.T, lines []render.Path, at geom.Pt) bool {
	t.Helper()
	for _, l := range lines {
		for _, s := range l.Segs {
			d := s.B.Sub(s.A)
			if math.Abs(d.Y) > 0.3 && inspect.Distance(at, s.A, s.B) < 0.02 {
				return d.X*d.Y < 0
			}
		}
	}
	require.Fail(t, "no line at the gauge", "%v", at)
	return false
}

// bevels are plans whose ends and edges are beveled to either side.
func bevels(t *testing.T) []Input {
	var out []Input
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		out = append(out, drawnPiece(t, "side-table", "", unit), drawn(t, "", unit))
	}
	for _, long := range []string{"bottom", "top"} {
		for _, edge := range []string{"front", "rear"} {
			text := `
unit = "mm"
[plan]
title = "Bevels"
[stock.board]
section = [30, 90]
lengths = ["2.4 m"]
[part.lid]
stock  = "board"
length = 700
edge.rear = { bevel = "20 deg", wide = "` + long + `" }
[part.rail]
stock  = "board"
length = 700
end.left  = { bevel = "30 deg", long_face = "` + long + `" }
end.right = { miter = "10 deg", long = "` + edge + `", bevel = "15 deg", long_face = "` + long + `" }
[drawing.rail]
face = "` + map[string]string{"front": "top", "rear": "bottom"}[edge] + `"
[drawing.lid]
face = "` + map[string]string{"front": "top", "rear": "bottom"}[edge] + `"
`
			out = append(out, Input{Plan: written(t, expr.MM, text), Paper: "a4"})
		}
	}
	return out
}

// A gauge leans the way the cut does that it is drawn for, on the face, on the
// edge and on the end.
func TestGaugesLeanAsDrawn(t *testing.T) {
	seen := map[string]int{}
	for _, in := range bevels(t) {
		for _, set := range families(in.Plan) {
			b := faceOf(in, set)
			for _, g := range b.miters() {
				assert.Equal(t, g.Off > 0, leansLeft(t, b.seen, g.At), "part %s, face", b.p.Code)
				seen["face"]++
			}
			if v, lines, ok := b.edgeDrawn(90); ok {
				for _, w := range b.edgeWishes(v, lines) {
					if g, ok := w.Wish.(dims.Gauge); ok {
						assert.Equal(t, g.Off > 0, leansLeft(t, lines, g.At), "part %s, edge", b.p.Code)
						seen["edge"]++
					}
				}
			}
			if b.endTells() {
				solid, err := b.p.Board.Solid(0.05)
				require.NoError(t, err)
				cut := b.endCut(0.5, geom.Pt{})
				var lines []render.Path
				for _, l := range cut.Loops(solid) {
					lines = append(lines, render.Loop(l...))
				}
				for _, w := range b.profileWishes(cut) {
					if g, ok := w.Wish.(dims.Gauge); ok {
						assert.Equal(t, g.Off > 0, leansLeft(t, lines, g.At), "part %s, end", b.p.Code)
						seen["end"]++
					}
				}
			}
		}
	}
	for _, view := range []string{"face", "edge", "end"} {
		assert.GreaterOrEqual(t, seen[view], 8, view)
	}
}

// The edge view is to scale: as high as the board is thick, and the end of a
// beveled board runs thickness times the tangent of the bevel along.
func TestEdgeViewIsToScale(t *testing.T) {
	for _, in := range bevels(t) {
		for _, set := range families(in.Plan) {
			b := faceOf(in, set)
			v, lines, ok := b.edgeDrawn(90)
			assert.Equal(t, b.p.Ends[0].Bevel != 0 || b.p.Ends[1].Bevel != 0, ok, "part %s", b.p.Code)
			if !ok {
				continue
			}
			box := geom.NoBox()
			for _, l := range lines {
				for _, s := range l.Segs {
					box = box.With(s.A).With(s.B)
				}
			}
			assert.InDelta(t, b.p.Thick*v.k, box.H(), 0.01)
			assert.InDelta(t, v.width(), box.W(), 0.05, "but for a long edge that is beveled too")
			assert.GreaterOrEqual(t, box.W(), leastView)
			for i, e := range b.p.Ends {
				if e.Bevel == 0 {
					continue
				}
				at := v.at.Add(pt(float64(i)*v.width(), b.p.Thick*v.k/2))
				low := farthest(lines, at.Sub(pt(0, b.p.Thick*v.k*0.3)), i)
				top := farthest(lines, at.Add(pt(0, b.p.Thick*v.k*0.3)), i)
				// n·p is constant on the cut: along moves by tan(bevel)/cos(miter) for
				// each mm of thickness.
				want := 0.6 * b.p.Thick * v.k * math.Tan(e.Bevel) / math.Cos(e.Miter)
				assert.InDelta(t, want, math.Abs(top.X-low.X), 0.05, "part %s, end %d", b.p.Code, i)
			}
		}
	}
}

// A piece laid as the saw pictures say is cut to the plane that the plan has at
// that end. The table's frame is right to the offcut, away from the user, up.
func TestSwingCutsTheEnd(t *testing.T) {
	frame := func(end, up int) (along, across, thick geom.V3) {
		// Looked down on, a board shows its first face with along to the right and
		// across away from the eye's foot; turned over about its length, the second.
		along, across, thick = geom.V3{X: 1}, geom.V3{Y: 1}, geom.V3{Z: -1}
		if up == 1 {
			across, thick = across.Neg(), thick.Neg()
		}
		if end == 0 {
			along, across = along.Neg(), across.Neg()
		}
		return along, across, thick
	}
	turn := func(v geom.V3, a float64) geom.V3 {
		p := geom.Pt{X: v.X, Y: v.Y}.Turn(a)
		return geom.V3{X: p.X, Y: p.Y, Z: v.Z}
	}
	checked := 0
	prove := func(p *model.Part, end int, want geom.V3) {
		e := p.Ends[end]
		a := e.Miter
		if gaugeSwing(p, end) == swungBackward {
			a = -a
		}
		saw := geom.V3{X: math.Cos(e.Bevel), Z: math.Sin(e.Bevel)} // out of the wood, the blade leaning over it
		u, v, w := frame(end, 1-e.LongFace)
		got := geom.V3{X: saw.Dot(turn(u, a)), Y: saw.Dot(turn(v, a)), Z: saw.Dot(turn(w, a))}
		assert.InDelta(t, 0, got.Sub(want.Unit()).Len(), 1e-6, "part %s, end %d: %v for %v", p.Code, end, got, want.Unit())
		checked++
	}
	in := drawnPiece(t, "side-table", "", expr.Inch)
	for _, p := range in.Plan.Parts {
		for _, c := range p.Board.Cuts {
			if math.Abs(c.N.X) < 0.2 {
				continue // the bevel of an edge
			}
			end := 0
			if c.N.X > 0 {
				end = 1
			}
			prove(p, end, c.N)
		}
	}
	assert.Equal(t, 6, checked, "two ends of the leg and of two aprons")
}

// Every compound end of a piece is under one of the saw pictures, each hand once.
func TestCompoundEndsAreAllTold(t *testing.T) {
	d := newDesk(drawnPiece(t, "side-table", "", expr.Inch), nil)
	ends := 0
	for _, s := range d.compoundSets() {
		for way := range s.swung {
			for _, w := range s.swung[way] {
				ends += len(w.parts)
			}
		}
	}
	assert.Equal(t, 2*2+2+2, ends, "both ends of both legs and of two aprons")
	assert.Len(t, d.sawBlocks(), 2, "one miter with two tilts")
	assert.Empty(t, d.problems)
	for _, b := range d.sawBlocks() {
		assert.Empty(t, inspect.Collisions(b.items))
	}
}

// A gauge that says 90 for square reads the rest of what the plan says.
func TestGaugeReadingsAddUp(t *testing.T) {
	for _, deg := range []float64{0.5, 7.9, 14, 22.5, 44.4} {
		plain, other, ok := strings.Cut(strings.TrimSuffix(gaugeWords(deg*math.Pi/180), ")"), " (")
		require.True(t, ok)
		sum := 0.0
		for _, s := range []string{plain, other} {
			sum += read(t, strings.TrimSuffix(s, "°"))
		}
		assert.InDelta(t, 90, sum, 1e-9, "%g", deg)
	}
}

// A curve with its center off the board is proved by three to five offsets at
// whole steps, each on the circle.
func TestCurvesHaveOffsets(t *testing.T) {
	// The middle of a 900 mm arc rises 60: R = (450² + 60²)/(2·60) = 1717.5.
	text, err := os.ReadFile("testdata/crest.toml")
	require.NoError(t, err)
	in := Input{Plan: written(t, expr.MM, string(text)), Paper: "a4"}
	for _, set := range families(in.Plan) {
		b := faceOf(in, set)
		assert.Empty(t, b.d.problems)
		assert.Empty(t, inspect.Collisions(b.items))
		wishes := b.curveChecks()
		require.Len(t, wishes, 1)
		o := wishes[0].Wish.(dims.Offsets)
		assert.GreaterOrEqual(t, len(o.Stations), leastOffsets)
		assert.LessOrEqual(t, len(o.Stations), mostOffsets)
		arc := set[0].Board.Outline[slices.IndexFunc(set[0].Board.Outline, func(s geom.Seg) bool { return s.Turn != geom.Straight })]
		assert.InDelta(t, 1717.5, arc.R, 0.01)
		for _, s := range o.Stations {
			x := b.view.along(s.At.X)
			assert.InDelta(t, 0, math.Mod(x+1e-6, 50), 1e-3, "at a whole step")
			y := read(t, s.Text)
			assert.InDelta(t, s.At.Sub(s.Foot).Len()/b.view.k, y, 0.5+1e-6)
			want := arc.C.Y + math.Sqrt(arc.R*arc.R-(x-450)*(x-450))
			assert.InDelta(t, want, y, 0.5+1e-6)
		}
		assert.Contains(t, b.knowing()[0].text, "Prove the curve every")
	}
}
