package sheets

import (
	"maps"
	"slices"
)

// renewGlossary makes the pages of the glossary again from the words of this
// pass, when all else stands as the pass before promised it: those words are
// the only thing that another pass would change, and they bear on no other
// page. It leaves the desk as it is when the new pages would not fit in the
// place of the old ones, or when another sheet shares them.
func (d *desk) renewGlossary() {
	first, made := d.now[glossaryKey]
	if !made || d.total != len(d.leaves) || !maps.Equal(d.refs, d.now) || slices.EqualFunc(d.terms, d.found, sameTerm) {
		return
	}
	end := d.now["end "+glossaryKey]
	aside := clearDesk(d.in, d.sheets, d.store)
	aside.refs, aside.terms, aside.total = d.refs, d.found, d.total
	aside.leaves = slices.Clone(d.leaves[:first])
	for _, s := range d.sheets {
		if s.key == glossaryKey {
			s.make(aside, s)
			continue
		}
		if at, had := d.now[s.key]; had && at <= end && d.now["end "+s.key] >= first {
			return
		}
	}
	if len(aside.leaves) != end+1 || len(aside.problems) > 0 || len(aside.blanks) > 0 {
		return
	}
	for i := first; i <= end; i++ {
		d.leaves[i] = aside.leaves[i]
		d.leaves[i].d = d
	}
	d.terms = d.found
}
