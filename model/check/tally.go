package check

import (
	"slices"

	"planset/model"
)

// tally keeps one finding for each key, the one that is farthest off, with the
// letters of every part that shares its fault: a row of screws is one finding,
// and so are the slats of a family.
type tally struct {
	order []string
	by    map[string]*entry
}

type entry struct {
	Finding
	off   float64
	parts []*model.Part
}

// add enters a finding that is off by an amount, about some parts.
func (t *tally) add(key string, off float64, f Finding, parts ...*model.Part) {
	if t.by == nil {
		t.by = map[string]*entry{}
	}
	e, known := t.by[key]
	switch {
	case !known:
		e = &entry{f, off, nil}
		t.by[key] = e
		t.order = append(t.order, key)
	// A hair of difference must not choose between left and right.
	case off > e.off+1e-6:
		e.Finding, e.off = f, off
	}
	for _, p := range parts {
		if !slices.Contains(e.parts, p) {
			e.parts = append(e.parts, p)
		}
	}
}

// list is what was kept, in the order of entry.
func (t *tally) list() []Finding {
	var out []Finding
	for _, k := range t.order {
		e := t.by[k]
		for _, p := range e.parts {
			e.Parts = append(e.Parts, p.Code)
		}
		out = append(out, e.Finding)
	}
	return out
}

// named is list with the names of the parts before each text.
func (t *tally) named() []Finding {
	out := t.list()
	for i, k := range t.order {
		if parts := t.by[k].parts; len(parts) > 0 {
			out[i].Text = called(parts...) + ": " + out[i].Text
		}
	}
	return out
}
