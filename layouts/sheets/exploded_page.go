package sheets

import (
	"fmt"

	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model/geom"
	"planset/render"
)

// explode fills a page with one view and its balloons; under it are the legend
// and the thing as it is put together.
func (l *leaf) explode(v stageView) {
	const thumb, gap = 40.0, 5.0
	d := l.d
	d.mark(l.title, 1)
	legend := setLegend(d.legend(v.pieces), bodyW-thumb-gap)
	foot := max(legend.height(), thumb-8)
	top := l.body.Min.Y + foot
	box := geom.Box{Min: pt(l.left(), top+4), Max: pt(l.left()+bodyW, l.y+2)}
	l.later(fmt.Sprintf("exploded %s %.3f", l.title, box), func(d *desk) block { return block{items: d.explodedView(v, box)} })
	l.rule(l.left(), l.left()+bodyW, top+1.5, render.Rule)
	l.legendAt(pt(l.left(), top), legend)
	small := geom.Box{Min: pt(l.left()+bodyW-thumb, l.body.Min.Y), Max: pt(l.left()+bodyW, top-1)}
	l.later(fmt.Sprintf("assembled %s %.3f", l.title, small), func(d *desk) block { return block{items: d.assembled(v, small)} })
	l.y = l.body.Min.Y
}

// explodeHalf draws a stage between the top of what is free and low: the view
// at the left, at the right its name, its legend and the thing put together.
func (l *leaf) explodeHalf(v stageView, low float64) {
	const side, gap = 46.0, 2.0
	d := l.d
	x := l.left() + bodyW - side
	box := geom.Box{Min: pt(l.left(), low), Max: pt(x-gap, l.y)}
	l.later(fmt.Sprintf("exploded %s %.3f", v.title, box), func(d *desk) block { return block{items: d.explodedView(v, box)} })
	name, high := lettering.Paragraph(pt(x, l.y), v.title, side, jointName)
	l.add(name...)
	legend := setLegend(d.legend(v.pieces), side)
	y := l.y - high - 3
	l.legendAt(pt(x, y), legend)
	small := geom.Box{Min: pt(x, low), Max: pt(x+side, min(y-legend.height()-4, low+40))}
	l.later(fmt.Sprintf("assembled %s %.3f", v.title, small), func(d *desk) block { return block{items: d.assembled(v, small)} })
}

// assembled draws pieces put together, small.
func (d *desk) assembled(v stageView, box geom.Box) []render.Item {
	if box.W() < 8 || box.H() < 8 { // a long legend leaves no room
		return nil
	}
	var whole []woodwork.Piece
	for _, i := range v.pieces {
		whole = append(whole, woodwork.Piece{ID: i, Solid: d.plan.Placed[i].Solid, Look: woodwork.Done})
	}
	return []render.Item{render.Group{Name: "assembled", Items: woodwork.Fit(whole, lookFrom(v.words), box, 0.2).Items()}}
}
