package shop

import (
	"slices"
	"strings"

	"planset/model"
)

// FinishText returns how to finish the piece, a paragraph each: the maker's own
// words, or ours where the model is silent.
func FinishText(plan *model.Plan) []string {
	f := plan.Finish
	if len(f.Text) > 0 {
		return added(f.Text, f.EndGrain, cure(f))
	}
	text := []string{
		"Sand every part before assembly with 80, then 120, then 150 grit, always along the grain. Wipe the dust off between grits.",
		"Break every edge a hand or leg can touch with the sanding block until it feels soft.",
		"Coat the surfaces that close against each other before you assemble them; no brush reaches them afterwards.",
	}
	if f.EndGrain != "" {
		text = append(text, f.EndGrain)
	} else {
		text = append(text, "Soak the end grain first, the feet twice: let each coat sink in for ten minutes and coat again.")
	}
	coat := "Brush on thin coats along the grain, let each one dry as its label says"
	if f.Coats > 0 {
		coat = say("Brush on %s along the grain, let each one dry as its label says", count(f.Coats, "thin coat"))
	}
	text = append(text, coat+", and rub it down with 220 grit before the next.")
	if f.Oily {
		text = append(text, "With oil, wipe off what has not sunk in after fifteen minutes. What stays on top turns sticky.")
	}
	return added(text, cure(f))
}

// cure says how long to wait before the piece is used; the maker may write a
// sentence or only how long.
func cure(f model.Finish) string {
	if f.Cure == "" || strings.HasSuffix(f.Cure, ".") {
		return f.Cure
	}
	return "Before the first use: " + f.Cure + "."
}

// added returns text with what else the maker wrote, unless it is said already.
func added(text []string, more ...string) []string {
	out := slices.Clone(text)
	for _, m := range more {
		if m != "" && !slices.ContainsFunc(text, func(s string) bool { return strings.Contains(s, m) }) {
			out = append(out, m)
		}
	}
	return out
}

// CareText returns how to look after the piece, a line each: the maker's own
// words, or ours where the model is silent.
func CareText(plan *model.Plan) []string {
	if len(plan.Care) > 0 {
		return plan.Care
	}
	w := work{plan, set{}}
	for _, j := range OperationsOf(plan) {
		w.ops.add(j.Op)
	}
	var text []string
	if w.any(Bolt) {
		text = append(text, "Tighten every bolt one month after building and again each spring. Wood shrinks; bolts do not.")
	}
	text = append(text,
		"Keep the feet off soil: stand the piece on paving, a deck or small pads, so that the end grain can dry.",
		"Each spring wash it with water, a little mild soap and a soft brush. No pressure washer; it lifts the grain.",
		"Drop water on it. When the drops no longer bead, sand lightly and give it one new coat.",
		"Look over the slats, screws and joints once a year. Replace a cracked slat before it is sat on again.",
		"In winter store it under a roof or a cover that lets air through; a tight plastic cover keeps it wet.",
	)
	if _, kind := worstWood(plan); kind != plainWood || strings.Contains(strings.ToLower(species(plan)), "cedar") {
		text = append(text, "Left bare, the wood turns silver gray in a year or two. That is weather, not rot.")
	}
	return text
}

// species lists the woods of a plan once each.
func species(plan *model.Plan) string {
	var out []string
	for _, s := range plan.Stocks {
		if s.Species != "" && !strings.Contains(strings.Join(out, "|"), s.Species) {
			out = append(out, s.Species)
		}
	}
	return strings.Join(out, ", ")
}

// count writes a number of things in words up to ten.
func count(n int, thing string) string {
	small := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	text := say("%d", n)
	if n >= 0 && n < len(small) {
		text = small[n]
	}
	if n != 1 {
		thing += "s"
	}
	return text + " " + thing
}
