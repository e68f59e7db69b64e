package reading

import (
	"planset/model/source"
	"planset/model/tree"
)

// A Show is one entry of [[step.shows]].
type Show struct {
	At       source.Span
	Name, As Word
	From, To Word
	Same     Word
}

// Wrong is the [step.wrong] table.
type Wrong struct {
	At    source.Span
	Parts []Word
	How   Word
}

// maxShows is how many things one picture can show to be measured.
const maxShows = 8

func (r *reader) shows(n *tree.Node) []Show {
	var out []Show
	for _, t := range r.limit(tables(n, "shows"), maxShows, "measures in one step") {
		out = append(out, Show{At: t.Span, Name: r.word(t, "name"), From: r.word(t, "from"), To: r.word(t, "to"), Same: r.word(t, "same"),
			As: r.choice(r.word(t, "as"), "distance", "gap", "level", "plumb", "square", "flat")})
	}
	return out
}

func (r *reader) wrong(n *tree.Node) *Wrong {
	t := n.Get("wrong")
	if t == nil || t.Kind != tree.Table {
		return nil
	}
	how := r.word(t, "how")
	w := &Wrong{At: t.Span, Parts: r.words(t, "part"),
		How: r.choice(how, "flipped", "turned", "swapped", "same hand", "left out", "both ends", "other end")}
	if how.Given() && !w.How.Given() {
		return nil // told
	}
	return w
}
