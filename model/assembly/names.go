package assembly

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/wood"
)

// names gathers what the author named: stocks, parts, groups, hardware, joints.
// A name stands for one thing in the whole file.
func (s *solver) names(v *reading.Variant) {
	taken := map[string]source.Span{}
	for _, n := range s.numbers {
		taken[n.name] = n.decl.At
	}
	// A bad name is entered all the same, so that what speaks of it is not told too.
	enter := func(name string, at source.Span) {
		if !s.goodName(name, at) {
			return
		}
		if first, twice := taken[name]; twice {
			s.problems.Errorf(at, "name-twice", "%q is named twice", name).Note(first, "here first").Fix("give one of them another name")
			return
		}
		taken[name] = at
	}
	for _, d := range s.d.Stocks {
		enter(d.Key, d.At)
		s.addStock(d)
	}
	for _, d := range s.d.OnHand {
		s.addOnHand(d)
	}
	dropped := s.dropped(v)
	for _, d := range s.d.Parts {
		enter(d.Key, d.At)
		if !dropped[d.Key] {
			s.addPart(d)
		}
	}
	for _, d := range s.d.Groups {
		enter(d.Key, d.At)
		s.groups[d.Key] = &group{d}
	}
	for _, d := range s.d.Hardware {
		s.addGoods(d)
	}
	for _, d := range s.d.Joints {
		s.joints[d.Key] = d
	}
	s.addPlaces(dropped)
}

// dropped reads which parts the variant leaves out.
func (s *solver) dropped(v *reading.Variant) map[string]bool {
	out := map[string]bool{}
	if v == nil {
		return out
	}
	var known []string
	for _, d := range s.d.Parts {
		known = append(known, d.Key)
	}
	for _, w := range v.Drop {
		if !slices.Contains(known, w.Text) {
			s.problems.Errorf(w.At, "unknown-part", "there is no part %q to leave out", w.Text).Suggest(w.Text, known)
		}
		out[w.Text] = true
	}
	return out
}

// addStock works out a stock in the reader's system.
func (s *solver) addStock(d *reading.Stock) {
	y := d.Base
	if own, ok := d.Systems[s.opt.Unit]; ok {
		y = own.Over(y)
	}
	st := &stock{Stock: &model.Stock{Key: d.Key, Name: y.Name.Text, Select: d.Select, Spare: y.Spare, Species: d.Species.Text}, decl: d}
	if st.Name == "" {
		st.Name = model.Spoken(d.Key)
	}
	if d.Species.Given() {
		if _, ok := wood.Species(d.Species.Text); !ok {
			s.problems.Errorf(d.Species.At, "species", "the wood tables have no %q", d.Species.Text).Suggest(d.Species.Text, wood.SpeciesNames())
		}
	}
	if len(y.Section) != 2 {
		s.problems.Errorf(d.At, "stock", "stock %q does not say its section", d.Key).Fix(`write section = [1, "5 1/2"], thick first`)
		return
	}
	c := &scope{s: s}
	var ok1, ok2 bool
	st.Thick, ok1 = s.length(formulaAt{y.Section[0], y.Unit}, c)
	st.Width, ok2 = s.length(formulaAt{y.Section[1], y.Unit}, c)
	if !ok1 || !ok2 || !s.positive(y.Section[0].At, st.Thick, "a stock's thickness") || !s.positive(y.Section[1].At, st.Width, "a stock's width") {
		return
	}
	for i := range min(len(y.Nominal), 2) {
		st.Nominal[i], _ = s.length(formulaAt{y.Nominal[i], y.Unit}, c)
	}
	if y.Cleanup.Given() {
		st.Cleanup, _ = s.length(formulaAt{y.Cleanup, y.Unit}, c)
	}
	s.addLengths(st, y)
	s.stocks[d.Key] = st
	s.plan.Stocks = append(s.plan.Stocks, st.Stock)
}

// dearest is the most a board may cost: far above any, so that sums stay exact.
const dearest = 1e9

