package report

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/marks"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/strength"
	"planset/render"
)

func solved(t testing.TB, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	draft := reading.Load(os.DirFS("../../examples"), name+"/plan.toml", "", &problems)
	require.NotNil(t, draft)
	p := assembly.Solve(draft, opt, &problems)
	var text bytes.Buffer
	source.Write(&text, &problems, false)
	require.NotNil(t, p, text.String())
	return p
}

// whole is a section with everything in it, and findings of all kinds.
func whole(t testing.TB, name string, unit expr.Unit) Section {
	p := solved(t, name, assembly.Options{Unit: unit})
	list := check.All(p, buying.Boards(p))
	list = append(list,
		check.Finding{Rule: "overlap", Severity: check.Error, Parts: []string{p.Parts[0].Code, p.Parts[1].Code}, Value: 0.2, Limit: 0.127, Unit: "mm", Text: "they fill the same space", Fix: "move one of them 0.5 mm"},
		check.Finding{Rule: "touching", Severity: check.Warning, Value: 100, Limit: 300, Unit: "mm2", Text: "they touch little", Waived: true, Reason: "glued as well"})
	return Section{p, list, marks.Rank(p), strength.All(p, strength.Usual())}
}

// words are the texts of a book, page by page.
func words(items []render.Item) string {
	var b strings.Builder
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			b.WriteString(item.Text + " ")
		case render.Group:
			if item.Reads != "" {
				b.WriteString(item.Reads + " ")
				continue
			}
			b.WriteString(words(item.Items))
		}
	}
	return b.String()
}

// TestExamples sets the reports of the examples: nothing leaves the page or runs
// into anything, and every finding stands there with its fix and its waiver.
func TestExamples(t *testing.T) {
	for _, name := range []string{"petrel-chair", "petrel-footstool", "petrel-side-table"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			s := whole(t, name, unit)
			book := Compose([]Section{s}, "seed")
			all := ""
			for i, p := range book.Pages {
				field := geom.Box{Min: geom.Pt{X: side - 0.5, Y: 8}, Max: geom.Pt{X: p.Size.W - side + 0.5, Y: p.Size.H - above + 1}}
				assert.Empty(t, inspect.Outside(p.Items, field), "%s page %s", name, p.Name)
				for _, c := range inspect.Collisions(withoutPictures(p.Items)) {
					assert.Fail(t, fmt.Sprintf("%s page %s: %v", name, p.Name, c))
				}
				text := words(p.Items)
				assert.Contains(t, text, fmt.Sprintf("page %d of %d", i+1, len(book.Pages)))
				assert.Contains(t, text, "for the author only")
				all += text
			}
			for _, f := range s.Findings {
				if f.Waived {
					assert.Contains(t, all, f.Reason)
					continue
				}
				assert.Contains(t, all, fmt.Sprintf("rule = %q", f.Rule))
			}
			assert.Equal(t, len(s.Findings)+1, pictures(book), "a picture for each finding, and one of the hardest worked boards")
			assert.Contains(t, all, "Which marks matter")
			assert.Contains(t, all, "What tips it over")
		}
	}
}

// TestAbreast: two sizes stand side by side: one page is not set twice, what
// differs is told of each, and a finding of one size says so.
func TestAbreast(t *testing.T) {
	section := func(variant string) Section {
		p := solved(t, "petrel-chair", assembly.Options{Unit: expr.Inch, Variant: variant})
		return Section{p, nil, marks.Rank(p), strength.All(p, strength.Usual())}
	}
	a, b := section("standard"), section("tall")
	both := check.Finding{Rule: "touching", Severity: check.Warning, Parts: []string{"A"}, Value: 100, Limit: 300, Unit: "mm2", Text: "they touch little"}
	worse := both
	worse.Value = 50
	only := check.Finding{Rule: "overlap", Severity: check.Error, Parts: []string{"B"}, Value: 2, Limit: 0.127, Unit: "mm", Text: "they fill the same space"}
	a.Findings, b.Findings = []check.Finding{both}, []check.Finding{only, worse}
	list := gather(sizes{a, b})
	require.Len(t, list, 2)
	assert.Equal(t, told{nil, &b.Findings[0]}, list[0], "dearest first")
	assert.Equal(t, told{&a.Findings[0], &b.Findings[1]}, list[1])
	assert.InDelta(t, 50, worst(list[1]), 0, "the waiver holds for both")

	book := Compose([]Section{a, b}, "")
	text := ""
	for _, p := range book.Pages {
		text += words(p.Items)
		for _, c := range inspect.Collisions(withoutPictures(p.Items)) {
			assert.Fail(t, fmt.Sprintf("page %s: %v", p.Name, c))
		}
	}
	one := Compose([]Section{a}, "")
	assert.Len(t, book.Pages, len(one.Pages), "no more pages than one size takes")
	assert.Contains(t, text, "Standard and Tall, inches")
	assert.Contains(t, text, "ERROR, only in the Tall size")
	assert.Contains(t, text, "measured Standard 0.16 in², Tall 0.08 in² · limit 0.47 in²")
	assert.Contains(t, text, "Standard: 1 warning")
	for _, f := range a.Forces.Boards {
		if f.Used > 0.5 {
			assert.Contains(t, text, fmt.Sprintf("%.1f", f.Stress))
		}
	}
	// Sizes of other units are set by themselves.
	mm := solved(t, "petrel-chair", assembly.Options{Unit: expr.MM})
	mixed := Compose([]Section{a, {Plan: mm}}, "")
	assert.Len(t, mixed.Pages, len(one.Pages)+1)
}

