package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/dims"
	"planset/model"
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
			first := r.Stops[0]
			r.Stops = slices.DeleteFunc(slices.Clone(r.Stops), func(s dims.Stop) bool { return b.hides(s.Name) })
			if len(r.Stops) < 2 || r.Stops[0] != first {
				continue
			}
			w = r
		}
		for _, m := range b.p.Drawing.Move {
			if m.Name == c.name && !c.stay {
				w = dims.Shifted{Wish: w, By: m.By}
			}
		}
		out = append(out, w)
	}
	return out
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
		b := &partPage{d: newDesk(Input{Plan: plan}, nil), set: set, p: set[0]}
		b.setView(plateW)
		for _, c := range b.named() {
			if r, ok := c.Wish.(dims.Run); ok {
				for _, s := range r.Stops {
					hide = appendNamed(hide, s.Name)
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