// addLengths works out the lengths sold and their prices.
func (s *solver) addLengths(st *stock, y reading.Yard) {
	if len(y.Prices) > 0 && len(y.Prices) != len(y.Lengths) {
		s.problems.Errorf(st.decl.At, "stock", "stock %q has %s, but %s", st.Key, plural(len(y.Lengths), "length", "lengths"), plural(len(y.Prices), "price", "prices")).Fix("give one price for each length, in the same order")
		return
	}
	if len(y.Most) > 0 && len(y.Most) != len(y.Lengths) {
		s.problems.Errorf(st.decl.At, "stock", "stock %q has %s, but most has %d", st.Key, plural(len(y.Lengths), "length", "lengths"), len(y.Most)).Fix("give one number for each length, in the same order, 0 where there are enough")
		return
	}
	for i, f := range y.Lengths {
		mm, ok := s.length(formulaAt{f, y.Unit}, &scope{s: s})
		if !ok || !s.positive(f.At, mm, "a length sold") {
			continue
		}
		sold := model.Sold{Length: mm}
		if i < len(y.Prices) {
			if v, ok := (formulaAt{y.Prices[i], y.Unit}).eval(s, &scope{s: s}); ok {
				n, bad := v.AsNumber(y.Unit)
				if bad != nil {
					bad.Report(s.problems, y.Prices[i].At)
				}
				if bad == nil && !(n >= 0 && n <= dearest) {
					s.problems.Errorf(y.Prices[i].At, "stock", "a board for %g is none that is sold", n).Fix("give a price of 0 or more, without the sign of the money")
					n = 0
				}
				sold.Price = n
			}
		}
		if i < len(y.Most) {
			sold.Most = s.most(y.Most[i], y.Unit)
		}
		st.Lengths = append(st.Lengths, sold)
	}
	slices.SortFunc(st.Lengths, func(a, b model.Sold) int {
		switch {
		case a.Length < b.Length:
			return -1
		case a.Length > b.Length:
			return 1
		}
		return 0
	})
}

// plural is a number with its word.
func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// inUnit is a fault that the outline found, its lengths in the reader's unit:
// geometry counts in millimetres, to three places.
func (s *solver) inUnit(err error) string {
	return decimals.ReplaceAllStringFunc(err.Error(), func(text string) string {
		mm, bad := strconv.ParseFloat(text, 64)
		if bad != nil {
			return text
		}
		return s.opt.Unit.Long(mm)
	})
}

// positive refuses a length that is nothing or less, or absurd.
func (s *solver) positive(at source.Span, mm float64, what string) bool {
	if mm > 0 && mm < 100000 {
		return true
	}
	s.problems.Errorf(at, "size", "%s is %s; it must be more than nothing and less than 100 m", what, expr.Length(mm).Text(s.opt.Unit))
	return false
}

// notLess refuses a length below nothing.
func (s *solver) notLess(f reading.Formula, mm float64, what string) bool {
	if mm >= 0 {
		return true
	}
	s.problems.Errorf(f.At, "size", "%s is %s; it cannot be less than nothing", what, expr.Length(mm).Text(s.opt.Unit))
	return false
}

// addPart enters a part; its sides get their names, plain ones by default.
func (s *solver) addPart(d *reading.Part) {
	p := &part{decl: d, ranks: 1}
	p.names = model.Names{Ends: s.sideNames(d.EndNames, "left", "right"), Edges: s.sideNames(d.EdgeNames, "front", "rear"), Faces: s.sideNames(d.FaceNames, "bottom", "top")}
	s.uniqueSides(p)
	switch {
	case !d.Stock.Given():
		s.problems.Errorf(d.At, "part", "part %q does not say what stock it is cut from", d.Key)
	case s.stocks[d.Stock.Text] == nil && slices.Contains(s.stockNames(), d.Stock.Text):
		// The stock itself was told.
	case s.stocks[d.Stock.Text] == nil:
		s.problems.Errorf(d.Stock.At, "unknown-stock", "there is no stock %q", d.Stock.Text).Suggest(d.Stock.Text, s.stockNames())
	default:
		p.stock = s.stocks[d.Stock.Text]
	}
	p.family = mentionsRank(d)
	s.parts[d.Key] = p
	s.partList = append(s.partList, p)
}