// withoutPictures leaves out the art, in which lines may cross letters' tabs.
func withoutPictures(items []render.Item) []render.Item {
	var out []render.Item
	for _, item := range items {
		if g, ok := item.(render.Group); ok && g.Name == "picture" {
			continue
		}
		out = append(out, item)
	}
	return out
}

func pictures(b *render.Book) int {
	n := 0
	for _, p := range b.Pages {
		for _, item := range p.Items {
			if g, ok := item.(render.Group); ok && g.Name == "picture" && len(g.Items) > 0 {
				n++
			}
		}
	}
	return n
}

// TestPicture: the parts a finding is about lie whole in its box, toned, with
// their letters.
func TestPicture(t *testing.T) {
	p := solved(t, "petrel-chair", assembly.Options{Unit: expr.Inch})
	a := newAlbum(p)
	box := geom.Box{Min: geom.Pt{X: 20, Y: 30}, Max: geom.Pt{X: 76, Y: 72}}
	for _, part := range p.Parts {
		items := a.picture([]string{part.Code}, box, render.Tone{})
		require.Len(t, items, 1)
		g := items[0].(render.Group)
		assert.Equal(t, box, g.Clip)
		assert.Contains(t, words(g.Items), part.Code)
		ink := render.Bounds(g)
		assert.False(t, ink.Empty())
		assert.Greater(t, max(ink.W()/box.W(), ink.H()/box.H()), 0.75, "%s fills its box", part.Code)
	}
	assert.Empty(t, newAlbum(&model.Plan{}).picture([]string{"A"}, box, render.Tone{}), "nothing stands")
}

// TestEmpty: a plan with nothing wrong, and one with nothing at all.
func TestEmpty(t *testing.T) {
	p := solved(t, "petrel-footstool", assembly.Options{Unit: expr.MM})
	book := Compose([]Section{{Plan: p}}, "")
	require.Len(t, book.Pages, 1)
	assert.Contains(t, words(book.Pages[0].Items), "Nothing was found.")
	assert.Equal(t, geom.Size{W: 210, H: 297}, book.Pages[0].Size)
	assert.Empty(t, Compose(nil, "").Pages)
	assert.Len(t, Compose([]Section{{Plan: &model.Plan{Title: "Empty"}, Marks: &marks.Table{}, Forces: &strength.Report{Skipped: "nothing is joined"}}}, "").Pages, 2)
}

// TestSame: the same plan gives the same book.
func TestSame(t *testing.T) {
	one := Compose([]Section{whole(t, "petrel-side-table", expr.Inch)}, "seed")
	assert.Equal(t, one, Compose([]Section{whole(t, "petrel-side-table", expr.Inch)}, "seed"))
}

// TestNumber: values as the reader has them.
func TestNumber(t *testing.T) {
	in, mm := &leaf{g: sizes{{Plan: &model.Plan{Unit: expr.Inch}}}}, &leaf{g: sizes{{Plan: &model.Plan{Unit: expr.MM}}}}
	assert.Equal(t, "0.47 in²", in.number(300, "mm2"))
	assert.Equal(t, "300 mm²", mm.number(300, "mm2"))
	assert.Equal(t, "2.50°", in.number(2.5, "deg"))
	assert.Equal(t, "1⁄64″", in.number(0.4, "mm"))
	assert.Equal(t, "0.005″", in.number(0.127, "mm"))
	assert.Equal(t, "0.04 mm", mm.number(0.04, "mm"))
	assert.Equal(t, "50 %", mm.number(50, "%"))
	assert.Equal(t, "12 kg", mm.number(12, "kg"))
	assert.Equal(t, "1.25", mm.number(1.25, ""))
	assert.Equal(t, "It stands.", sentence("it stands"))
}

// BenchmarkChair sets the chair's report, its tables worked out before.
func BenchmarkChair(b *testing.B) {
	s := whole(b, "petrel-chair", expr.Inch)
	for b.Loop() {
		Compose([]Section{s}, "")
	}
}
