package reading

import (
	"planset/model/expr"
	"planset/model/tree"
)

// draft reads the whole file, in the order of the draft's fields.
func (r *reader) draft(n *tree.Node) *Draft {
	d := &Draft{Systems: r.systems(n)}
	d.Unit = r.unit(n)
	d.Info = r.info(n)
	d.Sizes, d.Counts = r.named(n, "size"), r.named(n, "count")
	d.Derived, d.Measures = r.named(n, "derive"), r.named(n, "measure")
	for _, v := range tables(n, "variant") {
		d.Variants = append(d.Variants, Variant{Key: v.Key, At: v.KeySpan, Title: r.word(v, "title"), Note: r.word(v, "note"),
			Numbers: r.override(v), Systems: r.systems(v), Drop: r.words(v, "drop")})
	}
	for _, g := range r.limit(tables(n, "goal"), maxGoals, "goals") {
		d.Goals = append(d.Goals, Goal{g.Key, g.KeySpan, r.word(g, "choose"), r.formula(g, "value"), r.formula(g, "is"), r.formula(g, "from"), r.formula(g, "to")})
	}
	for _, s := range tables(n, "stock") {
		d.Stocks = append(d.Stocks, r.stock(s, d.Unit))
	}
	for _, b := range r.limit(tables(n, "on_hand"), maxPlaces, "boards on hand") {
		d.OnHand = append(d.OnHand, r.onHand(b))
	}
	for _, h := range tables(n, "hardware") {
		d.Hardware = append(d.Hardware, r.hardware(h, d.Unit))
	}
	r.furniture(n, d)
	d.Exploded = r.exploded(child(n, "explode"))
	for _, t := range r.limit(tables(n, "drawing"), maxParts, "drawings") {
		d.Drawings = append(d.Drawings, r.drawing(t))
	}
	r.words2(n, d)
	return d
}

// furniture reads what is built: parts, groups, places, joints, steps.
func (r *reader) furniture(n *tree.Node, d *Draft) {
	cuts := 0
	for _, p := range r.limit(tables(n, "part"), maxParts, "parts") {
		d.Parts = append(d.Parts, r.part(p))
		if cuts += d.Parts[len(d.Parts)-1].Cuts(); cuts > maxAllCuts {
			r.problems.Errorf(p.KeySpan, "too-many", "with this part there are more than %d cuts and holes", maxAllCuts)
			break
		}
	}
	for _, g := range r.limit(tables(n, "group"), maxParts, "groups") {
		d.Groups = append(d.Groups, r.group(g))
	}
	for _, p := range r.limit(tables(n, "place"), maxPlaces, "places") {
		d.Places = append(d.Places, r.place(p))
	}
	for _, j := range r.limit(tables(n, "joint"), maxJoints, "joints") {
		d.Joints = append(d.Joints, r.joint(j))
	}
	for _, s := range tables(n, "stage") {
		d.Stages = append(d.Stages, Stage{s.Key, s.KeySpan, r.word(s, "title"), r.word(s, "text"), r.exploded(s)})
	}
	for _, s := range r.limit(tables(n, "step"), maxSteps, "steps") {
		d.Steps = append(d.Steps, r.step(s))
	}
}

// words2 reads what is said about it: finish, care, terms, waivers, editions.
func (r *reader) words2(n *tree.Node, d *Draft) {
	for _, c := range tables(n, "critical") {
		d.Critical = append(d.Critical, Critical{c.Key, c.KeySpan, r.formula(c, "value"), r.formula(c, "within"), r.word(c, "note")})
	}
	fin := child(n, "finish")
	d.Finish = Finish{r.word(fin, "name"), r.whole(fin, "coats"), r.number(fin, "cover"), r.flag(fin, "oily"), r.word(fin, "cure"), r.texts(fin, "text"), r.word(fin, "end_grain"), r.word(fin, "hidden")}
	by := child(n, "beside")
	d.Beside = Beside{r.formula(by, "seat_height"), r.formula(by, "seat_slope"), r.formula(by, "arm_height")}
	d.Care = r.texts(child(n, "care"), "text")
	for _, t := range tables(n, "term") {
		d.Terms = append(d.Terms, Term{r.word(t, "word").Text, r.word(t, "text").Text})
	}
	for _, w := range tables(n, "waive") {
		d.Waivers = append(d.Waivers, Waiver{w.Span, r.word(w, "rule"), r.texts(w, "parts"), r.word(w, "reason"), r.number(w, "value")})
	}
	for _, e := range tables(n, "edition") {
		u, ok := unitOf(r.choice(r.word(e, "unit"), "in", "mm").Text)
		if !ok {
			u = d.Unit
		}
		d.Editions = append(d.Editions, Edition{e.Span, r.word(e, "variant"), u, r.choice(r.word(e, "paper"), "letter", "a4")})
	}
	shop := child(n, "shop")
	d.Kerf, d.EndTrim = r.formula(shop, "kerf"), r.formula(shop, "end_trim")
}

func (r *reader) unit(n *tree.Node) expr.Unit {
	w := r.word(n, "unit")
	if !w.Given() {
		r.problems.Errorf(n.Span, "unit", "the plan does not say what a bare number means").Fix(`put unit = "in" or unit = "mm" at the top`)
		return expr.Inch
	}
	u, _ := unitOf(r.choice(w, "in", "mm").Text)
	return u
}

