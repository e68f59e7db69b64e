package pdf

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"unicode/utf8"

	"planset/render"
)

// checkMarks notes marks that lead nowhere or hang in the air.
func (p *painter) checkMarks() {
	level := -1
	for _, m := range p.book.Marks {
		switch {
		case m.Page < 0 || m.Page >= len(p.book.Pages):
			p.failBookf("the mark %q leads to page %d of %d", m.Title, m.Page+1, len(p.book.Pages))
		case m.Level < 0 || m.Level > level+1:
			p.failBookf("the mark %q is of level %d, after one of level %d", m.Title, m.Level, level)
		case !utf8.ValidString(m.Title):
			p.failBookf("the mark %q is not UTF-8", m.Title)
		case math.IsNaN(m.Y - m.Y):
			p.failBookf("the mark %q is nowhere", m.Title)
		}
		level = m.Level
	}
}

// An entry is a mark and its kin, as places in the list of marks; -1 is none.
type entry struct {
	parent, prev, next, first, last int
	below                           int // marks under it, at any depth
}

// family finds who is whose parent. Levels rise by one at most.
func family(marks []render.Mark) []entry {
	all := make([]entry, len(marks))
	var open []int // the latest mark of each level
	for i, m := range marks {
		all[i] = entry{parent: -1, prev: -1, next: -1, first: -1, last: -1}
		if m.Level < len(open) {
			prev := open[m.Level]
			all[i].prev, all[prev].next = prev, i
		}
		if m.Level > 0 {
			parent := open[m.Level-1]
			all[i].parent = parent
			if all[parent].first < 0 {
				all[parent].first = i
			}
			all[parent].last = i
		}
		for up := all[i].parent; up >= 0; up = all[up].parent {
			all[up].below++
		}
		open = append(open[:m.Level], i)
	}
	return all
}

// outline returns the objects of the bookmarks, the root first. They are
// numbered from first on. fpdf could write them, but it gives open entries the
// count 0, which ISO 32000-1, 12.3.3, does not allow.
func outline(marks []render.Mark, pages []int, first int) [][]byte {
	kin := family(marks)
	root := fmt.Appendf(nil, "<< /Type /Outlines /Count %d", len(marks))
	var items [][]byte
	for i, m := range marks {
		k := kin[i]
		body := fmt.Appendf(nil, "<< /Title %s /Dest [%d 0 R /XYZ null ", literal(m.Title), pages[m.Page])
		body = append(appendNumber(body, m.Y*point, 2), " null]"...)
		ref := func(key string, to int) {
			if to >= 0 {
				body = fmt.Appendf(body, " /%s %d 0 R", key, first+1+to)
			}
		}
		if k.parent < 0 {
			body = fmt.Appendf(body, " /Parent %d 0 R", first)
			if k.prev < 0 {
				root = fmt.Appendf(root, " /First %d 0 R", first+1+i)
			}
			if k.next < 0 {
				root = fmt.Appendf(root, " /Last %d 0 R", first+1+i)
			}
		}
		ref("Parent", k.parent)
		ref("Prev", k.prev)
		ref("Next", k.next)
		ref("First", k.first)
		ref("Last", k.last)
		if k.below > 0 {
			body = fmt.Appendf(body, " /Count %d", k.below)
		}
		items = append(items, append(body, " >>"...))
	}
	return append([][]byte{append(root, " >>"...)}, items...)
}

var (
	kids = regexp.MustCompile(`\n1 0 obj\n<</Type /Pages\n/Kids \[([0-9 R]*)\]\n/Count (\d+)\n`)
	kid  = regexp.MustCompile(`(\d+) 0 R`)
)

// pageObjects returns the object number of each page.
func pageObjects(file []byte, want int) ([]int, error) {
	m := kids.FindSubmatch(file)
	if m == nil {
		return nil, errLayout
	}
	var pages []int
	for _, k := range kid.FindAllSubmatch(m[1], -1) {
		n, err := strconv.Atoi(string(k[1]))
		if err != nil {
			return nil, errLayout
		}
		pages = append(pages, n)
	}
	if len(pages) != want {
		return nil, errLayout
	}
	return pages, nil
}
