package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
)

// Distances of a bolt in diameters, NDS chapter 12 from memory: 4 from a loaded
// edge, 1.5 from any edge, 4 from an end.
const (
	boltEdgeLoaded = 4
	boltEdgeLeast  = 1.5
	boltEndLeast   = 4
)

// boltEdge finds bolts too near an edge or end.
func boltEdge(s *shop) []Finding {
	var w worst
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if h.Kind != model.BoltHole || h.Hardware == nil {
				continue
			}
			d := h.Hardware.Diam
			s.boltSide(&w, p, toEdge(p, h), boltEdgeLeast*d, "edge")
			s.boltSide(&w, p, math.Min(h.Along, p.Length-h.Along), boltEndLeast*d, "end")
			if e := toEdge(p, h); e >= boltEdgeLeast*d && e < boltEdgeLoaded*d*0.7 {
				w.add(Finding{Severity: Note, Parts: []string{p.Code}, Value: e, Limit: boltEdgeLoaded * d, Unit: "mm",
					Text: fmt.Sprintf("%s: a bolt sits %s from an edge; an edge that carries load wants %s", called(p), s.Unit.LongTo(e, expr.Fine), s.Unit.LongTo(boltEdgeLoaded*d, expr.Fine)),
					Fix:  fmt.Sprintf("move it in by %s if the load pushes that way", s.Unit.LongTo(boltEdgeLoaded*d-e, expr.Fine))})
			}
		}
	}
	return w.list()
}

func (s *shop) boltSide(w *worst, p *model.Part, got, least float64, side string) {
	if got >= least-0.5 {
		return
	}
	level := Warning
	if got < least/2 {
		level = Error
	}
	w.add(Finding{Severity: level, Parts: []string{p.Code}, Value: got, Limit: least, Unit: "mm",
		Text: fmt.Sprintf("%s: a bolt sits %s from the %s; %s is the least", called(p), s.Unit.LongTo(got, expr.Fine), side, s.Unit.LongTo(least, expr.Fine)),
		Fix:  fmt.Sprintf("move it in by %s", s.Unit.LongTo(least-got, expr.Fine))})
}
