package reading

import "planset/model/tree"

// part reads one [part.*].
func (r *reader) part(n *tree.Node) *Part {
	p := &Part{Key: n.Key, At: n.KeySpan,
		Name: r.word(n, "name"), Code: r.word(n, "code"), Stock: r.word(n, "stock"), Hands: r.choice(r.word(n, "hands"), "pair"),
		Pieces: r.formula(n, "pieces"), Thick: r.formula(n, "thick"), Width: r.formula(n, "width"), Length: r.formula(n, "length"),
		RoughWidth: r.formula(n, "rough_width"), RoughLength: r.formula(n, "rough_length"),
		AsBought: r.flag(n, "as_bought"), Match: r.flag(n, "match"), Spare: r.whole(n, "spare"),
		TrimLater: r.word(n, "trim_later"), Note: r.word(n, "note"), Face: r.word(n, "face"), Need: r.choice(r.word(n, "need"), "clear", "hidden"),
		EndNames: r.words(n, "ends"), EdgeNames: r.words(n, "edges"), FaceNames: r.words(n, "faces"),
		Template: r.choice(r.word(n, "template"), "yes", "no"), HeadToTail: r.choice(r.word(n, "head_to_tail"), "yes", "no")}
	r.cuts(n, p)
	r.hollows(n, p)
	if o := n.Get("outline"); o != nil {
		p.OutlineAt = o.KeySpan
		for _, m := range r.limit(tables(n, "outline"), maxPoints, "points in an outline") {
			p.Outline = append(p.Outline, r.move(m))
		}
	}
	return p
}

// cuts reads what shapes the outside of a part.
func (r *reader) cuts(n *tree.Node, p *Part) {
	for _, e := range tables(n, "end") {
		p.Ends = append(p.Ends, End{keyWord(e), r.choice(r.word(e, "shape"), "square", "half round", "round"), r.formula(e, "radius"),
			r.formula(e, "miter"), r.formula(e, "bevel"), r.word(e, "long"), r.word(e, "long_face")})
	}
	for _, e := range tables(n, "edge") {
		p.Edges = append(p.Edges, Edge{keyWord(e), r.formula(e, "bevel"), r.word(e, "wide"), r.word(e, "bears")})
	}
	for _, t := range r.limit(tables(n, "taper"), maxCuts, "tapers in a part") {
		p.Tapers = append(p.Tapers, Taper{keyWord(t), r.word(t, "edge"), r.pair(t, "from"), r.pair(t, "to")})
	}
	for _, end := range tables(n, "corner") {
		for _, c := range end.Keys {
			if c.Kind == tree.Table {
				p.Corners = append(p.Corners, Corner{keyWord(end), keyWord(c), r.formula(c, "round"), r.pair(c, "clip")})
			}
		}
	}
	for _, side := range tables(n, "arris") {
		for _, a := range side.Keys {
			if a.Kind == tree.Table {
				p.Arrises = append(p.Arrises, Arris{keyWord(side), keyWord(a), r.formula(a, "round"), r.formula(a, "chamfer")})
			}
		}
	}
	for _, t := range tables(n, "trim") {
		p.Trims = append(p.Trims, Trim{keyWord(t), r.word(t, "by"), r.formula(t, "flat"), r.choice(r.word(t, "then"), "plumb", "square")})
	}
}

// hollows reads what is cut into a part.
func (r *reader) hollows(n *tree.Node, p *Part) {
	for _, t := range r.limit(tables(n, "notch"), maxCuts, "notches in a part") {
		p.Notches = append(p.Notches, Notch{keyWord(t), r.word(t, "edge"), r.formula(t, "at"), r.formula(t, "long"), r.formula(t, "deep")})
	}
	for _, g := range r.limit(tables(n, "groove"), maxCuts, "grooves in a part") {
		p.Grooves = append(p.Grooves, Groove{keyWord(g), r.word(g, "face"), r.pair(g, "along"), r.pair(g, "across"), r.formula(g, "deep")})
	}
	for _, h := range r.limit(tables(n, "hole"), maxCuts, "holes in a part") {
		bore := child(h, "bore")
		p.Holes = append(p.Holes, &Hole{Name: h.Key, At: h.KeySpan, Place: r.pair(h, "at"), Diameter: r.formula(h, "diameter"), Deep: r.formula(h, "deep"),
			For: r.word(h, "for"), Through: r.word(h, "through"), Face: r.word(h, "face"), Fine: r.flag(h, "fine"), Sink: r.flag(h, "sink"),
			BoreWide: r.formula(bore, "diameter"), BoreDeep: r.formula(bore, "deep")})
	}
}

func (r *reader) move(m *tree.Node) Move {
	mv := Move{At: m.Span, To: r.pair(m, "to"), Via: r.pair(m, "via"), Center: r.pair(m, "center")}
	if m.Get("from") != nil {
		mv.Start, mv.To = true, r.pair(m, "from")
	}
	return mv
}
