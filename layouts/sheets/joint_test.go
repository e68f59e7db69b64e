package sheets

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render/view"
)

// finest is half of the step in which a length of a fineness is printed, mm.
func finest(u expr.Unit, f expr.Fineness) float64 {
	if u == expr.MM {
		return [...]float64{0.5, 0.25}[f]
	}
	return 25.4 / [...]float64{32, 64}[f]
}

// eachPattern hands every pattern of every joint of every example over.
func eachPattern(t *testing.T, each func(t *testing.T, d *desk, q *pattern)) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		for _, j := range in.Plan.Joints {
			places := 0
			for _, q := range d.patterns(j) {
				places += q.places
				each(t, d, q)
			}
			if len(j.Fasteners) > 0 {
				assert.Equal(t, j.Places, places, "%s: every place has a pattern", j.Key)
			}
		}
	})
}

// What is printed on a pattern is what its picture measures, and the picture is
// to scale.
func TestPatternTextsAreLengths(t *testing.T) {
	seen := 0
	eachPattern(t, func(t *testing.T, d *desk, q *pattern) {
		v := newPatternView(q, d, geom.Size{W: patternW, H: patternH})
		for _, w := range v.wishes() {
			s := w.(dims.Span)
			long := s.B.Sub(s.A)
			text, n := s.Text, 1.0
			if count, each, ok := strings.Cut(text, " × "); ok {
				text, n = each, read(t, count)
			}
			seen++
			assert.InDelta(t, long.Len()/v.k/n, read(t, text), finest(d.plan.Unit, expr.Coarse)+1e-6, "%s: %s", q.joint.Key, s.Text)
			assert.True(t, math.Abs(long.X) < 1e-6 || math.Abs(long.Y) < 1e-6, "level or upright")
		}
		_, _, lost := v.draw(geom.Box{Min: pt(-70, -80), Max: pt(70, 80)})
		assert.Empty(t, lost, q.joint.Key)
	})
	assert.Greater(t, seen, 150)
}

// The edges that insets count from are where the parts stop touching: a hair
// inside there is wood on both sides of the joint, a hair outside there is not.
// The solids are asked, not the patch.
func TestPatternEdgesAreWhereWoodMeets(t *testing.T) {
	const hair, deep = 0.15, 0.02
	seen := 0
	eachPattern(t, func(t *testing.T, d *desk, q *pattern) {
		if q.fromFace() {
			return
		}
		both := func(c chain, x float64) bool {
			flat := c.point(x)
			// Back from the picture to the plane of the touching faces.
			on := q.camera.Right.Mul(flat.X).Add(q.camera.Up.Mul(flat.Y))
			on = on.Sub(q.patch.N.Mul(on.Sub(q.patch.Loops[0][0]).Dot(q.patch.N)))
			return q.first.Solid.Inside(on.Sub(q.patch.N.Mul(deep))) && q.second.Solid.Inside(on.Add(q.patch.N.Mul(deep)))
		}
		for _, c := range [...]chain{q.across, q.up} {
			require.True(t, c.hasTouch, q.joint.Key)
			for i, out := range [...]float64{-hair, hair} {
				seen++
				assert.True(t, both(c, c.touch[i]-2*out), "%s: inside", q.joint.Key)
				assert.False(t, both(c, c.touch[i]+2*out), "%s: outside", q.joint.Key)
			}
		}
	})
	assert.Greater(t, seen, 100)
}

// A row of screws keeps the inset the author wrote from one end of it at least,
// and as many stand in it as he wrote.
func TestPatternKeepsTheInset(t *testing.T) {
	seen := 0
	eachPattern(t, func(t *testing.T, _ *desk, q *pattern) {
		if q.fromFace() {
			return
		}
		c, ok := q.row()
		require.True(t, ok, q.joint.Key)
		assert.Len(t, c.spots, q.joint.Each)
		g := c.gaps()
		assert.InDelta(t, 0, min(math.Abs(g[0]-q.joint.Inset), math.Abs(g[len(g)-1]-q.joint.Inset)), 1e-3, q.joint.Key)
		seen++
	})
	assert.Greater(t, seen, 30)
}

// The caps of the arms are screwed 5⁄8″ from one end of the touching faces and
// 1 7⁄8″ from the other, as examples/petrel-chair/plan.toml has it; both are
// told.
func TestUnevenInsetsAreTold(t *testing.T) {
	in := drawnPiece(t, "chair", "", expr.Inch)
	d := newDesk(in, nil)
	for _, j := range in.Plan.Joints {
		if j.Key != "cap_leg_screws" {
			continue
		}
		list := d.patterns(j)
		require.Len(t, list, 1, "right and left are one pattern")
		words := list[0].inWords(expr.Inch)
		for _, s := range []string{"5⁄8″", "1 7⁄8″", "1″ apart"} {
			assert.Contains(t, words, s)
		}
		return
	}
	assert.Fail(t, "the chair has no such joint")
}

// Pictures of patterns are not mirrored: their directions have the hand of the
// named cameras, they look square at the face, and from above the sitter's
// right is where it is in the view from above.
func TestPatternsAreNotMirrored(t *testing.T) {
	hand := func(c view.Camera) float64 { return c.Right.Cross(c.Up).Dot(c.Toward) }
	eachPattern(t, func(t *testing.T, d *desk, q *pattern) {
		assert.InDelta(t, hand(view.Top()), hand(q.camera), 1e-9, q.joint.Key)
		assert.InDelta(t, 0, q.camera.Right.Dot(q.camera.Toward), 1e-9)
		if q.camera.Toward.Z > 0.9 {
			assert.Positive(t, q.camera.Right.Dot(view.Top().Right)+q.camera.Up.Dot(view.Top().Up), "not upside down")
		}
		seen := q.first.Pose.LocalDir(q.camera.Toward)
		assert.InDelta(t, 1, max(abs(seen.X), abs(seen.Y), abs(seen.Z)), 0.02, "square to a side of the part")
	})
	for _, v := range []view.Camera{view.Front(), view.Rear(), view.Left(), view.Right(), view.Top(), view.Bottom()} {
		got := lookAlong(v.Toward.Neg(), geom.Pose{Along: v.Right, Across: v.Up, Thick: v.Toward})
		assert.InDelta(t, 1, got.Right.Dot(v.Right), 1e-9, "a level board is seen as the view named so sees it")
		assert.InDelta(t, 1, got.Up.Dot(v.Up), 1e-9)
	}
}

