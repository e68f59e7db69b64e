package shop

import (
	"slices"
	"strings"

	"planset/model"
)

// The limits a page of cautions keeps: common practice for printed instructions.
const (
	MostCautions = 9
	MostWords    = 35
	// perStep is how many messages stand before one step; a longer row of them
	// is not read.
	perStep = 1
	// mostPerStep may stand there so that no message is left out of the steps.
	mostPerStep = 3
	// share is the part of all steps that may carry a WARNING, one in so many.
	share = 3
)

// Cautions returns the messages of a plan, gravest first: those the maker wrote
// and ours for the operations and woods really used. A message of the maker's
// with the key of one of ours stands in its place. There are at most
// MostCautions; what is left out is the least grave of ours.
//
// The signal words have the meanings of ANSI Z535.6. Nothing is said of loads
// or of standards met, for nothing was tested.
func Cautions(plan *model.Plan) []model.Caution {
	var all []model.Caution
	for _, m := range messages(plan) {
		all = append(all, m.Caution)
	}
	return all
}

// A message is a caution with the operations it is about. Those the maker wrote
// have no operations of their own: steps name them.
type message struct {
	model.Caution
	ops []Operation
}

// messages returns what Cautions does, with the operations.
func messages(plan *model.Plan) []message {
	own := map[string]bool{}
	for _, c := range plan.Cautions {
		own[c.Key] = true
	}
	var all []message
	for _, m := range standing(plan) {
		if !own[m.Key] {
			all = append(all, m)
		}
	}
	room := max(0, MostCautions-len(plan.Cautions))
	if len(all) > room {
		all = all[:room]
	}
	ours := standing(plan)
	for _, c := range plan.Cautions {
		m := message{Caution: c}
		if i := slices.IndexFunc(ours, func(o message) bool { return o.Key == c.Key }); i >= 0 {
			m.ops = ours[i].ops
		}
		all = append(all, m)
	}
	slices.SortStableFunc(all, func(a, b message) int { return grave(a.Signal) - grave(b.Signal) })
	return all
}

// grave returns the place of a signal word, the gravest first.
func grave(s model.Signal) int {
	return slices.Index([]model.Signal{model.Danger, model.Warn, model.Careful, model.NoticeOf}, s)
}

// Words returns how many words the message has, as an editor counts them.
func Words(c model.Caution) int {
	return len(strings.Fields(c.Hazard)) + len(strings.Fields(c.Consequence)) + len(strings.Fields(c.Avoid))
}

// AllAlerts returns the messages that stand before each step, by the number of
// the step. They are the same messages as the grouped ones. Each stands at the
// first step that bites in every stage, but a WARNING stands on no more than a
// third of the steps: the gravest come first and the rest keep only to steps
// that carry one already.
func AllAlerts(plan *model.Plan) map[int][]model.Caution {
	a := alerts{plan: plan, at: map[int][]model.Caution{}, limit: max(1, len(plan.Steps)/share)}
	all := messages(plan)
	for _, s := range plan.Steps {
		for _, key := range s.Alert {
			if i := slices.IndexFunc(all, func(m message) bool { return m.Key == key }); i >= 0 {
				a.put(s, all[i].Caution, true)
			}
		}
	}
	a.room = mostPerStep
	for _, m := range all {
		a.first(m, func(*model.Step) string { return "" })
	}
	a.room = perStep
	for _, m := range all {
		a.first(m, func(s *model.Step) string { return s.Stage })
	}
	return a.at
}

// ForStep returns the messages that stand before one step; see AllAlerts.
func ForStep(plan *model.Plan, step *model.Step) []model.Caution {
	return AllAlerts(plan)[step.Number]
}

// alerts hands messages out to steps.
type alerts struct {
	plan  *model.Plan
	at    map[int][]model.Caution
	limit int // of steps with a WARNING
	room  int // for messages before one step
}

// first puts m before the first step it bites at for every value of part.
func (a *alerts) first(m message, part func(*model.Step) string) {
	done := map[string]bool{}
	for _, s := range a.plan.Steps {
		if done[part(s)] || !bites(m, InStep(a.plan, s)) {
			continue
		}
		done[part(s)] = true
		a.put(s, m.Caution, false)
	}
}

// put adds c to the step unless the step or the plan has enough of them.
func (a *alerts) put(s *model.Step, c model.Caution, asked bool) {
	have := a.at[s.Number]
	if slices.Contains(have, c) {
		return
	}
	if !asked && (len(have) >= a.room || c.Signal == model.Warn && !a.warns(s) && a.warned() >= a.limit) {
		return
	}
	a.at[s.Number] = append(have, c)
	slices.SortStableFunc(a.at[s.Number], func(x, y model.Caution) int { return grave(x.Signal) - grave(y.Signal) })
}

func (a *alerts) warns(s *model.Step) bool {
	return slices.ContainsFunc(a.at[s.Number], func(c model.Caution) bool { return grave(c.Signal) <= grave(model.Warn) })
}

// warned counts the steps that carry a WARNING or worse.
func (a *alerts) warned() int {
	n := 0
	for _, s := range a.plan.Steps {
		if a.warns(s) {
			n++
		}
	}
	return n
}

// bites reports whether m is about one of ops.
func bites(m message, ops []Operation) bool {
	return slices.ContainsFunc(m.ops, func(op Operation) bool { return slices.Contains(ops, op) })
}

// Meaning says what a signal word stands for, in our words after ANSI Z535.6.
func Meaning(s model.Signal) string {
	switch s {
	case model.Danger:
		return "will kill or badly hurt someone if it is not avoided."
	case model.Warn:
		return "could kill or badly hurt someone if it is not avoided."
	case model.Careful:
		return "could hurt someone, slightly or moderately, if it is not avoided."
	default:
		return "is about damage to things, not to people."
	}
}

// EditCautions returns, one sentence each, what an editor would send back: a
// message that is too long or says "be careful", too many messages, a WARNING
// before too many steps, and a message at a step whose work it is not about.
func EditCautions(plan *model.Plan) []string {
	var faults []string
	all := messages(plan)
	for _, m := range all {
		text := strings.Join([]string{m.Hazard, m.Consequence, m.Avoid}, " ")
		if n := Words(m.Caution); n > MostWords {
			faults = append(faults, say("caution %q has %d words; %d is the most", m.Key, n, MostWords))
		}
		if strings.Contains(strings.ToLower(text), "be careful") {
			faults = append(faults, say("caution %q says \"be careful\"; say what to do", m.Key))
		}
	}
	if len(all) > MostCautions {
		faults = append(faults, say("there are %d cautions; %d is the most", len(all), MostCautions))
	}
	for _, s := range plan.Steps {
		for _, key := range s.Alert {
			i := slices.IndexFunc(all, func(m message) bool { return m.Key == key })
			switch {
			case i < 0:
				faults = append(faults, say("step %d asks for caution %q, which is not in the plan", s.Number, key))
			case len(all[i].ops) > 0 && !bites(all[i], InStep(plan, s)):
				faults = append(faults, say("step %d asks for caution %q, but nothing in that step is about it", s.Number, key))
			}
		}
	}
	a := alerts{plan: plan, at: AllAlerts(plan)}
	if n := a.warned(); n > max(1, len(plan.Steps)/share) {
		faults = append(faults, say("%d of %d steps carry a WARNING; one in %d is the most", n, len(plan.Steps), share))
	}
	return faults
}
