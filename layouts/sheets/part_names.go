package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/geom"
)

// A called is a dimension with the name by which an author hides or moves it.
type called struct {
	dims.Wish
	name string
	stay bool // it can be hidden but has no other place
}

// chosen leaves out the dimensions that the author hides and moves those that
// are to stand elsewhere.
func (b *partPage) chosen(all []called) []dims.Wish {
	var out []dims.Wish
	for _, c := range all {
		if b.hides(c.name) {
			continue
		}
		w := c.Wish
		if r, ok := w.(dims.Run); ok {
			if r.Stops = b.chosenStops(r.Stops); len(r.Stops) < 2 {
				continue
			}
			w = r
		}
		if by := b.shift(c.name); by != (geom.Pt{}) && !c.stay {
			w = dims.Shifted{Wish: w, By: by}
		}
		out = append(out, w)
	}
	return out
}

// chosenStops are the marks of a row that the author wants to see, the datum
// first, each with how far its text is to stand from its place.
func (b *partPage) chosenStops(stops []dims.Stop) []dims.Stop {
	out := stops[:1:1]
	for _, s := range stops[1:] {
		if !b.hides(s.Name) {
			s.By = b.shift(s.Name)
			out = append(out, s)
		}
	}
	return out
}

// shift is how far the author moves what goes by a name.
func (b *partPage) shift(name string) geom.Pt {
	for _, m := range b.p.Drawing.Move {
		if m.Name == name {
			return m.By
		}
	}
	return geom.Pt{}
}

func (b *partPage) hides(name string) bool {
	return name != "" && slices.Contains(b.p.Drawing.Hide, name)
}

// DimensionNames are the names of the dimensions in the drawing of a part, as it
// comes out when nothing is hidden or moved: those that can be hidden, and of
// these the ones that can be moved.
func DimensionNames(plan *model.Plan, part *model.Part) (hide, move []string) {
	for _, set := range families(plan) {
		if !slices.Contains(set, part) || part.Thick <= 0 || len(part.Board.Outline) == 0 {
			continue
		}
		b := newDesk(Input{Plan: plan}, nil).partPage(set)
		b.setView(plateW)
		for _, c := range slices.Concat(b.named(), b.smallNamed()) {
			if r, ok := c.Wish.(dims.Run); ok {
				for _, s := range r.Stops {
					hide, move = appendNamed(hide, s.Name), appendNamed(move, s.Name)
				}
			}
			hide = appendNamed(hide, c.name)
			if !c.stay {
				move = appendNamed(move, c.name)
			}
		}
	}
	return hide, move
}

// smallNamed are the dimensions of the end view and the edge view.
func (b *partPage) smallNamed() []called {
	var out []called
	if b.endTells() {
		out = b.profileWishes(b.endCut(b.profileScale(), geom.Pt{}))
	}
	if v, seen, ok := b.edgeDrawn(bodyW / 2); ok {
		out = append(out, b.edgeWishes(v, seen)...)
	}
	return out
}

func appendNamed(list []string, name string) []string {
	if name == "" {
		return list
	}
	return appendNew(list, name)
}

// A counter numbers things of one kind from the second on: "radius", "radius 2".
type counter map[string]int

func (c counter) name(kind string) string {
	c[kind]++
	if c[kind] == 1 {
		return kind
	}
	return kind + " " + digits(c[kind])
}

// holeBase is the name of a hole without the number a joint gave it.
func holeBase(h model.Hole) string {
	name, _, _ := strings.Cut(h.Name, ".")
	return orElse(name, "hole")
}

// shownFace is the number of the face the author wants to see, or -1.
func shownFace(p *model.Part) int {
	if p.Drawing.Face == "" {
		return -1
	}
	return slices.Index(p.Names.Faces[:], p.Drawing.Face)
}

// wanted takes the author's scale, and leaves out a plain stretch when the part
// is too long for it.
func (v *plate) wanted() bool {
	s := v.p.Drawing.Scale
	if s == 0 || v.p.Width/s > 2*plateH {
		return false
	}
	v.k = 1 / s
	return v.p.Length*v.k <= math.Max(v.wide, bodyW-36) || v.breaks()
}