func (r *reader) info(n *tree.Node) Info {
	p := child(n, "plan")
	in := Info{
		Title: r.word(p, "title"), Slug: r.word(p, "slug"), Purpose: r.word(p, "purpose"), Intro: r.word(p, "intro"),
		Maker: r.word(p, "maker"), Contact: r.word(p, "contact"), Licence: r.word(p, "licence"), Accent: r.word(p, "accent"), Logo: r.word(p, "logo"),
		Revision: r.word(p, "revision"), Date: r.word(p, "date"), Skill: r.word(p, "skill"), Hours: r.word(p, "hours"),
		Notes: r.words(p, "notes"), Kind: r.choice(r.word(p, "kind"), "chair", "bench", "stool", "table", "planter", "bookcase"), Seats: r.whole(p, "seats"), Children: r.flag(p, "children"),
	}
	for _, c := range tables(p, "change") {
		in.Changes = append(in.Changes, Change{r.word(c, "revision"), r.word(c, "date"), r.word(c, "text"), r.words(c, "parts"), r.flag(c, "recut")})
	}
	return in
}

func (r *reader) stock(n *tree.Node, unit expr.Unit) *Stock {
	s := &Stock{Key: n.Key, At: n.KeySpan, Species: r.word(n, "species"), Select: r.word(n, "select").Text, Base: r.yard(n, unit), Systems: map[expr.Unit]*Yard{}}
	for u, key := range map[expr.Unit]string{expr.Inch: "inch", expr.MM: "metric"} {
		if t := n.Get(key); t != nil && t.Kind == tree.Table {
			y := r.yard(t, u)
			s.Systems[u] = &y
		}
	}
	return s
}

func (r *reader) yard(n *tree.Node, unit expr.Unit) Yard {
	y := Yard{Name: r.word(n, "name"), Lengths: r.formulas(n, "lengths"), Prices: r.formulas(n, "prices"), Most: r.formulas(n, "most"),
		Cleanup: r.formula(n, "cleanup"), Spare: r.whole(n, "spare"), Unit: unit}
	y.Section, y.Nominal = r.formulas(n, "section"), r.formulas(n, "nominal")
	return y
}

func (r *reader) onHand(n *tree.Node) OnHand {
	b := OnHand{At: n.Span, Stock: r.word(n, "stock"), Name: r.word(n, "name"), Length: r.formula(n, "length"), Width: r.formula(n, "width")}
	for _, t := range r.limit(tables(n, "bad"), maxParts, "bad stretches") {
		b.Bad = append(b.Bad, Bad{t.Span, r.formula(t, "from"), r.formula(t, "to"),
			r.choice(r.word(t, "edge"), "near", "far"), r.choice(r.word(t, "face"), "up", "down")})
	}
	return b
}

func (r *reader) hardware(n *tree.Node, unit expr.Unit) *Hardware {
	h := &Hardware{Key: n.Key, At: n.KeySpan, Name: r.word(n, "name"), With: r.words(n, "with"), Material: r.word(n, "material").Text, WithOf: r.word(n, "with_material").Text,
		Base: r.bought(n, unit), Systems: map[expr.Unit]*Bought{}}
	h.Kind = r.choice(r.word(n, "kind"), "carriage bolt", "hex bolt", "wood screw", "pocket screw", "other")
	for u, key := range map[expr.Unit]string{expr.Inch: "inch", expr.MM: "metric"} {
		if t := n.Get(key); t != nil && t.Kind == tree.Table {
			b := r.bought(t, u)
			h.Systems[u] = &b
		}
	}
	return h
}

func (r *reader) bought(n *tree.Node, unit expr.Unit) Bought {
	b := Bought{Size: r.word(n, "size"), Box: r.whole(n, "box"), Unit: unit}
	if w := r.word(n, "length"); w.Text == "auto" {
		b.Auto = true
		return b
	}
	b.Length = r.formula(n, "length")
	return b
}

func (r *reader) joint(n *tree.Node) *Joint {
	return &Joint{Key: n.Key, At: n.KeySpan, Name: r.word(n, "name"), From: r.words(n, "from"), Into: r.words(n, "into"),
		Hardware: r.word(n, "hardware"), Holes: r.words(n, "holes"), Count: r.formula(n, "count"),
		Run: r.choice(r.word(n, "run"), "across", "along"), Inset: r.formula(n, "inset"), InsetEnd: r.formula(n, "inset_end"),
		Pilot: r.formula(n, "pilot"), Clearance: r.formula(n, "clearance"),
		Mouth: r.word(n, "mouth"), Nut: r.word(n, "nut"), Glue: r.flag(n, "glue"), Plug: r.flag(n, "plug"), Note: r.word(n, "note")}
}

func (r *reader) step(n *tree.Node) *Step {
	return &Step{At: n.Span, Shows: r.shows(n), Wrong: r.wrong(n), Stage: r.word(n, "stage"), Title: r.word(n, "title"), Do: r.word(n, "do"),
		Test: r.word(n, "test"), Watch: r.word(n, "watch"), Mistake: r.word(n, "mistake"), View: r.word(n, "view"), Turned: r.word(n, "turned"),
		Notes: r.words(n, "notes"), Make: r.words(n, "make"), Add: r.words(n, "add"), Fasten: r.words(n, "fasten"),
		Tighten: r.words(n, "tighten"), Glue: r.words(n, "glue"),
		Bit: r.formula(n, "bit"), RightAngle: r.flag(n, "right_angle"), Bare: r.words(n, "bare"),
		Loose: r.flag(n, "loose"), Dry: r.flag(n, "dry"), Finish: r.flag(n, "finish"), People: r.whole(n, "people"), Minutes: r.whole(n, "minutes")}
}