// A section shows the lengths that the model has.
func TestSectionShowsLengths(t *testing.T) {
	seen := map[model.HardwareKind]int{}
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		n := 0
		for _, ty := range jointTypes(in.Plan) {
			n += len(ty.joints)
			if ty.first.Hardware == nil {
				continue
			}
			for _, half := range []bool{false, true} {
				p := &jointPage{d: d, t: ty, j: ty.first, f: ty.first.Fasteners[0], half: half}
				p.section()
				for _, w := range p.wishes() {
					s, ok := w.(dims.Span)
					if !ok {
						continue
					}
					seen[ty.first.Hardware.Kind]++
					along := s.B.Sub(s.A).Dot(p.axis.Dir) / p.cut.Scale
					assert.InDelta(t, math.Abs(along), read(t, s.Text), finest(in.Plan.Unit, expr.Fine)+1e-6, ty.first.Key)
				}
			}
		}
		assert.Equal(t, len(in.Plan.Joints), n, "every joint is of one type")
	})
	for _, k := range []model.HardwareKind{model.CarriageBolt, model.WoodScrew, model.PocketScrew} {
		assert.Positive(t, seen[k], k)
	}
}

// A pocket's section leans by the pocket's angle off the faces that touch, its
// mouth is in the face that is named, and the point stays in the second part.
func TestPocketSection(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		for _, ty := range jointTypes(in.Plan) {
			if ty.first.Kind != "pocket screwed" {
				continue
			}
			p := &jointPage{d: d, t: ty, j: ty.first, f: ty.first.Fasteners[0]}
			p.section()
			assert.InDelta(t, math.Abs(ty.first.Angle), math.Atan2(math.Abs(p.axis.Dir.X), -p.axis.Dir.Y), 1e-6)
			_, foot := p.mouthFace()
			first := p.d.plan.Placed[p.f.Pieces[0]]
			for _, l := range p.cut.Loops(first.Solid) {
				assert.InDelta(t, 0, geom.Polygon(l...).Distance(foot), 1e-3, "the axis leaves the wood there")
			}
			tip := p.f.Head.Add(p.f.Dir.Mul(p.f.Length))
			assert.True(t, d.plan.Placed[p.f.Pieces[1]].Solid.Inside(tip))
		}
	})
}

// Labels beside a section keep their order, do not overlap, and stand where
// they would like to when there is room.
func TestLabelsAreLevelled(t *testing.T) {
	for _, c := range []struct{ want, high, got []float64 }{
		{[]float64{50, 20}, []float64{6, 6}, []float64{50, 20}},
		{[]float64{10, 10}, []float64{6, 6}, []float64{10 + (6+railGap)/2, 10 - (6+railGap)/2}},
		{[]float64{30, 10, 10}, []float64{4, 6, 6}, []float64{30, 10 + (6+railGap)/2, 10 - (6+railGap)/2}},
	} {
		got := slices.Clone(c.want)
		levelled(got, c.high)
		assert.InDeltaSlice(t, c.got, got, 1e-9)
	}
	many, high := []float64{9, 8, 7.5, 7, 3, 2.9, -40}, []float64{3, 8, 3, 8, 3, 3, 3}
	levelled(many, high)
	for i := 1; i < len(many); i++ {
		assert.GreaterOrEqual(t, many[i-1]-high[i-1]-railGap, many[i]-1e-9)
	}
	assert.Equal(t, -40.0, many[6], "what is far off is left alone")
}

// No page of joints overflows, every joint is on one, and no way of halving
// takes fewer pages.
func TestJointPagesFit(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		types := jointTypes(in.Plan)
		blocks, pages := d.jointPages(types)
		var all []int
		for _, page := range pages {
			high := -jointRow
			for _, i := range page {
				high += jointRow + blocks[i].height
			}
			assert.LessOrEqual(t, high, bodyH)
			all = append(all, page...)
		}
		slices.Sort(all)
		for i, k := range all {
			assert.Equal(t, i, k)
		}
		assert.Len(t, all, len(types))
		assert.Len(t, pages, len(packed(d.jointBlocks(types, -1), bodyH, jointRow)))
		assert.Empty(t, d.problems)
	})
}

// Lines are cut to a box as the length of what is inside tells.
func TestCutToBox(t *testing.T) {
	box := geom.Box{Max: pt(10, 4)}
	for _, c := range []struct {
		a, b geom.Pt
		long float64
	}{
		{pt(-5, 2), pt(15, 2), 10}, {pt(5, -1), pt(5, 9), 4}, {pt(2, 1), pt(4, 1), 2}, {pt(-1, 5), pt(12, 5), 0},
		{pt(-2, -2), pt(6, 6), 4 * math.Sqrt2}, {pt(-3, 1), pt(1, 5), 0},
	} {
		a, b, ok := cutToBox(c.a, c.b, box)
		assert.Equal(t, c.long > 0, ok)
		if ok {
			assert.InDelta(t, c.long, b.Sub(a).Len(), 1e-9)
		}
	}
}
