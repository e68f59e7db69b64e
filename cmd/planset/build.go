package main

import (
	"bytes"
	"fmt"

	"planset/layouts/sheets"
	"planset/model"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/marks"
	"planset/model/source"
	"planset/render"
	"planset/render/pdf"
)

// build writes the plan sets.
func (a *app) build() error {
	d, err := a.load()
	if err != nil || d == nil {
		return err
	}
	editions, err := a.editions(d)
	if err != nil || a.problems.Failed() {
		return err
	}
	var files []output
	for i, e := range editions {
		a.progress(i, len(editions), e)
		f, err := a.edition(d, e)
		if err != nil {
			return err
		}
		files = append(files, f)
	}
	a.progressDone()
	if a.problems.Failed() {
		return nil
	}
	return a.write(a.outDir(d), files)
}

// edition makes one plan set: read, solve, check, cut, compose, paint.
func (a *app) edition(d *draft, e model.Edition) (output, error) {
	plan, book := a.compose(d, e)
	if book == nil {
		return output{}, nil
	}
	var buf bytes.Buffer
	if err := pdf.Write(&buf, book); err != nil {
		return output{}, err
	}
	return output{fileName(plan, e), buf.Bytes()}, nil
}

// compose makes the pages of one plan set; there are none when the plan has
// errors.
func (a *app) compose(d *draft, e model.Edition) (*model.Plan, *render.Book) {
	plan := a.solve(d, e.Variant, e.Unit)
	if plan == nil {
		return nil, nil
	}
	cuts := buying.Boards(plan)
	a.drawings(d, plan)
	marks.Note(plan)
	// Nothing changes the plan from here on, so it is checked while it is drawn.
	found := make(chan []check.Finding, 1)
	go func() { found <- check.All(plan, cuts) }()
	others := a.others(d, e.Variant, e.Unit)
	book, notes := sheets.Compose(sheets.Input{Plan: plan, Others: others, Cuts: cuts, Paper: e.Paper, Licensee: a.flags.or("licensee", ""), Seed: d.seed})
	a.stop(d, plan, <-found)
	if a.problems.Failed() {
		return plan, nil
	}
	for _, n := range notes {
		fmt.Fprintf(a.err, "planset: %s: %s\n", fileName(plan, e), n)
	}
	book.Date = dated(book.Date)
	return plan, book
}

// fileName is slug-variant-units-paper.pdf.
func fileName(p *model.Plan, e model.Edition) string {
	return fmt.Sprintf("%s-%s-%s-%s.pdf", p.Slug, e.Variant, unitName(e.Unit), e.Paper)
}

// editions are the ones the model names, or those the flags ask for.
func (a *app) editions(d *draft) ([]model.Edition, error) {
	if !a.flags.has("variant") && !a.flags.has("paper") && !a.flags.has("units") {
		plan := a.solve(d, "standard", d.Unit)
		if plan == nil {
			return nil, nil
		}
		return plan.Editions, nil
	}
	variants := []string{a.flags.or("variant", "standard")}
	if variants[0] == "all" {
		variants = d.variantNames()
	} else if _, err := a.wanted(d); err != nil {
		return nil, err
	}
	units := []expr.Unit{a.unit(d)}
	if a.flags.or("units", "") == "both" {
		units = []expr.Unit{expr.Inch, expr.MM}
	}
	var out []model.Edition
	for _, v := range variants {
		for _, u := range units {
			for _, p := range a.papers(u) {
				out = append(out, model.Edition{Variant: v, Unit: u, Paper: p})
			}
		}
	}
	return out, nil
}

// papers reads --paper; inch editions go on letter and metric ones on A4 by
// default.
func (a *app) papers(u expr.Unit) []string {
	switch p := a.flags.or("paper", ""); {
	case p == "both":
		return []string{"letter", "a4"}
	case p != "":
		return []string{p}
	case u == expr.MM:
		return []string{"a4"}
	}
	return []string{"letter"}
}

// progress tells on a terminal which edition is being made.
func (a *app) progress(i, n int, e model.Edition) {
	if terminal(a.err) {
		fmt.Fprintf(a.err, "\r\033[K%d of %d: %s, %s, %s", i+1, n, e.Variant, unitName(e.Unit), e.Paper)
	}
}

func (a *app) progressDone() {
	if terminal(a.err) {
		fmt.Fprint(a.err, "\r\033[K")
	}
}

// stop turns findings that forbid publication into errors.
func (a *app) stop(d *draft, plan *model.Plan, list []check.Finding) {
	for _, f := range list {
		if f.Severity != check.Error || f.Waived {
			continue
		}
		p := a.problems.Errorf(d.partAt(plan, f.Parts), f.Rule, "%s", f.Text)
		if f.Fix != "" {
			p.Fix("%s", f.Fix)
		}
	}
}

// partAt is where the first of some parts is declared.
func (d *draft) partAt(plan *model.Plan, codes []string) source.Span {
	for _, p := range plan.Parts {
		if len(codes) == 0 || p.Code != codes[0] {
			continue
		}
		for _, decl := range d.Parts {
			if decl.Key == p.Key {
				return decl.At
			}
		}
	}
	return source.Span{File: d.Files[0]}
}

// others solves the sizes a plan is compared with.
func (a *app) others(d *draft, variant string, unit expr.Unit) []*model.Plan {
	var out []*model.Plan
	for _, v := range d.variantNames() {
		if v == variant {
			continue
		}
		if p := a.solve(d, v, unit); p != nil {
			out = append(out, p)
		}
	}
	return out
}

// dated is the date that goes into a file: the revision's, or a fixed one, so
// that the same model always gives the same bytes.
func dated(date string) string {
	if date == "" {
		return "2000-01-01"
	}
	return date
}
