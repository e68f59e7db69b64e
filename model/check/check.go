// Package check looks a solved plan over as a maker would before timber is cut.
//
// Each rule is a file of its own. Findings are for the author; none of them goes
// into the plan set. It does not decide whether a text can be understood; that
// is the reader's and the solver's work.
package check

import (
	"slices"

	"planset/model"
	"planset/model/cutting"
)

// Severity says what a finding does to the plan.
type Severity string

// The severities, worst first. An error stops publication until it is mended or
// waived with a reason.
const (
	Error   Severity = "error"
	Warning Severity = "warning"
	Note    Severity = "note"
)

// A Finding is one thing a rule saw.
type Finding struct {
	Rule     string
	Severity Severity
	Parts    []string // part letters
	Value    float64  // measured, in Unit
	Limit    float64
	Unit     string // "mm", "deg", "kg", "" for a plain number
	Text     string // one line with the values that were measured
	Fix      string // one change, with its number
	Waived   bool
	Reason   string // why it may stand
	cost     Cost
}

// Cost is what a finding costs the buyer; findings are sorted by it.
type Cost int

// The costs, dearest first.
const (
	Unsafe Cost = iota
	WastedBoard
	Rework
	Ugly
)

// A rule looks at a whole plan.
type rule struct {
	id   string
	cost Cost
	look func(*shop) []Finding
}

// shop is what a rule may look at.
type shop struct {
	*model.Plan
	cuts *cutting.Plan
}

// All runs every rule and returns the findings in a stable order: what costs
// the buyer most first, then by rule, parts and text. Waivers are applied; one
// whose value has worsened since it was written no longer counts.
func All(p *model.Plan, cuts *cutting.Plan) []Finding {
	sh := &shop{p, cuts}
	var out []Finding
	for _, r := range rules() {
		for _, f := range r.look(sh) {
			f.Rule, f.cost = r.id, r.cost
			out = append(out, f)
		}
	}
	for i := range out {
		waive(p.Waivers, &out[i])
	}
	slices.SortStableFunc(out, order)
	return out
}

func order(a, b Finding) int {
	switch {
	case a.cost != b.cost:
		return int(a.cost) - int(b.cost)
	case a.Severity != b.Severity:
		return rank(a.Severity) - rank(b.Severity)
	case a.Rule != b.Rule:
		return compare(a.Rule, b.Rule)
	}
	if c := slices.Compare(a.Parts, b.Parts); c != 0 {
		return c
	}
	return compare(a.Text, b.Text)
}

func rank(s Severity) int { return slices.Index([]Severity{Error, Warning, Note}, s) }

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// waive marks a finding that the author let stand: same rule, same parts when
// the waiver names any, and no worse than when it was written. A value of zero
// in the waiver holds for any value.
func waive(list []model.Waiver, f *Finding) {
	for _, w := range list {
		if w.Rule != f.Rule || len(w.Parts) > 0 && !slices.Equal(w.Parts, f.Parts) {
			continue
		}
		if w.Value != 0 && worse(f.Value, w.Value, f.Limit) {
			continue
		}
		f.Waived, f.Reason = true, w.Reason
	}
}

// worse reports whether v lies farther on the wrong side of the limit than was.
func worse(v, was, limit float64) bool {
	if was < limit {
		return v < was-1e-6
	}
	return v > was+1e-6
}
