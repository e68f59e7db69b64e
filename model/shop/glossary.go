package shop

import (
	"slices"
	"strings"
	"unicode"

	"planset/model"
)

// MostTermWords is the length of a definition in words: common practice.
const MostTermWords = 20

// A Term is one word of the glossary with the texts it was found in.
type Term struct {
	Word, Text string
	In         []int // indices into the texts given, rising
}

// word is a shop word in the forms it takes in running text.
type word struct {
	name  string
	text  string
	forms []string // beginnings of words that count as it, lower case
}

// words is our glossary: definitions written for this program, one line each.
func words() []word {
	return []word{
		{"Along", "In the direction of the grain; the length of a part.", []string{"along"}},
		{"Across", "At right angles to the grain; the width of a part.", []string{"across"}},
		{"Arris", "The sharp line where two surfaces of a board meet.", []string{"arris"}},
		{"Batten", "A narrow board that ties other boards together from behind.", []string{"batten"}},
		{"Bevel", "A cut with the blade tilted, so not square to the wide face.", []string{"bevel"}},
		{"Board foot", "One foot by one foot by one inch of wood, in the yard's sizes.", []string{"board foot", "board feet"}},
		{"Carriage bolt", "A bolt with a domed head; its square neck grips the wood.", []string{"carriage bolt"}},
		{"Chamfer", "A sharp edge planed off flat at a slant.", []string{"chamfer"}},
		{"Clear", "Wood without knots.", []string{"clear wood", "clear boards", "clear face", "clear for"}},
		{"Clearance hole", "A hole wide enough for a screw to slide through.", []string{"clearance hole"}},
		{"Compound cut", "A cut angled across the face and tilted through it at once.", []string{"compound cut", "compound angle"}},
		{"Counterbore", "A wider hole that lets a head or washer sit below the surface.", []string{"counterbor"}},
		{"Countersink", "To widen the mouth of a hole so that a screw head sits flush.", []string{"countersink", "countersunk"}},
		{"Crosscut", "A cut across the grain, to length.", []string{"crosscut"}},
		{"Datum", "The end and edge from which every measurement of a part is taken.", []string{"datum"}},
		{"Dry fit", "To put parts together without glue, to see that they meet.", []string{"dry fit", "dry-fit"}},
		{"End grain", "The cut end of a board, where the fibers open like straws.", []string{"end grain"}},
		{"Finish", "The oil, stain or varnish that keeps water out of the wood.", []string{"finish coat", "coat of finish", "coats of finish", "oil finish"}},
		{"Flush", "Level with the surface beside it, neither proud nor sunk.", []string{"flush"}},
		{"Grain", "The direction in which the fibers of the wood run.", []string{"grain"}},
		{"Heel", "The rear end of a stringer, where it stands on the floor.", []string{"heel"}},
		{"Jig", "A simple holder that guides a part or a tool the same way each time.", []string{"jig", "jigs"}},
		{"Kerf", "The wood a saw blade turns to dust; the width of its cut.", []string{"kerf"}},
		{"Match-drill", "To drill one part through the hole of another clamped to it.", []string{"match-drill"}},
		{"Miter", "An end sawn at an angle across the wide face.", []string{"miter"}},
		{"Offcut", "What is left of a board after its parts are sawn.", []string{"offcut"}},
		{"Pilot hole", "A narrow hole drilled first, so that a screw splits nothing.", []string{"pilot hole", "pilot"}},
		{"Plumb", "Exactly upright, as a hanging weight shows.", []string{"plumb"}},
		{"Pocket hole", "A slanted hole for a screw that leaves through a part's end.", []string{"pocket hole", "pocket-hole", "pocket screw"}},
		{"Proud", "Standing out above the surface beside it.", []string{"proud"}},
		{"Rail", "A level part that joins others and carries load.", []string{"rail"}},
		{"Recline", "How far a back leans from plumb.", []string{"recline"}},
		{"Rip", "To saw along the grain, to width.", []string{"rip", "ripped", "ripping", "rips"}},
		{"Roundover", "A sharp edge rounded to a quarter circle.", []string{"roundover"}},
		{"Running dimension", "A distance measured from one fixed end, never from the last mark.", []string{"running dimension"}},
		{"Slat", "One of several thin boards laid side by side with gaps.", []string{"slat"}},
		{"Splay", "To lean outward toward the foot.", []string{"splay"}},
		{"Square", "At exactly ninety degrees.", []string{"off square", "from square"}},
		{"Stringer", "A long part on edge that carries the seat or the top.", []string{"stringer"}},
		{"Stock", "The boards as the yard sells them.", []string{"stock"}},
		{"Taper", "A part sawn narrower toward one end by a straight sloping cut.", []string{"taper"}},
		{"Template", "A full-size paper pattern to trace a shape from.", []string{"template"}},
	}
}

