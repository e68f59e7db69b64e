package inspect

import (
	"cmp"
	"slices"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// Rules are what a finished page keeps to. Lengths are millimetres; heights of
// letters are those of capitals.
type Rules struct {
	Field   geom.Box // all ink lies in it
	Body    geom.Box // what is to be filled, without head and foot; empty: no matter
	Blank   float64  // share of the body that may be blank in one band across or down it
	Pen     float64  // of any line
	Letters float64  // of any text
	Notes   float64  // of notes in drawings: groups "text note"
	Sizes   float64  // of sizes one cuts to: groups "text" in a group "dim"
}

// slop is how much of a rule may be lost to rounding, mm.
const slop = 0.005

// Page returns every clash of a finished page: what Collisions and Outside find,
// letters too small, lines too fine, and a body that is blank for no reason.
func Page(p render.Page, r Rules) []Clash {
	found := slices.Concat(Collisions(p.Items), Outside(p.Items, r.Field))
	found = append(found, r.small(p.Items, r.Letters, "")...)
	if !r.Body.Empty() {
		if band := Blank(p.Items, r.Body); band > r.Blank {
			found = append(found, Clash{Fault: BlankBand, At: middle(r.Body), Texts: [2]string{p.Title}, Gap: band * r.Body.H()})
		}
	}
	return found
}

func middle(b geom.Box) geom.Pt { return b.Min.Add(b.Max).Mul(0.5) }

// small finds texts lower than least and lines that are too fine. In is the
// name of the group round the items.
func (r Rules) small(items []render.Item, least float64, in string) []Clash {
	var found []Clash
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if h := fonts.CapHeight(item.Face, item.Size); h < least-slop {
				found = append(found, Clash{Fault: SmallText, At: item.At, Texts: [2]string{item.Text}, Gap: h})
			}
		case render.Stroke:
			if w := item.Pen.Width; w < r.Pen-slop/10 {
				found = append(found, Clash{Fault: ThinLine, At: middle(Bounds([]render.Item{item})), Gap: w})
			}
		case render.Group:
			if want := r.of(item, in); want > r.Letters {
				if t, h := tallest(item.Items); t != nil && h < want-slop {
					found = append(found, Clash{Fault: SmallText, At: t.At, Texts: [2]string{words(item)}, Gap: h})
				}
			}
			name := item.Name
			if name == "" {
				name = in
			}
			found = append(found, r.small(item.Items, least, name)...)
		}
	}
	return found
}

// of is how high the letters of a text are to be. The figures of a fraction are
// smaller than its whole number, so the highest letters of a text count.
func (r Rules) of(g render.Group, in string) float64 {
	switch {
	case g.Name == "text note":
		return r.Notes
	case g.Name == "text" && in == "dim":
		return r.Sizes
	}
	return r.Letters
}

// tallest returns the text with the highest letters, and their height.
func tallest(items []render.Item) (best *render.Text, height float64) {
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if h := fonts.CapHeight(item.Face, item.Size); h > height {
				best, height = &item, h
			}
		case render.Group:
			if t, h := tallest(item.Items); h > height {
				best, height = t, h
			}
		}
	}
	return best, height
}

// Blank returns how much of body the widest band without ink takes, across it
// from side to side or down it from top to bottom, as a share of its height or
// width.
func Blank(items []render.Item, body geom.Box) float64 {
	var ink []geom.Box
	gatherInk(items, geom.NoBox(), &ink)
	var across, down [][2]float64
	for _, b := range ink {
		if b.Meets(body) && !ruled(b.W(), b.H()) {
			across = append(across, [2]float64{b.Min.Y, b.Max.Y})
		}
		if b.Meets(body) && !ruled(b.H(), b.W()) {
			down = append(down, [2]float64{b.Min.X, b.Max.X})
		}
	}
	return max(widest(across, body.Min.Y, body.Max.Y)/body.H(), widest(down, body.Min.X, body.Max.X)/body.W())
}

// ruled reports whether something so thin and so long is a ruled line, which
// fills nothing of the bands it passes.
func ruled(thin, long float64) bool { return thin < 1 && long > 20 }

// widest returns the widest gap between spans from lo to hi.
func widest(spans [][2]float64, lo, hi float64) float64 {
	slices.SortFunc(spans, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	gap, end := 0.0, lo
	for _, s := range spans {
		gap = max(gap, min(s[0], hi)-end)
		end = max(end, s[1])
	}
	return max(gap, hi-end)
}

// gatherInk adds the box of each text, line and fill: of a frame its sides, not
// what it holds.
func gatherInk(items []render.Item, clip geom.Box, out *[]geom.Box) {
	add := func(b geom.Box) {
		if !clip.Empty() && !b.Empty() {
			if !b.Meets(clip) {
				return
			}
			b = render.Overlap(b, clip)
		}
		if !b.Empty() {
			*out = append(*out, b)
		}
	}
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if item.Text != "" {
				add(TextQuad(item).Box())
			}
		case render.Stroke:
			for _, p := range item.Paths {
				for _, s := range p.Segs {
					add(s.Box().Grow(item.Pen.Width / 2))
				}
			}
		case render.Fill:
			if item.Tone != render.White {
				add(pathsBox(item.Paths, 0))
			}
		case render.Image:
			add(item.Box)
		case render.Group:
			if item.Clipped() {
				gatherInk(item.Items, item.Clip, out)
			} else {
				gatherInk(item.Items, clip, out)
			}
		}
	}
}
