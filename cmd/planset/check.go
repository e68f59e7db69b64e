package main

import (
	"fmt"
	"slices"

	"planset/model/buying"
	"planset/model/check"
)

// shownMost is how many findings a screen gets; the rest are in --json.
const shownMost = 15

// checked is the object of check --json.
type checked struct {
	Variants []checkedVariant `json:"variants"`
}

type checkedVariant struct {
	Variant  string        `json:"variant"`
	Findings []findingFact `json:"findings"`
}

// check looks the model over and tells what it found.
func (a *app) check() error {
	d, err := a.load()
	if err != nil || d == nil {
		return err
	}
	variants := d.variantNames()
	if a.flags.or("variant", "standard") != "all" {
		v, err := a.wanted(d)
		if err != nil {
			return err
		}
		variants = []string{v}
	}
	broken := a.problems.Failed() // solved all the same, for what else is wrong
	out := checked{Variants: []checkedVariant{}}
	for _, v := range variants {
		plan := a.solve(d, v, a.unit(d))
		if plan == nil || broken {
			continue
		}
		list := check.All(plan, buying.Boards(plan))
		a.failed = a.failed || forbidding(list)
		out.Variants = append(out.Variants, checkedVariant{v, findingsOf(list)})
		if !a.flags.has("json") {
			a.tell(plan.Variant.Title, list)
		}
	}
	if a.flags.has("json") && len(out.Variants) > 0 {
		return a.printJSON(out)
	}
	return nil
}

// forbidding reports whether a finding stops publication.
func forbidding(list []check.Finding) bool {
	return slices.ContainsFunc(list, func(f check.Finding) bool { return f.Severity == check.Error && !f.Waived })
}

// tell prints the findings of one size.
func (a *app) tell(title string, list []check.Finding) {
	open := 0
	for _, f := range list {
		if !f.Waived {
			open++
		}
	}
	fmt.Fprintf(a.out, "%s: %s\n", title, plural(open, "finding"))
	shown := 0
	for _, f := range list {
		if f.Waived {
			continue
		}
		if shown == shownMost {
			fmt.Fprintf(a.out, "  ... and %d more; --json has them all\n", open-shown)
			break
		}
		shown++
		fmt.Fprintf(a.out, "  %-7s %s", f.Severity, f.Text)
		if f.Fix != "" {
			fmt.Fprintf(a.out, "; %s", f.Fix)
		}
		fmt.Fprintf(a.out, "   [%s]\n", f.Rule)
	}
	for _, f := range list {
		if f.Waived {
			fmt.Fprintf(a.out, "  waived  %s: %s   [%s]\n", f.Text, f.Reason, f.Rule)
		}
	}
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
