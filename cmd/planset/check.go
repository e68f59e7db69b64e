package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"planset/layouts/report"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/marks"
	"planset/model/strength"
	"planset/render/pdf"
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
	var sections []report.Section
	for _, v := range variants {
		plan := a.solve(d, v, a.unit(d))
		if plan == nil || broken {
			continue
		}
		a.drawings(d, plan)
		list := check.All(plan, buying.Boards(plan))
		a.failed = a.failed || forbidding(list)
		out.Variants = append(out.Variants, checkedVariant{v, findingsOf(list)})
		sections = append(sections, report.Section{Plan: plan, Findings: list})
		if !a.flags.has("json") {
			a.tell(plan.Variant.Title, list)
		}
	}
	if a.flags.has("json") && len(out.Variants) > 0 {
		err = a.printJSON(out)
	}
	if err != nil || !a.flags.has("report") || len(sections) == 0 {
		return err
	}
	return a.report(d, sections)
}

// flagReport asks for the author's report.
var flagReport = flag{"report", "FILE.pdf", nil, "also write the author's report, with pictures, marks and forces, to this file"}

// report writes the author's report, whole or not at all. Its path is printed
// like that of every file, unless JSON is printed.
func (a *app) report(d *draft, sections []report.Section) error {
	for i := range sections {
		p := sections[i].Plan
		sections[i].Marks, sections[i].Forces = marks.Rank(p), strength.All(p, strength.Usual())
	}
	book := report.Compose(sections, d.seed)
	book.Date = dated(book.Date)
	var buf bytes.Buffer
	if err := pdf.Write(&buf, book); err != nil {
		return err
	}
	if a.flags.has("json") {
		out := a.out
		a.out = io.Discard
		defer func() { a.out = out }()
	}
	dir, name := filepath.Split(a.flags.or("report", ""))
	if name == "" {
		return wrong{"--report needs the name of a file", "write --report report.pdf"}
	}
	return a.write(filepath.Clean(dir), []output{{name, buf.Bytes()}})
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
