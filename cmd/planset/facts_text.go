package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"planset/model/assembly"
	"planset/model/expr"
)

// print writes the facts as text, in the reader's units.
func (f *factSheet) print(w io.Writer) {
	p, u := f.plan, f.plan.Unit
	fmt.Fprintf(w, "%s, %s, %s\n\n", f.Title, f.Variant, f.Units)
	t := tabwriter.NewWriter(w, 0, 4, 2, ' ', 0)
	for _, m := range p.Measures {
		fmt.Fprintf(t, "%s\t%s\t%s\n", m.Name, m.Value.Text(u), m.Note)
	}
	fmt.Fprintf(t, "\npart\tname\tpieces\tstock\tthick\twide\tlong\n")
	for _, q := range p.Parts {
		fmt.Fprintf(t, "%s\t%s\t%d %s\t%s\t%s\t%s\t%s\n", q.Code, q.Name, q.Quantity, q.Hand, q.Stock.Name,
			u.Length(q.Thick, expr.Fine), u.Length(q.Width, expr.Fine), u.Length(q.Length, expr.Fine))
	}
	fmt.Fprintf(t, "\nhardware\t\tneeded\tto buy\n")
	for _, h := range p.Hardware {
		fmt.Fprintf(t, "%s\t\t%d\t%d\n", assembly.HardwareName(h, u), h.Quantity, h.Buy)
	}
	fmt.Fprintf(t, "\nboards\t\tnumber\tcost\n")
	for _, b := range f.Buying {
		fmt.Fprintf(t, "%s %s\t\t%d\t%.2f\n", b.Stock, u.BoardLength(b.Length), b.Quantity, b.Cost)
	}
	fmt.Fprintf(t, "\ntemplates\t\tletter\ta4\n")
	for _, tm := range f.Templates {
		n := map[string]int{}
		for _, tile := range tm.Tiles {
			n[tile.Paper]++
		}
		fmt.Fprintf(t, "%s\t\t%d\t%d sheets\n", tm.Code, n["letter"], n["a4"])
	}
	t.Flush()
	if len(f.Findings) > 0 {
		fmt.Fprintf(w, "\n%d findings; planset check shows them.\n", len(f.Findings))
	}
}
