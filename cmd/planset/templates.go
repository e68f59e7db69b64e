package main

import (
	"bytes"
	"errors"
	"fmt"

	"planset/layouts/sheets"
	"planset/layouts/tiles"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/dxf"
	"planset/render/pdf"
	"planset/render/svg"
)

// templates writes each full-size template as a file of its own.
func (a *app) templates() error {
	d, err := a.load()
	if err != nil || d == nil {
		return err
	}
	variant, err := a.wanted(d)
	if err != nil {
		return err
	}
	plan := a.solve(d, variant, a.unit(d))
	if plan == nil {
		return nil
	}
	format := a.flags.or("format", "svg")
	var files []output
	for _, t := range sheets.Templates(plan) {
		data, err := oneTemplate(plan, t, format)
		var none noRoll
		if errors.As(err, &none) {
			fmt.Fprintf(a.err, "planset: %v\n", err)
			continue
		}
		if err != nil {
			return err
		}
		files = append(files, output{fmt.Sprintf("%s-%s-%s-%s.%s", plan.Slug, variant, unitName(plan.Unit), t.Code, format), data})
	}
	if len(files) == 0 {
		fmt.Fprintln(a.err, "planset: nothing is written: no part of this plan needs a template")
		return nil
	}
	return a.write(a.outDir(d), files)
}

// noRoll says that a template is too large for any roll of paper. The others are
// written all the same.
type noRoll struct{ error }

// oneTemplate paints one template in the format asked for.
func oneTemplate(plan *model.Plan, t tiles.Template, format string) ([]byte, error) {
	look := tiles.Look{Title: plan.Title, Revision: plan.Revision, Unit: plan.Unit}
	var buf bytes.Buffer
	var err error
	switch format {
	case "dxf":
		err = dxf.Write(&buf, drawingOf(t))
	case "pdf":
		page, failed := tiles.Roll(t, look)
		if failed != nil {
			return nil, noRoll{failed}
		}
		err = pdf.Write(&buf, &render.Book{Title: plan.Title + ", " + t.Name, Author: plan.Brand.Maker, Lang: "en-US", Date: plan.Date, Pages: []render.Page{page}})
	default:
		page := tiles.Plot(t, look)
		err = svg.Write(&buf, &page)
	}
	return buf.Bytes(), err
}

// drawingOf is a template as a drawing for machines: what to cut, where to
// drill, which way the grain runs, and which part it is. What is drilled through
// its mate is left out. The origin is where the part's datum end meets its
// reference edge.
func drawingOf(t tiles.Template) dxf.Drawing {
	d := dxf.Drawing{Cut: []geom.Outline{t.Outline}}
	for _, h := range t.Holes {
		if !h.Matched {
			d.Holes = append(d.Holes, dxf.Circle{C: h.At, R: h.Diam / 2})
		}
	}
	b := t.Outline.Box()
	mid := (b.Min.Y + b.Max.Y) / 2
	d.Marks = append(d.Marks, geom.Line(geom.Pt{X: b.Min.X + b.W()/3, Y: mid}, geom.Pt{X: b.Max.X - b.W()/3, Y: mid}))
	d.Texts = append(d.Texts, dxf.Text{At: geom.Pt{X: b.Min.X, Y: b.Min.Y - 12}, Text: t.Code + "  " + t.Name + "  " + t.Note, Height: 5})
	return d
}
