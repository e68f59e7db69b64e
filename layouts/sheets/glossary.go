package sheets

import (
	"slices"

	"planset/layouts/tables"
	"planset/model/shop"
)

// glossary explains the shop words that the other pages really use. It reads
// the pages of the pass before, so it is empty in the first.
func glossary(d *desk, s sheet) {
	texts := slices.Clone(d.words)
	for i := d.page(s.key); i > 0 && i <= d.page("end "+s.key); i++ {
		texts[i-1] = ""
	}
	terms := shop.Glossary(d.plan, texts)
	if len(terms) == 0 {
		return
	}
	l := d.leaf(s, s.title, "The shop words of this plan, with the pages where they matter.")
	t := &tables.Table{Narrow: true, Pad: 1.36, Columns: []tables.Column{
		{Title: "Word", Width: 35}, {Title: "What it means", Share: 1}, {Title: "Pages", Width: 38},
	}}
	for _, term := range terms {
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

// firstFew writes the first pages a word is on; a long row of numbers is not
// looked up.
func firstFew(pages []int) string {
	const few = 4
	if len(pages) > few {
		return shop.Numbers(pages[:few]) + " …"
	}
	return shop.Numbers(pages)
}
