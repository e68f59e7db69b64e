// Package check looks a solved plan over as a maker would before timber is cut.
//
// Each rule is a file of its own, named like the rule. Findings are for the
// author; none of them goes into the plan set. It does not decide whether a
// text can be understood; that is the reader's and the solver's work.
//
// The other files: check (running the rules, waivers, order), tally (one
// finding where many fasteners share a fault), say (names and numbers as the
// reader has them), bore (a fastener in a piece), gap (how far apart things
// are), rod (room for a tool), site (what stands together at each step), tilt_in
// (the turn of way-in), screw_inset and hole_clash (parts of screw-rows and of
// fastener-clash).
package check

import (
	"cmp"
	"math"
	"slices"

	"planset/model"
	"planset/model/cutting"
	"planset/model/geom"
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
	Parts    []string // part letters, rising
	Value    float64  // measured, in Unit
	Limit    float64
	Unit     string // "mm", "mm2", "deg", "V", "kg", "%", "" for a plain number
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
	cuts  *cutting.Plan
	boxes []geom.Box3 // of the placed pieces
	site  *site
	ties  map[[2]int]bool         // pieces that a joint holds together, either way round
	lies  map[[2]int][]geom.Patch // what contact has found
}

func newShop(p *model.Plan, cuts *cutting.Plan) *shop {
	s := &shop{Plan: p, cuts: cuts}
	for _, q := range p.Placed {
		s.boxes = append(s.boxes, q.Solid.Box3(geom.Home()))
	}
	s.ties, s.lies = map[[2]int]bool{}, map[[2]int][]geom.Patch{}
	for _, j := range p.Joints {
		for _, pair := range s.gripped(j) {
			s.ties[pair], s.ties[[2]int{pair[1], pair[0]}] = true, true
		}
	}
	s.site = newSite(s)
	return s
}

// All runs every rule and returns the findings in a stable order: what costs
// the buyer most first, then by severity, rule, parts and text. Waivers are
// applied; one whose value has worsened since it was written no longer counts.
// Without cuts the rules about boards are silent.
func All(p *model.Plan, cuts *cutting.Plan) []Finding {
	sh := newShop(p, cuts)
	var out []Finding
	for _, r := range rules() {
		for _, f := range r.look(sh) {
			f.Rule, f.cost = r.id, r.cost
			slices.Sort(f.Parts)
			f.Parts = slices.Compact(f.Parts)
			sh.waive(&f)
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, order)
	return out
}

func order(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(a.cost, b.cost),
		cmp.Compare(rank(a.Severity), rank(b.Severity)),
		cmp.Compare(a.Rule, b.Rule),
		slices.Compare(a.Parts, b.Parts),
		cmp.Compare(a.Text, b.Text))
}

func rank(s Severity) int { return slices.Index([]Severity{Error, Warning, Note}, s) }

// waive marks a finding that the author let stand: same rule, no parts but those
// the waiver names when it names any, and no worse than when it was written. A
// value of zero in the waiver holds for any value.
func (s *shop) waive(f *Finding) {
	for _, w := range s.Waivers {
		if w.Rule != f.Rule || len(w.Parts) > 0 && !s.within(f.Parts, w.Parts) {
			continue
		}
		if w.Value != 0 && worse(f.Value, w.Value, f.Limit) {
			continue
		}
		f.Waived, f.Reason = true, w.Reason
		return
	}
}

// within reports whether every letter is in the list, itself or by the letter of
// its family.
func (s *shop) within(letters, list []string) bool {
	if len(letters) == 0 {
		return false
	}
	for _, c := range letters {
		family := c
		for _, p := range s.Parts {
			if p.Code == c && p.Family != "" {
				family = p.Family
			}
		}
		if !slices.Contains(list, c) && !slices.Contains(list, family) {
			return false
		}
	}
	return true
}

// worseBy is how much a value may differ from the one in a waiver, as a share:
// authors copy it rounded.
const worseBy = 0.005

// worse reports whether v lies farther on the wrong side of the limit than was.
func worse(v, was, limit float64) bool {
	slack := worseBy*math.Abs(was) + 1e-6
	if was < limit {
		return v < was-slack
	}
	return v > was+slack
}
