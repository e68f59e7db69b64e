package sheets

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/model/shop/shoptest"
	"planset/render"
)

var update = flag.Bool("update", false, "write the golden files anew")

// chair is the input most tests use.
func chair(unit expr.Unit, paper string) Input {
	plan := shoptest.Chair(unit, shoptest.Standard())
	return Input{Plan: plan, Others: []*model.Plan{shoptest.Chair(unit, shoptest.Tall())}, Cuts: shoptest.Cuts(plan), Paper: paper}
}

// editions are the books most tests look at: words and lists only.
func editions(t *testing.T) map[string]*render.Book {
	books := map[string]*render.Book{}
	for name, in := range map[string]Input{
		"inch-letter": chair(expr.Inch, "letter"), "inch-a4": chair(expr.Inch, "a4"), "mm-a4": chair(expr.MM, "a4"),
	} {
		in.Licensee = "A. Reader"
		book, problems := compose(in, textSheets())
		require.Empty(t, problems, name)
		books[name] = book
	}
	return books
}

// each calls see with every item of a page, groups opened.
func each(items []render.Item, see func(render.Item)) {
	for _, item := range items {
		see(item)
		if g, ok := item.(render.Group); ok {
			each(g.Items, see)
		}
	}
}

// says returns the words of a page in their order.
func says(p render.Page) string {
	var b strings.Builder
	gather(&b, p.Items)
	return b.String()
}

func TestNothingGetsInTheWay(t *testing.T) {
	for name, book := range editions(t) {
		for _, p := range book.Pages {
			corner := geom.Pt{X: (p.Size.W - fieldW) / 2, Y: (p.Size.H - fieldH) / 2}
			field := geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: fieldW, Y: fieldH})}.Grow(0.36) // half a heavy pen
			assert.Empty(t, inspect.Outside(p.Items, field), "%s page %s", name, p.Name)
			assert.Empty(t, inspect.Collisions(p.Items), "%s page %s", name, p.Name)
		}
	}
}

func TestTypeIsLegible(t *testing.T) {
	for name, book := range editions(t) {
		for _, p := range book.Pages {
			each(p.Items, func(item render.Item) {
				switch item := item.(type) {
				case render.Text:
					assert.Empty(t, fonts.Missing(item.Face, item.Text), "%s %q", name, item.Text)
					assert.GreaterOrEqual(t, fonts.CapHeight(item.Face, item.Size), 1.8*0.7, "%q", item.Text) // fractions are smaller
					if item.Size >= render.Body {
						assert.LessOrEqual(t, len([]rune(item.Text)), 77, "%s page %s: %q", name, p.Name, item.Text)
					}
				case render.Stroke:
					assert.GreaterOrEqual(t, item.Pen.Width, 0.18)
				}
			})
		}
	}
}

// Both papers must break at the same places, so that a page number is the same
// in every copy of one unit.
func TestPapersBreakAlike(t *testing.T) {
	books := editions(t)
	letter, a4 := books["inch-letter"], books["inch-a4"]
	require.Len(t, a4.Pages, len(letter.Pages))
	for i := range letter.Pages {
		assert.Equal(t, strings.ReplaceAll(says(letter.Pages[i]), "Letter", "A4"), says(a4.Pages[i]))
	}
}

func TestEveryFootNamesTheEdition(t *testing.T) {
	for name, book := range editions(t) {
		for _, p := range book.Pages {
			for _, want := range []string{"Heron deck chair", "Standard size", "rev B", "2026-10-30", "A. Reader"} {
				assert.Contains(t, says(p), want, "%s page %s", name, p.Name)
			}
		}
	}
}

func TestContentsNameTheRealPages(t *testing.T) {
	book, _ := Compose(chair(expr.Inch, "letter")) // the whole set
	cover := book.Pages[0]
	var links []render.Link
	each(cover.Items, func(item render.Item) {
		if l, ok := item.(render.Link); ok {
			links = append(links, l)
		}
	})
	require.Equal(t, "Cover", book.Marks[0].Title)
	for _, mark := range book.Marks[1:] {
		if mark.Level > 0 {
			continue
		}
		if slices.ContainsFunc(textSheets(), func(s sheet) bool { return s.title == mark.Title }) {
			assert.Contains(t, says(book.Pages[mark.Page]), mark.Title)
		}
		assert.Contains(t, says(cover), mark.Title+" "+strconv.Itoa(mark.Page+1))
		assert.True(t, slices.ContainsFunc(links, func(l render.Link) bool { return l.Page == mark.Page }), mark.Title)
	}
	for _, title := range []string{"Print check", "Cautions", "Shopping list", "Cut list", "Board layouts", "Glossary"} {
		assert.True(t, slices.ContainsFunc(book.Marks, func(m render.Mark) bool { return m.Title == title }), title)
	}
	last := strconv.Itoa(len(book.Pages))
	for _, p := range book.Pages {
		assert.Contains(t, says(p), "page "+p.Name+" of "+last)
		each(p.Items, func(item render.Item) {
			if l, ok := item.(render.Link); ok && l.Addr == "" {
				assert.Less(t, l.Page, len(book.Pages))
				assert.GreaterOrEqual(t, l.Page, 0)
			}
		})
	}
}

// pageOf returns the first page with a title.
func pageOf(t *testing.T, book *render.Book, title string) render.Page {
	t.Helper()
	i := slices.IndexFunc(book.Pages, func(p render.Page) bool { return p.Title == title })
	require.GreaterOrEqual(t, i, 0, title)
	return book.Pages[i]
}

