package main

import (
	"encoding/json"
	"math"
	"slices"

	"planset/layouts/sheets"
	"planset/layouts/tiles"
	"planset/model"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/marks"
	"planset/render"
)

// facts prints everything that was solved.
func (a *app) facts() error {
	d, err := a.load()
	if err != nil || d == nil {
		return err
	}
	variant, err := a.wanted(d)
	if err != nil {
		return err
	}
	f := a.gather(d, variant, a.unit(d))
	if f == nil {
		return nil
	}
	if !a.flags.has("json") {
		f.print(a.out)
		return nil
	}
	return a.printJSON(f)
}

// printJSON writes v as one indented JSON object.
func (a *app) printJSON(v any) error {
	e := json.NewEncoder(a.out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// gather solves the plan and collects the facts; nil when the plan has errors.
func (a *app) gather(d *draft, variant string, unit expr.Unit) *factSheet {
	f := a.solved(d, variant, unit)
	if f == nil {
		return nil
	}
	marks.Note(f.plan)
	f.addPages(sheets.Input{Plan: f.plan, Others: a.others(d, variant, unit), Cuts: f.cuts, Seed: d.seed})
	if a.problems.Failed() {
		return nil
	}
	return f
}

// solved collects what is known before any page is made.
func (a *app) solved(d *draft, variant string, unit expr.Unit) *factSheet {
	plan := a.solve(d, variant, unit)
	if plan == nil {
		return nil
	}
	cuts := buying.Boards(plan)
	return &factSheet{Title: plan.Title, Variant: plan.Variant.Key, Units: unitName(unit), Measures: measuresOf(plan),
		Parts: partsOf(plan), Placed: placedOf(plan), Hardware: hardwareOf(plan), Boards: boardsOf(cuts), Buying: buyingOf(cuts),
		Bound: boundFact{clean(cuts.Bound.Cost), cuts.Bound.Proved}, Findings: findingsOf(check.All(plan, cuts)), plan: plan, cuts: cuts}
}

// addPages composes both papers to tell which page is where.
func (f *factSheet) addPages(in sheets.Input) {
	f.Sheets, f.Templates = []sheetFact{}, []templateFact{}
	list := sheets.Templates(in.Plan)
	for _, paper := range []tiles.Paper{tiles.Letter(), tiles.A4()} {
		in.Paper = paper.Name
		book, _ := sheets.Compose(in)
		for i, p := range book.Pages {
			f.Sheets = append(f.Sheets, sheetFact{paper.Name, i + 1, p.Title})
		}
		f.addTiles(list, paper, book.Pages)
	}
}

// addTiles tells where each template lies on one paper. The full-size pages of
// the book begin with their map.
func (f *factSheet) addTiles(list []tiles.Template, paper tiles.Paper, pages []render.Page) {
	var laid []tiles.Layout
	for _, t := range list {
		laid = append(laid, tiles.Lay(t, paper))
	}
	run := tiles.Pages(laid, tiles.Look{Unit: f.plan.Unit, First: 1})
	if len(run.Pages) == 0 {
		return
	}
	first := slices.IndexFunc(pages, func(p render.Page) bool { return p.Title == run.Pages[0].Title })
	for n, l := range run.Layouts {
		if n >= len(f.Templates) {
			f.Templates = append(f.Templates, templateOf(l))
		}
		for i, t := range l.Tiles {
			w := t.Window
			f.Templates[n].Tiles = append(f.Templates[n].Tiles, tileFact{Paper: paper.Name, Page: first + run.On[n][i] + 1, Row: t.Row, Column: t.Col,
				Window: [4]float64{clean(w.Min.X), clean(w.Min.Y), clean(w.Max.X), clean(w.Max.Y)}, At: [2]float64{clean(t.At.X), clean(t.At.Y)}})
		}
	}
}

// templateChord is how far the outline's points may lie from the true curve, mm.
const templateChord = 0.02

func templateOf(l tiles.Layout) templateFact {
	t := templateFact{Code: l.Code, Outline: [][2]float64{}, Holes: []templateHole{}, Tiles: []tileFact{}}
	for _, p := range l.Outline.Flatten(templateChord) {
		t.Outline = append(t.Outline, [2]float64{clean(p.X), clean(p.Y)})
	}
	for _, h := range l.Holes {
		// What is drilled through its mate has no place to trust on paper.
		if h.Matched {
			continue
		}
		t.Holes = append(t.Holes, templateHole{clean(h.At.X), clean(h.At.Y), clean(h.Diam)})
	}
	return t
}

func measuresOf(p *model.Plan) map[string]float64 {
	out := map[string]float64{}
	for _, m := range p.Measures {
		v := m.Value.V
		if m.Value.Dim.Angle != 0 {
			v *= math.Pow(180/math.Pi, float64(m.Value.Dim.Angle))
		}
		out[m.Name] = clean(v)
	}
	return out
}

func partsOf(p *model.Plan) []partFact {
	out := []partFact{}
	for _, q := range p.Parts {
		f := partFact{Code: q.Code, Name: factName(q), Quantity: q.Quantity, Hand: string(q.Hand), Stock: q.Stock.Key, Thickness: clean(q.Thick), Width: clean(q.Width),
			Length: clean(q.Length), RoughLength: clean(q.RoughLength), RoughWidth: clean(q.RoughWidth), Mass: clean(q.Mass), Template: q.Template, Holes: []holeFact{}}
		for _, h := range q.Holes {
			f.Holes = append(f.Holes, holeFact{h.Name, clean(h.Along), clean(h.Across), clean(h.Diam), h.Matched})
		}
		out = append(out, f)
	}
	return out
}

func placedOf(p *model.Plan) []placedFact {
	out := []placedFact{}
	for _, q := range p.Placed {
		out = append(out, placedFact{q.Part.Code, factName(q.Part), string(q.Hand), vec(q.Pose.Origin), vec(q.Pose.Along), vec(q.Pose.Across), vec(q.Pose.Thick)})
	}
	return out
}

func hardwareOf(p *model.Plan) []hardwareFact {
	out := []hardwareFact{}
	for _, h := range p.Hardware {
		out = append(out, hardwareFact{h.Name, h.Size, clean(h.Length), h.Quantity, h.Buy})
	}
	return out
}

func boardsOf(c *cutting.Plan) []boardFact {
	out := []boardFact{}
	for _, b := range c.Boards {
		f := boardFact{Stock: b.Stock, Length: clean(b.Length), Cost: clean(b.Cost), OnHand: b.OnHand, Name: b.Name, Pieces: []pieceFact{}}
		for _, p := range b.Pieces {
			f.Pieces = append(f.Pieces, pieceFact{Code: p.Code, Along: clean(p.Along), Across: clean(p.Across), Length: clean(p.Length),
				Width: clean(p.Width), Spare: p.Spare, Pair: p.Pair, Turned: p.Turned})
		}
		out = append(out, f)
	}
	return out
}

func buyingOf(c *cutting.Plan) []buyFact {
	out := []buyFact{}
	for _, b := range c.Buying {
		out = append(out, buyFact{b.Stock, clean(b.Length), b.Quantity, clean(b.Cost)})
	}
	return out
}

func findingsOf(list []check.Finding) []findingFact {
	out := []findingFact{}
	for _, f := range list {
		parts := f.Parts
		if parts == nil {
			parts = []string{}
		}
		out = append(out, findingFact{f.Rule, string(f.Severity), parts, clean(f.Value), clean(f.Limit), f.Unit, f.Text, f.Fix, f.Waived})
	}
	return out
}

func vec(v geom.V3) [3]float64 { return [3]float64{clean(v.X), clean(v.Y), clean(v.Z)} }

// factName is the name the author gave a part, or its key as written.
func factName(p *model.Part) string {
	if p.Name == model.Spoken(p.Key) {
		return p.Key
	}
	return p.Name
}

// clean rounds away what is noise of the arithmetic: a millionth of a unit.
func clean(x float64) float64 {
	r := math.Round(x*1e6) / 1e6
	if r == 0 {
		return 0
	}
	return r
}
