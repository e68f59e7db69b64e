package reading

import (
	"planset/model/tree"
)

// ways are the directions a feature can look.
var ways = []string{"up", "down", "front", "rear", "left", "right", "in", "out"}

func (r *reader) group(n *tree.Node) *Group {
	g := &Group{Key: n.Key, At: n.KeySpan, In: r.word(n, "in"), On: r.word(n, "on"), Stands: r.words(n, "stands")}
	for _, k := range child(n, "at").Keys {
		if isFormula(k) {
			g.Set = append(g.Set, Direction{keyWord(k), r.parse(k)})
		}
	}
	for _, key := range []string{"fall", "lean", "turn", "splay", "tip"} {
		if n.Get(key) != nil {
			g.Turns = append(g.Turns, Turned{key, r.formula(n, key)})
		}
	}
	if len(g.Turns) > 1 {
		r.problems.Errorf(n.KeySpan, "group-turn", "group %q is turned by both %s and %s; a group turns by one named angle", g.Key, g.Turns[0].Key, g.Turns[1].Key).
			Fix("put one group in another, each with its own angle")
	}
	return g
}

func (r *reader) place(n *tree.Node) *Place {
	p := &Place{At: n.Span, Part: r.word(n, "part"), In: r.word(n, "in"), Around: r.whole(n, "around")}
	for _, k := range child(n, "lies").Keys {
		if w := r.choice(asWord(k), ways...); w.Given() {
			p.Lies = append(p.Lies, Lie{keyWord(k), w})
		}
	}
	p.Meets = r.meets(child(n, "meets"), "")
	p.Level = r.meets(child(n, "level"), "")
	if t := n.Get("row"); t != nil && t.Kind == tree.Table {
		p.Row = &Row{t.KeySpan, r.choice(r.word(t, "toward"), ways[:6]...), r.formula(t, "count"), r.formula(t, "gap"), r.formula(t, "to")}
	}
	if t := n.Get("fan"); t != nil && t.Kind == tree.Table {
		p.Fan = &Fan{t.KeySpan, r.formula(t, "count"), r.formula(t, "gap"), r.formula(t, "turn")}
	}
	if t := n.Get("clear"); t != nil && t.Kind == tree.Table {
		p.Clear = r.clear(t)
	}
	return p
}

func (r *reader) clear(t *tree.Node) *Clear {
	c := &Clear{At: t.KeySpan, By: r.formula(t, "by")}
	for _, k := range t.Keys {
		if k.Key != "by" && k.Kind == tree.String {
			c.Feature, c.Of = keyWord(k), asWord(k)
		}
	}
	if !c.Feature.Given() || !c.By.Given() {
		r.problems.Errorf(t.KeySpan, "clear", `"clear" needs a feature, what to keep clear of, and "by"`).
			Fix(`write clear = { inside = "back_slat", by = "1/4" }`)
		return nil
	}
	return c
}

// meets reads features, plain or dotted, with their positions.
func (r *reader) meets(n *tree.Node, before string) []Meet {
	var out []Meet
	for _, k := range n.Keys {
		name := before + k.Key
		if k.Kind == tree.Table {
			out = append(out, r.meets(k, name+".")...)
			continue
		}
		if !isFormula(k) {
			continue
		}
		m := Meet{Feature: Word{name, k.KeySpan}}
		switch {
		case len(before) >= 5 && before[:5] == "hole.":
			m.Hole = asWord(k)
		case k.Kind == tree.String && k.Text == "floor":
			m.Floor = true
			m.Where.At = k.Span
		default:
			m.Where = r.parse(k)
		}
		out = append(out, m)
	}
	return out
}
