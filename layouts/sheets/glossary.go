package sheets

import (
	"slices"

	"planset/layouts/tables"
	"planset/model/shop"
)

// glossary explains the shop words that the other pages really use. It reads
// the pages of the pass before, in the first pass those before it.
func glossary(d *desk, s sheet) {
	if len(d.terms) == 0 {
		return
	}
	l := d.leaf(s, s.title, "The shop words of this plan, with the pages where they matter.")
	t := &tables.Table{Narrow: true, Pad: 1.36, Columns: []tables.Column{
		{Title: "Word", Width: 35}, {Title: "What it means", Share: 1}, {Title: "Pages", Width: 38},
	}}
	for _, term := range d.terms {
		pages := make([]int, len(term.In))
		for i, n := range term.In {
			pages[i] = n + 1
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(term.Word), cell(term.Text), {Text: firstFew(pages), Page: pages[0]},
		}})
	}
	l.list(t)
}

// glossaryKey is the glossary's name in the order of sheets.
const glossaryKey = "glossary"

// shopWords finds the shop words on the pages made so far, but for those of the
// glossary itself.
func (d *desk) shopWords() []shop.Term {
	if !slices.ContainsFunc(d.sheets, func(s sheet) bool { return s.key == glossaryKey }) {
		return nil
	}
	texts := d.texts()
	if first, had := d.now[glossaryKey]; had {
		for i := first; i <= d.now["end "+glossaryKey]; i++ {
			texts[i] = ""
		}
	}
	return shop.Glossary(d.plan, texts)
}

// sameTerm reports whether a word is found on the same pages.
func sameTerm(a, b shop.Term) bool { return a.Word == b.Word && slices.Equal(a.In, b.In) }

// firstFew writes the first pages a word is on; a long row of numbers is not
// looked up.
func firstFew(pages []int) string {
	const few = 4
	if len(pages) > few {
		return shop.Numbers(pages[:few]) + " …"
	}
	return shop.Numbers(pages)
}
