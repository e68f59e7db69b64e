package report

import (
	"slices"

	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// sides are the views that are tried, the usual one first.
var sides = []string{"front right high", "rear right high", "front right low", "rear left low"}

// An album makes the pictures of one plan.
type album struct {
	plan *model.Plan
	cams []view.Camera
	seen []*woodwork.Picture // the whole piece from each camera
}

// newAlbum looks at a plan from all sides.
func newAlbum(p *model.Plan) *album {
	a := &album{plan: p}
	box := geom.Box{Max: geom.Pt{X: 100, Y: 100}}
	for _, words := range sides {
		cam, err := view.Words(words)
		if err != nil || len(p.Placed) == 0 {
			continue
		}
		a.cams = append(a.cams, cam)
		a.seen = append(a.seen, woodwork.Fit(a.pieces(nil), cam, box, 1))
	}
	return a
}

// pieces are the placed pieces, those of some parts standing out.
func (a *album) pieces(codes []string) []woodwork.Piece {
	var out []woodwork.Piece
	for i, p := range a.plan.Placed {
		look := woodwork.Done
		if slices.Contains(codes, p.Part.Code) {
			look = woodwork.Fresh
		}
		out = append(out, woodwork.Piece{ID: i, Solid: p.Solid, Grain: p.Pose.Along, Origin: p.Pose.Origin, Look: look})
	}
	return out
}

// best is the camera that sees most of some parts.
func (a *album) best(codes []string) int {
	best, most := 0, -1
	for k, pic := range a.seen {
		n := 0
		for _, code := range codes {
			seen := 0
			for i, p := range a.plan.Placed {
				if p.Part.Code == code {
					seen += len(pic.Spots(i))
				}
			}
			n += min(seen, 40) + 100*min(seen, 1) // every part before much of one
		}
		if n > most {
			best, most = k, n
		}
	}
	return best
}

// cropped is how much is shown round the parts a picture is about, of their size.
const cropped = 0.18

// picture draws the parts with some letters, toned, in a box of the page, and
// what stands round them as far as the box goes. It is empty for a plan in which
// nothing stands. accent is for the letters' tabs.
func (a *album) picture(codes []string, box geom.Box, accent render.Tone) []render.Item {
	if len(a.cams) == 0 {
		return nil
	}
	k := a.best(codes)
	whole := a.seen[k]
	about := geom.NoBox()
	for _, p := range a.plan.Placed {
		if len(codes) > 0 && !slices.Contains(codes, p.Part.Code) {
			continue
		}
		for _, v := range p.Solid.Points() {
			about = about.With(whole.Point(v))
		}
	}
	about = render.Overlap(about.Grow(cropped*max(about.W(), about.H())), whole.Box.Grow(2))
	scale := min(box.W()/about.W(), box.H()/about.H())
	mid := middle(box).Add(middle(whole.Box).Sub(middle(about)).Mul(scale))
	pic := woodwork.At(a.pieces(codes), a.cams[k], mid, whole.Scale*scale)
	items := finer(pic.Items())
	var taken []geom.Box
	for _, code := range codes {
		if at, ok := a.spot(pic, code, box, taken); ok {
			tab, wide := lettering.Tab(at, code, "", tabHigh, accent)
			items = append(items, tab...)
			taken = append(taken, geom.Box{Min: at, Max: at.Add(geom.Pt{X: wide, Y: tabHigh})})
		}
	}
	return []render.Item{render.Group{Name: "picture", Clip: box, Items: items}}
}

const tabHigh = 3.6

// spot is where the letter of a part goes: on a piece of it where that is seen,
// clear of the letters there are; the lower left corner of its tab.
func (a *album) spot(pic *woodwork.Picture, code string, box geom.Box, taken []geom.Box) (geom.Pt, bool) {
	wide := lettering.TabWidth(code, "", tabHigh)
	for i, p := range a.plan.Placed {
		if p.Part.Code != code {
			continue
		}
		for _, mid := range pic.Spots(i) {
			at := mid.Sub(geom.Pt{X: wide / 2, Y: tabHigh / 2})
			tab := geom.Box{Min: at, Max: at.Add(geom.Pt{X: wide, Y: tabHigh})}
			clear := !slices.ContainsFunc(taken, func(b geom.Box) bool { return b.Grow(0.3).Meets(tab) })
			if clear && box.Has(tab.Min) && box.Has(tab.Max) {
				return at, true
			}
		}
	}
	return geom.Pt{}, false
}

// fine is how much thinner the lines of a small picture are than those of a
// sheet.
const fine = 0.5

// finer draws with thinner pens.
func finer(items []render.Item) []render.Item {
	out := make([]render.Item, len(items))
	for i, item := range items {
		switch item := item.(type) {
		case render.Stroke:
			item.Pen.Width = max(0.12, item.Pen.Width*fine)
			out[i] = item
		case render.Group:
			item.Items = finer(item.Items)
			out[i] = item
		default:
			out[i] = item
		}
	}
	return out
}

func middle(b geom.Box) geom.Pt { return b.Min.Add(b.Max).Mul(0.5) }
