package reading

// kind is what sort of value a key takes.
type kind int8

const (
	text     kind = iota // a string
	words                // a string or a list of strings
	texts                // a list of strings
	formula              // a number, or a string with a formula
	pair                 // a list of two formulas
	formulas             // a list of formulas
	number               // a number
	whole                // a whole number
	flag                 // true or false
	one                  // a table of its own
	many                 // a list of tables
	named                // tables with names the author chose
	dotted               // features, plain or dotted, each with a formula
	moves                // an outline
	lies                 // features with a direction
	measure              // a formula, or a table with is and note
)

// A field is one key: its kind, and the table below it.
type field struct {
	kind kind
	of   *table
}

// A table is the keys that may stand together. any is the field for names the
// author chose.
type table struct {
	name string
	keys map[string]field
	any  *field
}

func f(k kind) field                { return field{kind: k} }
func of(k kind, t *table) field     { return field{k, t} }
func free(n string, k field) *table { return &table{name: n, any: &k} }

// schema returns every key of the language. LANGUAGE.md describes each of them;
// a test holds the two together.
func schema() *table {
	return &table{name: "plan file", keys: map[string]field{
		"unit": f(text), "include": f(texts),
		"plan": of(one, planTable()), "shop": of(one, &table{name: "shop", keys: map[string]field{"kerf": f(formula), "end_trim": f(formula)}}),
		"size": of(one, free("size", f(formula))), "count": of(one, free("count", f(formula))),
		"derive": of(one, free("derive", f(formula))), "measure": of(one, free("measure", of(measure, measureTable()))),
		"metric": of(one, numbersTable("metric")), "inch": of(one, numbersTable("inch")),
		"variant": of(named, variantTable()), "goal": of(named, goalTable()),
		"stock": of(named, stockTable()), "hardware": of(named, hardwareTable()),
		"part": of(named, partTable()), "group": of(named, groupTable()),
		"on_hand": of(many, onHandTable()),
		"place":   of(many, placeTable()), "joint": of(named, jointTable()),
		"stage": of(named, &table{name: "stage", keys: map[string]field{"title": f(text), "text": f(text),
			"view": f(text), "apart": f(formula)}}),
		"explode":  of(one, &table{name: "explode", keys: map[string]field{"view": f(text), "apart": f(formula)}}),
		"drawing":  of(named, drawingTable()),
		"step":     of(many, stepTable()),
		"critical": of(named, &table{name: "critical", keys: map[string]field{"value": f(formula), "within": f(formula), "note": f(text)}}),
		"finish": of(one, &table{name: "finish", keys: map[string]field{"name": f(text), "coats": f(whole), "cover": f(number),
			"oily": f(flag), "cure": f(text), "end_grain": f(text), "hidden": f(text), "text": f(texts)}}),
		"beside":  of(one, &table{name: "beside", keys: map[string]field{"seat_height": f(formula), "seat_slope": f(formula), "arm_height": f(formula)}}),
		"care":    of(one, &table{name: "care", keys: map[string]field{"text": f(texts)}}),
		"term":    of(many, &table{name: "term", keys: map[string]field{"word": f(text), "text": f(text)}}),
		"waive":   of(many, &table{name: "waive", keys: map[string]field{"rule": f(text), "parts": f(words), "reason": f(text), "value": f(number)}}),
		"edition": of(many, &table{name: "edition", keys: map[string]field{"variant": f(text), "unit": f(text), "paper": f(text)}}),
	}}
}

func planTable() *table {
	t := &table{name: "plan", keys: map[string]field{"notes": f(texts), "kind": f(text), "seats": f(whole), "children": f(flag)}}
	for _, k := range []string{"title", "slug", "purpose", "intro", "maker", "contact", "licence", "accent", "logo", "revision", "date", "skill", "hours"} {
		t.keys[k] = f(text)
	}
	t.keys["change"] = of(many, &table{name: "plan.change", keys: map[string]field{"revision": f(text), "date": f(text), "text": f(text), "parts": f(words), "recut": f(flag)}})
	return t
}