// Glossary returns the shop words that the given texts use, in the order of the
// alphabet, each with the texts it is found in. A definition of the maker's
// stands in place of ours, and is there only when a text uses its word.
func Glossary(plan *model.Plan, texts []string) []Term {
	all := words()
	for _, t := range plan.Terms {
		own := word{t.Word, t.Text, []string{strings.ToLower(t.Word)}}
		i := slices.IndexFunc(all, func(w word) bool { return strings.EqualFold(w.name, t.Word) })
		if i < 0 {
			all = append(all, own)
			continue
		}
		own.forms = append(own.forms, all[i].forms...)
		all[i] = own
	}
	lower := make([]string, len(texts))
	for i, t := range texts {
		lower[i] = strings.ToLower(t)
	}
	var out []Term
	for _, w := range all {
		t := Term{Word: w.name, Text: w.text}
		for i, s := range lower {
			if slices.ContainsFunc(w.forms, func(f string) bool { return uses(s, f) }) {
				t.In = append(t.In, i)
			}
		}
		if len(t.In) > 0 {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b Term) int { return strings.Compare(strings.ToLower(a.Word), strings.ToLower(b.Word)) })
	return out
}

// uses reports whether form begins a word of s. Forms of four letters or fewer
// must be the whole word but for a plural s: "rip" is no part of "ripple".
func uses(s, form string) bool {
	for from := 0; ; {
		i := strings.Index(s[from:], form)
		if i < 0 {
			return false
		}
		i += from
		end := i + len(form)
		starts := i == 0 || !unicode.IsLetter(rune(s[i-1]))
		whole := end == len(s) || !unicode.IsLetter(rune(s[end])) || s[end] == 's'
		if starts && (whole || len(form) > 4) {
			return true
		}
		from = end
	}
}

// A Symbol is one line type or mark of the drawings with what it means.
type Symbol struct{ Key, Name, Text string }

// Symbols returns the marks a reader of the plan meets, in the order of the
// picture key; marks the plan does not use are left out.
func Symbols(plan *model.Plan) []Symbol {
	all := []Symbol{
		{"outline", "Outline", "an edge you can see"},
		{"hidden", "Hidden edge", "an edge behind the wood"},
		{"center", "Center line", "the middle of a hole or of a part"},
		{"cut", "Cut line", "the middle of the line is the finished edge"},
		{"break", "Break", "a plain stretch left out to save room"},
		{"ghost", "Ghost", "what is there but not part of the step"},
		{"new", "New part", "shaded and heavy; what is done is thin"},
		{"tab", "Part letter", "the same on every list and drawing"},
	}
	if slices.ContainsFunc(plan.Parts, func(p *model.Part) bool { return p.Hand == model.Pair }) {
		all = append(all, Symbol{"hand", "Hand", handText(plan)})
	}
	all = append(all,
		Symbol{"datum", "Datum", "measure from this end and this edge"},
		Symbol{"grain", "Grain arrow", "which way the fibers run"},
		Symbol{"face", "Face mark", "pencil it on the good side"},
		Symbol{"front", "Front arrow", frontText(plan)},
	)
	if slices.ContainsFunc(plan.Steps, func(s *model.Step) bool { return len(s.Shows) > 0 }) {
		all = append(all, Symbol{"gauge", "Dark gray", "spacer, square, level, gauge or straightedge"})
	}
	if slices.ContainsFunc(plan.Steps, func(s *model.Step) bool { return s.Wrong != nil }) {
		all = append(all, Symbol{"wrong", "Crossed out", "how it must not be"})
	}
	if marked(plan) {
		all = append(all, Symbol{"critical", "Critical", "this one must be right; the number tells why"})
	}
	return all
}

// handText says what right and left parts are.
func handText(plan *model.Plan) string {
	if SatIn(plan) {
		return "left or right as you sit in it"
	}
	return "left or right, seen from behind"
}

// frontText says which way the front is.
func frontText(plan *model.Plan) string {
	if SatIn(plan) {
		return "the way the sitter looks"
	}
	return "toward the front"
}

// marked reports whether a drawing of the plan carries a critical mark.
func marked(plan *model.Plan) bool {
	return len(plan.Critical) > 0 || slices.ContainsFunc(plan.Parts, func(p *model.Part) bool { return len(p.Critical) > 0 })
}
