package reading

import (
	"fmt"
	"slices"
	"strings"

	"planset/model/source"
	"planset/model/tree"
)

// checkTable reports unknown keys and values of the wrong kind below n.
func checkTable(n *tree.Node, t *table, problems *source.List) {
	if len(n.Keys) > maxEntries {
		problems.Errorf(n.Span, "too-many", "%s has more than %d entries", t.name, maxEntries)
		return
	}
	for _, k := range n.Keys {
		fd, ok := t.keys[k.Key]
		if !ok && t.any != nil {
			fd, ok = *t.any, true
		}
		if !ok {
			problems.Errorf(k.KeySpan, "unknown-key", "%s has no key %q", place(t.name), k.Key).Suggest(k.Key, known(t))
			continue
		}
		checkField(k, fd, problems)
	}
}

func place(name string) string {
	if name == "plan file" {
		return "a plan file"
	}
	return "[" + name + "]"
}

func known(t *table) []string {
	out := make([]string, 0, len(t.keys))
	for k := range t.keys {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// checkField reports a value that is not of the field's kind.
func checkField(n *tree.Node, fd field, problems *source.List) {
	want := ""
	switch fd.kind {
	case text:
		want = expect(n.Kind == tree.String, `a text in quotes`)
	case words:
		want = expect(n.Kind == tree.String || listOf(n, tree.String), `a name in quotes, or a list of such names`)
	case texts:
		want = expect(listOf(n, tree.String), `a list of texts, as ["one", "two"]`)
	case formula:
		want = expect(isFormula(n), `a number, or a formula in quotes`)
	case pair:
		want = expect(n.Kind == tree.Array && len(n.Items) == 2 && allFormulas(n), `two lengths, as [2, "3 1/2"]`)
	case formulas:
		want = expect(n.Kind == tree.Array && allFormulas(n), `a list of numbers or formulas`)
	case number:
		want = expect(n.Kind == tree.Number, `a number`)
	case whole:
		want = expect(n.Kind == tree.Number && n.Num == float64(int(n.Num)) && n.Num >= 0 && n.Num <= 10000, `a whole number`)
	case flag:
		want = expect(n.Kind == tree.Bool, `true or false`)
	default:
		checkBelow(n, fd, problems)
		return
	}
	if want != "" {
		wrongKind(n, want, problems)
	}
}

// wrongKind tells what a value is and what it must be. A list is blamed for the
// first item that should be a text.
func wrongKind(n *tree.Node, want string, problems *source.List) {
	if n.Kind == tree.Array && !listOf(n, tree.String) && strings.Contains(want, "list") {
		i := slices.IndexFunc(n.Items, func(i *tree.Node) bool {
			return i.Kind != tree.String && (i.Kind != tree.Number || !strings.Contains(want, "formulas"))
		})
		if i >= 0 {
			problems.Errorf(n.Items[i].Span, "wrong-kind", "%q holds %s here; it must be %s", n.Key, kindName(n.Items[i]), want)
			return
		}
	}
	problems.Errorf(n.Span, "wrong-kind", "%q is %s here; it must be %s", n.Key, kindName(n), want)
}

func expect(ok bool, want string) string {
	if ok {
		return ""
	}
	return want
}

// checkBelow checks the kinds that hold tables.
func checkBelow(n *tree.Node, fd field, problems *source.List) {
	switch fd.kind {
	case one:
		if n.Kind != tree.Table {
			wrongKind(n, "a table", problems)
			return
		}
		checkTable(n, fd.of, problems)
	case named:
		if n.Kind != tree.Table {
			wrongKind(n, "tables with names of your own", problems)
			return
		}
		checkNamed(n, fd, problems)
	case many, moves:
		if n.Kind != tree.Array {
			wrongKind(n, "a list of tables", problems)
			return
		}
		for _, item := range n.Items {
			if item.Kind != tree.Table {
				problems.Errorf(item.Span, "wrong-kind", "%q holds %s; it must hold tables", n.Key, kindName(item))
				continue
			}
			checkTable(item, fd.of, problems)
		}
	case lies:
		checkLies(n, problems)
	case dotted:
		checkDotted(n, problems)
	case measure:
		if n.Kind == tree.Table {
			checkTable(n, fd.of, problems)
		} else if !isFormula(n) {
			wrongKind(n, "a formula, or a table with is and note", problems)
		}
	}
}

// checkNamed checks each table of a table whose names the author chose.
func checkNamed(n *tree.Node, fd field, problems *source.List) {
	for _, k := range n.Keys {
		if k.Kind != tree.Table {
			problems.Errorf(k.Span, "wrong-kind", "%q is %s here; it must be a table", k.Key, kindName(k))
			continue
		}
		checkTable(k, fd.of, problems)
	}
}

func checkLies(n *tree.Node, problems *source.List) {
	if n.Kind != tree.Table {
		wrongKind(n, `a table, as { foot = "down", front = "front" }`, problems)
		return
	}
	for _, k := range n.Keys {
		if k.Kind != tree.String {
			wrongKind(k, `a direction in quotes`, problems)
		}
	}
}

func checkDotted(n *tree.Node, problems *source.List) {
	if n.Kind != tree.Table {
		wrongKind(n, `a table, as { foot = "floor", front = 0 }`, problems)
		return
	}
	for _, k := range n.Keys {
		switch {
		case k.Kind == tree.Table:
			checkDotted(k, problems)
		case !isFormula(k):
			wrongKind(k, "a number, or a formula in quotes", problems)
		}
	}
}

func isFormula(n *tree.Node) bool { return n.Kind == tree.Number || n.Kind == tree.String }

func allFormulas(n *tree.Node) bool {
	return !slices.ContainsFunc(n.Items, func(i *tree.Node) bool { return !isFormula(i) })
}

func listOf(n *tree.Node, k tree.Kind) bool {
	return n.Kind == tree.Array && !slices.ContainsFunc(n.Items, func(i *tree.Node) bool { return i.Kind != k })
}

func kindName(n *tree.Node) string {
	switch n.Kind {
	case tree.Table:
		return "a table"
	case tree.Array:
		return fmt.Sprintf("a list of %d", len(n.Items))
	case tree.String:
		return "a text"
	case tree.Number:
		return "a number"
	case tree.Bool:
		return "true or false"
	}
	return "a date"
}