func measureTable() *table {
	return &table{name: "measure", keys: map[string]field{"is": f(formula), "note": f(text)}}
}

func numbersTable(name string) *table {
	return &table{name: name, keys: map[string]field{
		"size": of(one, free(name+".size", f(formula))), "count": of(one, free(name+".count", f(formula))),
		"derive": of(one, free(name+".derive", f(formula))),
	}}
}

func variantTable() *table {
	t := numbersTable("variant")
	t.keys["title"], t.keys["note"], t.keys["drop"] = f(text), f(text), f(words)
	t.keys["metric"], t.keys["inch"] = of(one, numbersTable("variant.metric")), of(one, numbersTable("variant.inch"))
	return t
}

func goalTable() *table {
	return &table{name: "goal", keys: map[string]field{"choose": f(text), "value": f(formula), "is": f(formula), "from": f(formula), "to": f(formula)}}
}

func stockTable() *table {
	yard := map[string]field{"name": f(text), "section": f(pair), "nominal": f(pair), "lengths": f(formulas),
		"prices": f(formulas), "most": f(formulas), "cleanup": f(formula), "spare": f(whole)}
	t := &table{name: "stock", keys: map[string]field{"species": f(text), "select": f(text)}}
	t.keys["metric"] = of(one, &table{name: "stock.metric", keys: yard})
	t.keys["inch"] = of(one, &table{name: "stock.inch", keys: yard})
	for k, v := range yard {
		t.keys[k] = v
	}
	return t
}

func onHandTable() *table {
	bad := &table{name: "on_hand.bad", keys: map[string]field{"from": f(formula), "to": f(formula), "edge": f(text), "face": f(text)}}
	return &table{name: "on_hand", keys: map[string]field{
		"stock": f(text), "name": f(text), "length": f(formula), "width": f(formula), "bad": of(many, bad),
	}}
}

func hardwareTable() *table {
	sold := map[string]field{"size": f(text), "length": f(formula), "box": f(whole)}
	t := &table{name: "hardware", keys: map[string]field{"name": f(text), "kind": f(text), "with": f(words), "material": f(text), "with_material": f(text)}}
	t.keys["metric"] = of(one, &table{name: "hardware.metric", keys: sold})
	t.keys["inch"] = of(one, &table{name: "hardware.inch", keys: sold})
	for k, v := range sold {
		t.keys[k] = v
	}
	return t
}

func partTable() *table {
	t := &table{name: "part", keys: map[string]field{
		"pieces": f(formula), "thick": f(formula), "width": f(formula), "length": f(formula), "rough_width": f(formula), "rough_length": f(formula),
		"as_bought": f(flag), "match": f(flag), "spare": f(whole), "ends": f(texts), "edges": f(texts), "faces": f(texts), "outline": of(moves, moveTable()),
	}}
	for _, k := range []string{"name", "code", "stock", "hands", "trim_later", "note", "face", "need", "template", "head_to_tail"} {
		t.keys[k] = f(text)
	}
	t.keys["end"] = of(named, &table{name: "part.end", keys: map[string]field{"shape": f(text), "radius": f(formula),
		"miter": f(formula), "long": f(text), "bevel": f(formula), "long_face": f(text)}})
	t.keys["edge"] = of(named, &table{name: "part.edge", keys: map[string]field{"bevel": f(formula), "wide": f(text), "bears": f(text)}})
	t.keys["taper"] = of(named, &table{name: "part.taper", keys: map[string]field{"edge": f(text), "from": f(pair), "to": f(pair)}})
	corner := &table{name: "part.corner", keys: map[string]field{"round": f(formula), "clip": f(pair)}}
	t.keys["corner"] = of(named, free("part.corner", of(one, corner)))
	arris := &table{name: "part.arris", keys: map[string]field{"round": f(formula), "chamfer": f(formula)}}
	t.keys["arris"] = of(named, free("part.arris", of(one, arris)))
	t.keys["notch"] = of(named, &table{name: "part.notch", keys: map[string]field{"edge": f(text), "at": f(formula), "long": f(formula), "deep": f(formula)}})
	t.keys["groove"] = of(named, &table{name: "part.groove", keys: map[string]field{"face": f(text), "along": f(pair), "across": f(pair), "deep": f(formula)}})
	bore := &table{name: "part.hole.bore", keys: map[string]field{"diameter": f(formula), "deep": f(formula)}}
	t.keys["hole"] = of(named, &table{name: "part.hole", keys: map[string]field{"at": f(pair), "for": f(text), "through": f(text),
		"diameter": f(formula), "deep": f(formula), "face": f(text), "fine": f(flag), "sink": f(flag), "bore": of(one, bore)}})
	t.keys["trim"] = of(named, &table{name: "part.trim", keys: map[string]field{"by": f(text), "flat": f(formula), "then": f(text)}})
	return t
}