// Every page a glossary entry names must really use the word.
func TestGlossaryPagesAreRight(t *testing.T) {
	book := editions(t)["inch-letter"]
	page := pageOf(t, book, "Glossary")
	n := 0
	each(page.Items, func(item render.Item) {
		l, ok := item.(render.Link)
		if !ok {
			return
		}
		n++
		word := ""
		each(page.Items, func(other render.Item) {
			text, is := other.(render.Text)
			if is && text.Face == fonts.CondBold && text.At.Y < l.Box.Max.Y && text.At.Y > l.Box.Min.Y {
				word = text.Text
			}
		})
		stem := strings.ToLower(word)[:3]
		assert.Contains(t, strings.ToLower(says(book.Pages[l.Page])), stem, "%q on page %d", word, l.Page+1)
	})
	assert.Greater(t, n, 20)
}

// The lists of one book must agree with each other.
func TestListsAgree(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		in := chair(unit, "letter")
		laid := map[string]int{}
		bought := map[string]int{}
		for _, b := range in.Cuts.Boards {
			bought[b.Stock+" "+in.Plan.Unit.BoardLength(b.Length)]++
			for _, p := range b.Pieces {
				laid[p.Code]++
			}
		}
		assert.Empty(t, shop.Sums(in.Plan, laid))
		for _, b := range in.Cuts.Buying {
			assert.Equal(t, bought[b.Stock+" "+in.Plan.Unit.BoardLength(b.Length)], b.Quantity-b.Spare)
		}
		listed := 0
		d := newDesk(in, order())
		for _, r := range cutTable(d).Rows {
			if r.Head {
				continue
			}
			n, err := strconv.Atoi(r.Cells[2].Text)
			require.NoError(t, err)
			listed += n
		}
		assert.Len(t, in.Plan.Placed, listed)
	}
}

// Only what differs may stand in the table of sizes, and all of it.
func TestSizesListOnlyDifferences(t *testing.T) {
	in := chair(expr.Inch, "letter")
	rows := differences(in.Plan, in.Others)
	require.NotEmpty(t, rows)
	for _, r := range rows {
		assert.NotEqual(t, r.values[0], r.values[1], r.what)
	}
	has := func(what string) bool {
		return slices.ContainsFunc(rows, func(d difference) bool { return d.what == what })
	}
	assert.True(t, has("Leg, length"))
	assert.True(t, has("Back slat D2, length"))
	assert.True(t, has("Back slat, width"), "alike in the family, said once")
	assert.False(t, has("Arm, length"), "28 in both")
	assert.Empty(t, differences(in.Plan, []*model.Plan{in.Plan}))
}

func TestNoticeHasNoTriangle(t *testing.T) {
	book := editions(t)["inch-letter"]
	fills := map[string]int{}
	each(pageOf(t, book, "Cautions").Items, func(item render.Item) {
		if g, ok := item.(render.Group); ok && strings.HasPrefix(g.Name, "signal ") {
			each(g.Items, func(in render.Item) {
				if _, is := in.(render.Fill); is {
					fills[g.Name]++
				}
			})
		}
	})
	assert.Equal(t, map[string]int{"signal WARNING": 3, "signal CAUTION": 3, "signal NOTICE": 1}, fills)
}

func TestPrintedGaugesAreTrue(t *testing.T) {
	want := map[string]float64{"bar 6 in": 6 * 25.4, "bar 150 mm": 150, "square 4 in": 4 * 25.4, "square 100 mm": 100}
	for name, book := range editions(t) {
		axes := map[string][2]bool{}
		each(pageOf(t, book, "Print check").Items, func(item render.Item) {
			g, ok := item.(render.Group)
			if !ok || want[g.Name] == 0 {
				return
			}
			pen := g.Items[0].(render.Stroke).Pen.Width
			b := inspect.Bounds(g.Items)
			w, h := b.W()-pen, b.H()-pen
			a := axes[g.Name]
			a[0] = a[0] || near(w, want[g.Name])
			a[1] = a[1] || near(h, want[g.Name])
			axes[g.Name] = a
			assert.True(t, near(w, want[g.Name]) || near(h, want[g.Name]), "%s: %s is %.3f × %.3f", name, g.Name, w, h)
		})
		for gauge := range want {
			assert.Equal(t, [2]bool{true, true}, axes[gauge], "%s: %s along both axes", name, gauge)
		}
	}
}

func near(a, b float64) bool { return abs(a-b) < 1e-6 }

func TestSameInputSameBook(t *testing.T) {
	a, _ := Compose(chair(expr.Inch, "letter"))
	b, _ := Compose(chair(expr.Inch, "letter"))
	assert.Equal(t, a, b)
}

// textSheets are the sheets of words and lists, without those that draw.
func textSheets() []sheet {
	return slices.DeleteFunc(order(), func(s sheet) bool {
		return s.section == partsAndJoints || s.section == build || s.section == fullSize
	})
}

// What a page says is kept as text, so that a changed number is a changed line.
func TestGoldenPages(t *testing.T) {
	for name, in := range map[string]Input{"inch-letter": chair(expr.Inch, "letter"), "mm-a4": chair(expr.MM, "a4")} {
		book, problems := compose(in, textSheets())
		assert.Empty(t, problems)
		var b strings.Builder
		for _, p := range book.Pages {
			b.WriteString("== page " + p.Name + ": " + p.Title + "\n")
			each(p.Items, func(item render.Item) {
				if text, ok := item.(render.Text); ok {
					b.WriteString(text.Text + "\n")
				}
			})
		}
		path := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o750))
			require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), b.String())
	}
}
