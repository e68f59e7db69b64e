package sheets

import (
	"planset/model/geom"
	"planset/render"
)

// Moved returns items shifted by v. Links and clips move along.
func Moved(items []render.Item, v geom.Pt) []render.Item {
	out := make([]render.Item, len(items))
	for i, item := range items {
		switch item := item.(type) {
		case render.Stroke:
			item.Paths = movedPaths(item.Paths, v)
			out[i] = item
		case render.Fill:
			item.Paths = movedPaths(item.Paths, v)
			out[i] = item
		case render.Text:
			item.At = item.At.Add(v)
			out[i] = item
		case render.Link:
			item.Box = movedBox(item.Box, v)
			out[i] = item
		case render.Image:
			item.Box = movedBox(item.Box, v)
			out[i] = item
		case render.Group:
			item.Items = Moved(item.Items, v)
			if item.Clipped() {
				item.Clip = movedBox(item.Clip, v)
			}
			out[i] = item
		}
	}
	return out
}

func movedBox(b geom.Box, v geom.Pt) geom.Box { return geom.Box{Min: b.Min.Add(v), Max: b.Max.Add(v)} }

func movedPaths(paths []render.Path, v geom.Pt) []render.Path {
	out := make([]render.Path, len(paths))
	for i, p := range paths {
		out[i] = render.Path{Closed: p.Closed, Segs: make([]geom.Seg, len(p.Segs))}
		for j, s := range p.Segs {
			s.A, s.B, s.C = s.A.Add(v), s.B.Add(v), s.C.Add(v)
			out[i].Segs[j] = s
		}
	}
	return out
}