func (s *solver) stockNames() []string {
	var out []string
	for _, d := range s.d.Stocks {
		out = append(out, d.Key)
	}
	return out
}

func (s *solver) sideNames(given []reading.Word, a, b string) [2]string {
	if len(given) == 2 {
		return [2]string{given[0].Text, given[1].Text}
	}
	if len(given) > 0 {
		s.problems.Errorf(given[0].At, "sides", "a part has two of each, but here %s named", plural(len(given), "is", "are")).Fix("name both, the first is where measuring starts")
	}
	return [2]string{a, b}
}

// uniqueSides refuses two sides of one name: a feature must mean one side.
func (s *solver) uniqueSides(p *part) {
	taken := []string{"hole", "first", "last", "length", "width", "thick", "gap"}
	seen := map[string]bool{}
	for _, n := range append(append(p.names.Ends[:], p.names.Edges[:]...), p.names.Faces[:]...) {
		if !wordForm(n) || slices.Contains(taken, n) {
			s.problems.Errorf(p.decl.At, "sides", "%q cannot name a side of part %q", n, p.decl.Key).
				Fix("use letters, digits and _; %s mean something of their own", strings.Join(taken, ", "))
			return
		}
		if seen[n] {
			s.problems.Errorf(p.decl.At, "sides", "part %q has two sides called %q", p.decl.Key, n).
				Fix("its ends are %s and %s, its edges %s and %s, its faces %s and %s; name those that clash", p.names.Ends[0], p.names.Ends[1], p.names.Edges[0], p.names.Edges[1], p.names.Faces[0], p.names.Faces[1])
			return
		}
		seen[n] = true
	}
}

// mentionsRank reports whether any formula of the part speaks of its rank.
func mentionsRank(d *reading.Part) bool {
	list := []reading.Formula{d.Length, d.Width, d.RoughLength}
	for _, t := range d.Tapers {
		list = append(list, t.From[0], t.From[1], t.To[0], t.To[1])
	}
	for _, h := range d.Holes {
		list = append(list, h.Place[0], h.Place[1])
	}
	return slices.ContainsFunc(list, func(f reading.Formula) bool {
		if !f.Given() {
			return false
		}
		return slices.ContainsFunc(f.F.Names(), func(r expr.Ref) bool { return r.Name == "rank" })
	})
}

// addPlaces hands each place to its part.
func (s *solver) addPlaces(dropped map[string]bool) {
	for _, pl := range s.d.Places {
		if !pl.Part.Given() {
			s.problems.Errorf(pl.At, "place", "this place does not say which part it puts where").Fix(`write part = "..."`)
			continue
		}
		if dropped[pl.Part.Text] {
			continue
		}
		p := s.parts[pl.Part.Text]
		if p == nil {
			s.problems.Errorf(pl.Part.At, "unknown-part", "there is no part %q", pl.Part.Text).Suggest(pl.Part.Text, s.partNames())
			continue
		}
		if p.place == nil {
			p.place = pl
		}
		p.places = append(p.places, pl)
	}
}

func (s *solver) partNames() []string {
	var out []string
	for _, p := range s.partList {
		out = append(out, p.decl.Key)
	}
	return out
}

// spokenSides are a part's sides as pages say them. Pages add the words end,
// edge and face themselves, so a name that has its own gives it up.
func spokenSides(n model.Names) model.Names {
	for i := range 2 {
		n.Ends[i] = strings.TrimSuffix(model.Spoken(n.Ends[i]), " end")
		n.Edges[i] = strings.TrimSuffix(model.Spoken(n.Edges[i]), " edge")
		n.Faces[i] = strings.TrimSuffix(model.Spoken(n.Faces[i]), " face")
	}
	return n
}
