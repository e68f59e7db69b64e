package sheets

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
)

// eachBook runs the four books of the chair.
func eachBook(t *testing.T, each func(t *testing.T, name string, in Input)) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		for _, of := range [][2]string{{"chair", ""}, {"chair", "tall"}, {"footstool", ""}, {"side-table", ""}} {
			name := of[0] + " " + orElse(of[1], "standard") + " " + unit.String()
			t.Run(name, func(t *testing.T) { each(t, name, drawnPiece(t, of[0], of[1], unit)) })
		}
	}
}

// read turns a printed length back into millimetres: "12 3⁄32″", "902", "2.5".
func read(t *testing.T, text string) float64 {
	t.Helper()
	inch := strings.HasSuffix(text, "″")
	sum := 0.0
	for _, w := range strings.Fields(strings.TrimSuffix(text, "″")) {
		if over, under, ok := strings.Cut(w, "⁄"); ok {
			a, err := strconv.ParseFloat(over, 64)
			require.NoError(t, err, text)
			b, err := strconv.ParseFloat(under, 64)
			require.NoError(t, err, text)
			sum += a / b
			continue
		}
		v, err := strconv.ParseFloat(w, 64)
		require.NoError(t, err, text)
		sum += v
	}
	if inch {
		return sum * 25.4
	}
	return sum
}

// along is where along the part a place of the page is: the plate's x undone.
func (v *plate) along(x float64) float64 {
	x -= v.at.X
	if v.broken() && x > v.gone[0]*v.k {
		return (x-breakGap)/v.k + v.gone[1] - v.gone[0]
	}
	return x / v.k
}

// faceOf returns a part's page with its face view set out.
func faceOf(in Input, set []*model.Part) *partPage {
	d := newDesk(in, nil)
	b := d.partPage(set)
	b.heading()
	b.face()
	return b
}

// Every number along and across a part's drawing says the distance that it
// shows: text read back against the place it points at, the scale undone.
func TestDimensionsReadBack(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		limit := 25.4/32 + 1e-6 // half of what is printed
		if in.Plan.Unit == expr.MM {
			limit = 0.5 + 1e-6
		}
		read1 := 0
		for _, set := range families(in.Plan) {
			b := faceOf(in, set)
			v := b.view
			for _, w := range b.wishes() {
				for _, m := range measuredIn(w, v) {
					assert.InDelta(t, m.shown, read(t, m.text), limit, "part %s, %q", b.p.Code, m.text)
					read1++
				}
			}
		}
		assert.Greater(t, read1, 20, "numbers were read")
	})
}

// A shown is a printed length and the one that the drawing shows there.
type shown struct {
	text  string
	shown float64
}

// measuredIn measures what a dimension points at.
func measuredIn(w dims.Wish, v *plate) []shown {
	var out []shown
	add := func(text string, mm float64) {
		if text != "L" && (len(text) != 1 || text < "a" || text > "z") { // not a letter of the family's table
			out = append(out, shown{text, mm})
		}
	}
	switch w := w.(type) {
	case dims.Run:
		for _, s := range w.Stops {
			if w.Side == dims.LeftOf || w.Side == dims.RightOf {
				add(s.Text, math.Abs(s.At.Y-w.Stops[0].At.Y)/v.k)
			} else {
				add(s.Text, v.along(s.At.X))
			}
		}
	case dims.Span:
		add(w.Text, w.A.Sub(w.B).Len()/v.k)
	case dims.Radius:
		_, text, _ := strings.Cut(w.Text, "R ")
		text, _, _ = strings.Cut(text, ",")
		add(text, w.R/v.k)
	}
	return out
}

// The callouts of a part speak of every hole there is, once.
func TestHolesAreCounted(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, set := range families(in.Plan) {
			b := faceOf(in, set)
			told := 0
			for _, w := range b.holeNotes() {
				n, _, many := strings.Cut(w.Wish.(dims.Callout).Text[0], " × ")
				k := 1
				if many {
					var err error
					k, err = strconv.Atoi(n)
					require.NoError(t, err)
					assert.Greater(t, k, 1, "one hole is not counted")
				}
				told += k
			}
			assert.Equal(t, len(b.p.Holes)+len(b.p.Pockets), told, "part %s", b.p.Code)
		}
	})
}

// Scales are standard ones, and nothing that has holes is smaller than 1 : 10.
func TestScalesAreStandard(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, set := range families(in.Plan) {
			v := facing(set[0])
			v.size(in.Plan.Unit)
			assert.Contains(t, standardScales(in.Plan.Unit), math.Round(1/v.k))
			assert.LessOrEqual(t, v.width(), plateW+1e-6)
			assert.GreaterOrEqual(t, v.k, 0.1, "part %s", set[0].Code)
		}
	})
}

// A part that is broken is broken where it is plain, and keeps its order.
func TestBreaksAreInPlainWood(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, set := range families(in.Plan) {
			v := facing(set[0])
			v.size(in.Plan.Unit)
			if !v.broken() {
				continue
			}
			for _, h := range v.p.Holes {
				assert.False(t, h.Along > v.gone[0] && h.Along < v.gone[1], "part %s, %s", v.p.Code, h.Name)
			}
			for _, c := range v.corners() {
				assert.False(t, c.X > v.gone[0] && c.X < v.gone[1], "part %s", v.p.Code)
			}
			before := math.Inf(-1)
			for x := 0.0; x <= v.p.Length; x += 5 {
				assert.GreaterOrEqual(t, v.x(x), before)
				before = v.x(x)
			}
		}
	})
}

