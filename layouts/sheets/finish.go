package sheets

import (
	"fmt"

	"planset/model/shop"
)

// finishing says how to finish the piece and how to look after it.
func finishing(d *desk, s sheet) {
	l := d.leaf(s, s.title, "What keeps the weather out, now and each year.")
	l.topic("Finish")
	if name := finishName(d); name != "" {
		l.para(textX, textW, name, strong)
		l.skip(2.4)
	}
	l.points("–", shop.FinishText(d.plan))
	for _, c := range shop.Cautions(d.plan) {
		if c.Key == "oily-rags" {
			l.skip(2)
			h := l.panel(pt(l.left()+textX, l.y), c.Signal, headingW, 11)
			l.skip(h + 2.6)
			l.message(textX, textW, c)
			l.skip(2)
		}
	}
	l.skip(5)
	l = l.need(60)
	l.topic("Care")
	l.points("–", shop.CareText(d.plan))
}

// finishName is one line: what, how many coats, how much.
func finishName(d *desk) string {
	f := d.plan.Finish
	if f.Name == "" {
		return ""
	}
	s := upper(f.Name)
	if f.Coats > 0 {
		s += fmt.Sprintf(", %d coats", f.Coats)
	}
	if f.Area > 0 {
		s += " on " + shop.Area(d.plan.Unit, f.Area)
	}
	if n := shop.FinishLitres(d.plan); n > 0 {
		s += ": about " + shop.Volume(d.plan.Unit, n)
	}
	return s + "."
}
