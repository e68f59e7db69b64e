package reading

import "planset/model/tree"

// exploded reads how something is drawn taken apart.
func (r *reader) exploded(n *tree.Node) Exploded {
	return Exploded{r.word(n, "view"), r.formula(n, "apart")}
}

// drawing reads what the author wants otherwise in a part's drawing.
func (r *reader) drawing(n *tree.Node) Drawing {
	d := Drawing{Part: keyWord(n), Face: r.word(n, "face"), Scale: r.word(n, "scale"), Hide: r.words(n, "hide")}
	move := child(n, "move")
	for _, k := range move.Keys {
		d.Move = append(d.Move, Shift{keyWord(k), r.pair(move, k.Key)})
	}
	return d
}