func moveTable() *table {
	return &table{name: "part.outline", keys: map[string]field{"from": f(pair), "to": f(pair), "via": f(pair), "center": f(pair)}}
}

func groupTable() *table {
	sides := &table{name: "group.at", keys: map[string]field{}}
	for _, d := range []string{"left", "right", "front", "rear", "up", "down"} {
		sides.keys[d] = f(formula)
	}
	t := &table{name: "group", keys: map[string]field{"in": f(text), "on": f(text), "at": of(one, sides), "stands": f(words)}}
	for _, k := range []string{"fall", "lean", "turn", "splay", "tip"} {
		t.keys[k] = f(formula)
	}
	return t
}

func placeTable() *table {
	return &table{name: "place", keys: map[string]field{
		"part": f(text), "in": f(text), "lies": f(lies), "meets": f(dotted), "level": f(dotted), "around": f(whole),
		"row":   of(one, &table{name: "place.row", keys: map[string]field{"toward": f(text), "count": f(formula), "gap": f(formula), "to": f(formula)}}),
		"fan":   of(one, &table{name: "place.fan", keys: map[string]field{"count": f(formula), "gap": f(formula), "turn": f(formula)}}),
		"clear": of(one, &table{name: "place.clear", keys: map[string]field{"by": f(formula)}, any: &field{kind: text}}),
	}}
}

func jointTable() *table {
	return &table{name: "joint", keys: map[string]field{
		"name": f(text), "from": f(words), "into": f(words), "hardware": f(text), "holes": f(words), "count": f(formula),
		"run": f(text), "inset": f(formula), "inset_end": f(formula), "mouth": f(text), "nut": f(text), "glue": f(flag), "plug": f(flag), "note": f(text),
		"pilot": f(formula), "clearance": f(formula),
	}}
}

func drawingTable() *table {
	return &table{name: "drawing", keys: map[string]field{
		"face": f(text), "scale": f(text), "hide": f(words), "move": of(one, free("drawing.move", f(pair))),
	}}
}

func stepTable() *table {
	t := &table{name: "step", keys: map[string]field{
		"make": f(words), "add": f(words), "fasten": f(words), "tighten": f(words), "glue": f(words), "notes": f(words),
		"loose": f(flag), "dry": f(flag), "finish": f(flag), "people": f(whole), "minutes": f(whole),
		"bit": f(formula), "right_angle": f(flag), "bare": f(words),
	}}
	for _, k := range []string{"stage", "title", "do", "test", "watch", "mistake", "view", "turned"} {
		t.keys[k] = f(text)
	}
	show := &table{name: "step.shows", keys: map[string]field{"name": f(text), "as": f(text), "from": f(text), "to": f(text), "same": f(text)}}
	t.keys["shows"] = of(many, show)
	t.keys["wrong"] = of(one, &table{name: "step.wrong", keys: map[string]field{"part": f(words), "how": f(text)}})
	return t
}
