package reading

import (
	"planset/model/expr"
	"planset/model/source"
	"planset/model/tree"
)

// reader turns nodes into values. Kinds were checked before: a node of the
// wrong kind was reported and reads as "not given".
type reader struct{ problems *source.List }

func (r *reader) word(n *tree.Node, key string) Word {
	return asWord(n.Get(key))
}

func asWord(n *tree.Node) Word {
	if n == nil || n.Kind != tree.String {
		return Word{}
	}
	return Word{n.Text, n.Span}
}

// keyWord is a key of the author's as a word.
func keyWord(n *tree.Node) Word { return Word{n.Key, n.KeySpan} }

// words reads a text or a list of texts.
func (r *reader) words(n *tree.Node, key string) []Word {
	v := n.Get(key)
	if v == nil {
		return nil
	}
	if v.Kind == tree.String {
		return []Word{asWord(v)}
	}
	var out []Word
	for _, item := range v.Items {
		if item.Kind == tree.String {
			out = append(out, asWord(item))
		}
	}
	return out
}

func (r *reader) texts(n *tree.Node, key string) []string {
	var out []string
	for _, w := range r.words(n, key) {
		out = append(out, w.Text)
	}
	return out
}

func (r *reader) flag(n *tree.Node, key string) bool {
	v := n.Get(key)
	return v != nil && v.Kind == tree.Bool && v.Text == "true"
}

func (r *reader) number(n *tree.Node, key string) float64 {
	v := n.Get(key)
	if v == nil || v.Kind != tree.Number {
		return 0
	}
	return v.Num
}

func (r *reader) whole(n *tree.Node, key string) int { return int(r.number(n, key)) }

func (r *reader) formula(n *tree.Node, key string) Formula { return r.parse(n.Get(key)) }

// parse reads a number or a text as a formula.
func (r *reader) parse(n *tree.Node) Formula {
	if n == nil || !isFormula(n) {
		return Formula{}
	}
	at := n.Span
	if n.Kind == tree.String && n.Plain {
		at = n.Inner
	}
	return Formula{expr.Parse(n.Text, at, r.problems), at}
}

func (r *reader) pair(n *tree.Node, key string) [2]Formula {
	v := n.Get(key)
	if v == nil || v.Kind != tree.Array || len(v.Items) != 2 {
		return [2]Formula{}
	}
	return [2]Formula{r.parse(v.Items[0]), r.parse(v.Items[1])}
}

func (r *reader) formulas(n *tree.Node, key string) []Formula {
	v := n.Get(key)
	if v == nil || v.Kind != tree.Array {
		return nil
	}
	var out []Formula
	for _, item := range v.Items {
		out = append(out, r.parse(item))
	}
	return out
}

// tables returns the tables below key, in the order of the file.
func tables(n *tree.Node, key string) []*tree.Node {
	v := n.Get(key)
	if v == nil {
		return nil
	}
	list := v.Items
	if v.Kind == tree.Table {
		list = v.Keys
	}
	var out []*tree.Node
	for _, item := range list {
		if item.Kind == tree.Table {
			out = append(out, item)
		}
	}
	return out
}

// table returns the table below key; an empty one when there is none.
func child(n *tree.Node, key string) *tree.Node {
	if v := n.Get(key); v != nil && v.Kind == tree.Table {
		return v
	}
	return &tree.Node{Kind: tree.Table}
}

// named reads a table of formulas with names of the author's.
func (r *reader) named(n *tree.Node, key string) []Named {
	var out []Named
	for _, k := range child(n, key).Keys {
		switch {
		case isFormula(k):
			out = append(out, Named{Name: k.Key, At: k.KeySpan, Is: r.parse(k)})
		case k.Kind == tree.Table && k.Get("is") != nil:
			out = append(out, Named{k.Key, k.KeySpan, r.formula(k, "is"), r.word(k, "note").Text})
		case k.Kind == tree.Table && key == "measure":
			r.problems.Errorf(k.KeySpan, "incomplete", "measure %q does not say what it is", k.Key).Fix("write is = with a formula")
		}
	}
	return out
}

func (r *reader) override(n *tree.Node) Override {
	return Override{r.named(n, "size"), r.named(n, "count"), r.named(n, "derive")}
}

// systems reads the tables [inch] and [metric] below n.
func (r *reader) systems(n *tree.Node) map[expr.Unit]Override {
	return map[expr.Unit]Override{expr.Inch: r.override(child(n, "inch")), expr.MM: r.override(child(n, "metric"))}
}

// limit cuts a list that is too long and says so.
func (r *reader) limit(list []*tree.Node, most int, what string) []*tree.Node {
	if len(list) <= most {
		return list
	}
	r.problems.Errorf(list[most].Span, "too-many", "there may be at most %d %s", most, what)
	return list[:most]
}

// choice reports a word that is none of the allowed.
func (r *reader) choice(w Word, allowed ...string) Word {
	if !w.Given() {
		return w
	}
	for _, a := range allowed {
		if w.Text == a {
			return w
		}
	}
	p := r.problems.Errorf(w.At, "unknown-word", "%q is not understood here", w.Text)
	if near, ok := source.Nearest(w.Text, allowed); ok {
		p.Fix("did you mean %q?", near)
	} else {
		p.Fix("write one of: %s", quoted(allowed))
	}
	return Word{}
}

func quoted(list []string) string {
	out := ""
	for i, s := range list {
		if i > 0 {
			out += ", "
		}
		out += `"` + s + `"`
	}
	return out
}
