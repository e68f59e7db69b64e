package assembly

import (
	"fmt"
	"slices"
	"strings"

	"planset/model/geom"
	"planset/model/source"
)

// A feature of a part is one of its six sides: axis 0 along, 1 across, 2 thick;
// side 0 at zero, 1 at the far side.
type feature struct{ axis, side int }

// feature finds a side of a part by its name.
func (p *part) feature(name string) (feature, bool) {
	for axis, pair := range [][2]string{p.names.Ends, p.names.Edges, p.names.Faces} {
		if i := slices.Index(pair[:], name); i >= 0 {
			return feature{axis, i}, true
		}
	}
	return feature{}, false
}

// sides lists the names of a part's sides.
func (p *part) sides() []string {
	return append(append(append([]string{}, p.names.Ends[:]...), p.names.Edges[:]...), p.names.Faces[:]...)
}

// featureAt finds a side or tells that there is none.
func (s *solver) featureAt(p *part, name string, at source.Span) (feature, bool) {
	f, ok := p.feature(name)
	if !ok {
		s.problems.Errorf(at, "unknown-side", "part %q has no side %q", p.decl.Key, name).Suggest(name, p.sides()).
			Note(p.decl.At, "its ends are %s, its edges %s, its faces %s", strings.Join(p.names.Ends[:], " and "), strings.Join(p.names.Edges[:], " and "), strings.Join(p.names.Faces[:], " and "))
	}
	return f, ok
}

// spot finds a side, arris, corner or hole in the part's own frame: a point on
// it and which of the three coordinates it fixes.
func (s *solver) spot(p *part, words []string, rank int, at source.Span) (pt geom.V3, fixed [3]bool, ok bool) {
	if len(words) == 2 && words[0] == "hole" {
		along, across, ok := s.holePlace(p, words[1], rank, at)
		return geom.V3{X: along, Y: across}, [3]bool{true, true, false}, ok
	}
	var c [3]float64
	for _, w := range words {
		f, ok := s.featureAt(p, w, at)
		if !ok {
			return pt, fixed, false
		}
		if fixed[f.axis] {
			s.problems.Errorf(at, "point", "%s names two opposite sides of part %q", strings.Join(words, "."), p.decl.Key)
			return pt, fixed, false
		}
		fixed[f.axis] = true
		if f.side == 1 {
			if c[f.axis], ok = s.own(p, [...]string{"length", "width", "thick"}[f.axis], rank, at); !ok {
				return pt, fixed, false
			}
		}
	}
	return geom.V3{X: c[0], Y: c[1], Z: c[2]}, fixed, true
}

// own works out a part's own length, width or thickness.
func (s *solver) own(p *part, what string, rank int, at source.Span) (float64, bool) {
	key := p.decl.Key + "." + what
	if rank > 0 {
		key = fmt.Sprintf("%s of rank %d", key, rank)
	}
	ok := s.once(key, at, func() bool {
		mm, ok := s.ownSize(p, what, rank)
		s.sizes[key] = mm
		return ok && s.positive(p.decl.At, mm, "the "+what+" of "+p.decl.Key)
	})
	return s.sizes[key], ok
}

func (s *solver) ownSize(p *part, what string, rank int) (float64, bool) {
	if p.stock == nil {
		return 0, false
	}
	d, c := p.decl, &scope{s: s, part: p, rank: rank}
	switch what {
	case "thick":
		return s.lengthOr(d.Thick, c, p.stock.Thick)
	case "width":
		if !d.Width.Given() && len(d.Outline) > 0 {
			o, ok := s.freeOutline(p, rank)
			if !ok {
				return 0, false
			}
			return o.Box().H(), true
		}
		return s.lengthOr(d.Width, c, p.stock.Width)
	}
	switch {
	case d.Length.Given() || d.Length.At.Valid():
		return s.lengthOr(d.Length, c, 0)
	case len(d.Outline) > 0:
		o, ok := s.freeOutline(p, rank)
		if !ok {
			return 0, false
		}
		return o.Box().W(), true
	case len(d.Trims) > 0:
		return s.foundLength(p, rank)
	}
	s.problems.Errorf(d.At, "part", "part %q has no length", d.Key).Fix("write length = ..., or trim an end by another plane")
	return 0, false
}
