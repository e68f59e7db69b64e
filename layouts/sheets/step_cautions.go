package sheets

import (
	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/render"
)

// messageText is how the messages before a step are set.
var (
	messageBold = lettering.Style{Face: fonts.CondBold, Size: render.Body, Lead: 1.26}
	messageText = lettering.Style{Face: fonts.Cond, Size: render.Body, Lead: 1.26}
)

// cautionsOf are the messages before a step.
func (d *desk) cautionsOf(st *model.Step) []model.Caution {
	if len(st.Alerts) > 0 {
		return st.Alerts
	}
	return d.store.alerts[st.Number]
}

// stepCautions sets the messages of a step in its column.
func (l *leaf) stepCautions(st *model.Step) {
	for _, c := range l.d.cautionsOf(st) {
		l.skip(l.panel(pt(0, l.y), c.Signal, l.colW(), panelH) + 1.8)
		l.para(0, l.colW(), c.Hazard+" "+c.Consequence, messageBold)
		l.skip(0.8)
		l.para(0, l.colW(), c.Avoid, messageText)
		l.skip(3)
	}
}

// Measures of messages across the page, mm.
const (
	signalW   = 31.0 // of the signal word
	signalGap = 4.0
	bandGap   = 2.4 // from one to the next
	bandEnd   = 5.0 // from the last to what comes after
)

// cautionBand sets the messages of a step across the page as low as can be: the
// signal word, what can happen, and what to do about it, side by side.
func (d *desk) cautionBand(st *model.Step) *leaf {
	var best *leaf
	for _, share := range [...]float64{0.5, 0.44, 0.38} { // of the width, for what can happen
		l := d.scratch(bodyW)
		for i, c := range d.cautionsOf(st) {
			if i > 0 {
				l.skip(bandGap)
			}
			l.cautionRow(c, share*(bodyW-signalW-2*signalGap))
		}
		if best == nil || l.y > best.y+0.1 {
			best = l
		}
	}
	if best.y < 0 {
		best.skip(bandEnd)
	}
	return best
}

// cautionRow sets one message across the page, what can happen in a width.
func (l *leaf) cautionRow(c model.Caution, wide float64) {
	x := signalW + signalGap
	high := l.panel(pt(0, l.y), c.Signal, signalW, panelH)
	danger := l.paraAt(pt(x, l.y), wide, c.Hazard+" "+c.Consequence, messageBold)
	x += wide + signalGap
	avoid := l.paraAt(pt(x, l.y), bodyW-x, c.Avoid, messageText)
	l.skip(max(high, danger, avoid))
}