// The face view shows the part as it is and not its mirror image. In the world
// the sitter's right, rear and up make a left-handed frame, so a right part
// whose frame is not mirrored shows its first face when along runs right and
// across runs up.
func TestDrawnHandIsRight(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	for _, p := range in.Plan.Placed {
		if p.Hand == model.LeftHand {
			continue
		}
		v := facing(p.Part)
		v.size(expr.Inch)
		a := v.pt(p.Part.Length, 0).Sub(v.pt(0, 0))
		c := v.pt(0, p.Part.Width).Sub(v.pt(0, 0))
		out := p.Pose.Thick.Neg() // out of the face that is shown
		if v.flip {
			out = p.Pose.Thick
		}
		along, across := p.Pose.Along, p.Pose.Across
		// Left-handed space: seen against out, along turned to across the same
		// way as on paper means along × across, by the numbers, points away.
		seen := along.Cross(across).Dot(out) < 0
		drawnLeft := a.Cross(c) > 0
		assert.Equal(t, seen, drawnLeft, "part %s", p.Part.Code)
	}
}

// Blocks are shared out to pages with none lost, none twice, none too tall.
func TestPackedPages(t *testing.T) {
	blocks := []block{{height: 90}, {height: 120}, {height: 60}, {height: 30}, {height: 200}, {height: 35}}
	seen := map[int]bool{}
	for _, page := range packed(blocks, 210, 5) {
		sum := -5.0
		for _, i := range page {
			assert.False(t, seen[i])
			seen[i] = true
			sum += blocks[i].height + 5
		}
		assert.LessOrEqual(t, sum, 210.0)
	}
	assert.Len(t, seen, len(blocks))
}

// Of a hole drilled through another part no number is given to lay it out by.
func TestMatchedHolesAreNotLaidOut(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	for _, set := range families(in.Plan) {
		b := faceOf(in, set)
		for _, s := range b.alongRun().Stops[1:] {
			x := b.view.along(s.At.X)
			for _, h := range b.p.Holes {
				if h.Matched && math.Abs(h.Along-x) < 0.01 && x < b.p.Length-0.01 {
					assert.Fail(t, "laid out", "part %s, %s at %s", b.p.Code, h.Name, s.Text)
				}
			}
		}
		for _, g := range drillings(b.p) {
			if g.first.Matched {
				assert.Contains(t, strings.Join(b.holeWords(g), " "), "do not lay out")
			}
		}
	}
}

// A long heading gets smaller before anything of it is lost.
func TestLongHeadingsAreSqueezed(t *testing.T) {
	words, st := squeezed("Front stretcher", 100, partName)
	assert.Equal(t, "Front stretcher", words)
	assert.InDelta(t, partName.Size, st.Size, 1e-9)
	const long = "Front stretcher under the seat, with its groove"
	words, st = squeezed(long, 80, partName)
	assert.Equal(t, long, words)
	assert.Less(t, st.Size, partName.Size)
	assert.LessOrEqual(t, lettering.Width(words, st), 80.0)
	words, st = squeezed(long+" and "+long, 80, partName)
	assert.LessOrEqual(t, lettering.Width(words, st), 80.0)
	assert.True(t, strings.HasSuffix(words, "…"))
}

// A hole that is laid out on an edge says where on the edge.
func TestHolesIntoEdgesSayWhere(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	p := *in.Plan.Parts[1]
	p.Holes = []model.Hole{
		{Kind: model.PilotHole, Into: "edge", From: 1, Diam: 3, Depth: 25.4, Thick: p.Thick / 2, Along: 50, Across: p.Width},
		{Kind: model.PlainHole, Into: "end", From: 0, Diam: 10, Depth: 50.8, Thick: 6.35, Across: 20},
	}
	b := newDesk(in, nil).partPage([]*model.Part{&p})
	groups := drillings(&p)
	require.Len(t, groups, 2)
	assert.Contains(t, b.holeWords(groups[0]), "into the rear edge, in the middle of the thickness")
	assert.Contains(t, b.holeWords(groups[1]), "into the foot end, 1⁄4″ from the "+faceName(&p, 0))
}

// A size on which something hangs is boxed with its number, and the number is
// explained under the drawing.
func TestCriticalSizesAreMarkedAndExplained(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	require.NotEmpty(t, in.Plan.Critical)
	set := []*model.Part{in.Plan.Parts[1]}
	p := set[0]
	for i := range p.Holes {
		if p.Holes[i].Kind == model.BoltHole {
			p.Holes[i].Critical = 1
		}
	}
	d := newDesk(in, nil)
	b := d.partPage(set)
	b.heading()
	b.face()
	b.notes()
	assert.Empty(t, d.problems)
	assert.Empty(t, inspect.Collisions(b.items))
	keyed := 0
	for _, w := range b.wishes() {
		run, _ := w.(dims.Run)
		for _, s := range run.Stops {
			if s.Key == 1 {
				keyed++
			}
		}
	}
	assert.Equal(t, 4, keyed, "two holes, along and across")
	require.Len(t, b.consequences(), 1)
	assert.Contains(t, b.consequences()[0].text, in.Plan.Critical[0].Note[1:])
	p.Critical = []string{"1: lower bolt hole, along: each 1⁄16″ here moves the back 1.1°."}
	require.Len(t, b.consequences(), 1, "the measured consequence stands in place of the general one")
	assert.Equal(t, "Lower bolt hole, along: each 1⁄16″ here moves the back 1.1°.", b.consequences()[0].text)
}
