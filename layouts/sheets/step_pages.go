package sheets

import (
	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// A stepPage is one step on its way to a page that it shares: what to mind in a
// band under its title, or in the column of words, whichever is shorter.
type stepPage struct {
	step  *model.Step
	band  *leaf // set round the origin; may be empty
	words *leaf // likewise, beside the picture
	tall  float64
	above bool // what to mind is in the band
	bare  bool // there is nothing to show: the words stand at the left
}

// stepPage sets the words of a step.
func (d *desk) stepPage(st *model.Step) stepPage {
	least := pictureH
	bare := len(st.Make) == 0 && len(d.present(st)) == 0
	switch {
	case bare:
		least = 0
	case onlyMakes(st):
		least = makeH
	}
	within := stepPage{step: st, band: d.scratch(bodyW), words: d.stepWords(st, wordsW, false), bare: bare}
	within.tall = max(-within.words.y, least)
	cautions := d.cautionsOf(st)
	if len(cautions) == 0 {
		return within
	}
	above := stepPage{step: st, band: d.scratch(bodyW), words: d.stepWords(st, wordsW, true), bare: bare, above: true}
	for _, c := range cautions {
		above.band.cautionBand(c)
	}
	above.tall = max(-above.words.y, least) - above.band.y
	if above.tall < within.tall {
		return above
	}
	return within
}

// stepWords sets the column of words of a step; what to mind stands in it unless
// it is above.
func (d *desk) stepWords(st *model.Step, width float64, above bool) *leaf {
	l := d.scratch(width)
	l.stepGear(st)
	if !above {
		l.stepCautions(st)
	}
	l.stepDo(st)
	return l
}

// pictureWs are the widths that a picture beside words may have, mm.
var pictureWs = [...]float64{pictureW, 100, 109, 118}

// widen gives the picture of a step as much of the page's width as makes it
// larger, while its words still fit beside it in a height. It returns the width.
func (d *desk) widen(st *stepPage, high float64) float64 {
	if st.bare || onlyMakes(st.step) {
		return pictureW
	}
	cam := lookFrom(viewOf(st.step))
	b, kinds := d.stepReach(st.step, cam)
	if b.Empty() {
		return pictureW
	}
	var scales [len(pictureWs)]float64
	for i, w := range pictureWs {
		box := geom.Box{Max: pt(w, high)}
		scales[i] = scaleIn(b, roomIn(b, kinds, box, 1, 1))
	}
	for i := len(pictureWs) - 1; i > 0; i-- {
		if scales[i] < 1.03*scales[i-1] {
			continue // as large in a narrower one
		}
		if words := d.stepWords(st.step, bodyW-pictureWs[i]-wordsGap, st.above); -words.y <= high {
			st.words = words
			return pictureWs[i]
		}
	}
	return pictureW
}

// stepReach is about how far the picture of a step reaches, in mm of wood as a
// camera sees it, and how many kinds of hardware it shows: from the blanks of its
// pieces and the places of the hardware, without drawing them.
func (d *desk) stepReach(st *model.Step, cam view.Camera) (b geom.Box, kinds int) {
	b = geom.NoBox()
	shown := d.present(st)
	if st.OnBench() {
		shown = st.Add
	}
	for _, i := range shown {
		p := d.plan.Placed[i]
		o := p.Part.Board.Outline.Box()
		for _, x := range [2]float64{o.Min.X, o.Max.X} {
			for _, y := range [2]float64{o.Min.Y, o.Max.Y} {
				for _, z := range [2]float64{0, p.Part.Board.Thick} {
					b = b.With(cam.Flat(p.Pose.Point(geom.V3{X: x, Y: y, Z: z})))
				}
			}
		}
	}
	seen := map[*model.Hardware]bool{}
	for _, j := range st.Fasten {
		for _, f := range j.Fasteners {
			seen[f.Hardware] = true
			b = b.With(cam.Flat(f.Head.Sub(f.Dir.Mul(f.Length + offHole(f)))))
		}
	}
	return b, len(seen)
}

// messageText is how the messages before a step are set.
var (
	messageBold = lettering.Style{Face: fonts.CondBold, Size: render.Body, Lead: 1.26}
	messageText = lettering.Style{Face: fonts.Cond, Size: render.Body, Lead: 1.26}
)

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

// cautionBand sets a message across the page: the signal word at the left.
func (l *leaf) cautionBand(c model.Caution) {
	const signalW = 40.0
	top := l.y
	high := l.panel(pt(0, top), c.Signal, signalW, panelH)
	x := signalW + 4
	l.para(x, l.colW()-x, c.Hazard+" "+c.Consequence, messageBold)
	l.skip(0.8)
	l.para(x, l.colW()-x, c.Avoid, messageText)
	l.y = min(l.y, top-high) - 3
}

// mostSteps is how many steps a page may show.
const mostSteps = 3

// sharePages puts steps together so that the pages are few; among those ways,
// so that few pages hold steps of two stages, and a step with a page to itself
// is one that fills it.
func sharePages(all []stepPage) [][]stepPage {
	room := fieldH - headH - footH
	cost, take := make([]float64, len(all)+1), make([]int, len(all))
	for i := len(all) - 1; i >= 0; i-- {
		high := -stepGap
		for n := 1; n <= mostSteps && i+n <= len(all); n++ {
			high += stepGap + stepHead + all[i+n-1].tall
			if n > 1 && high > room {
				break
			}
			const page, mixed = 10000, 100 // a page weighs more than all the blank of a set
			blank := max(0, room-high) / room
			c := cost[i+n] + page + blank*blank
			if all[i+n-1].step.Stage != all[i].step.Stage {
				c += mixed
			}
			if take[i] == 0 || c < cost[i] {
				cost[i], take[i] = c, n
			}
		}
	}
	var out [][]stepPage
	for i := 0; i < len(all); i += take[i] {
		out = append(out, all[i:i+take[i]])
	}
	return out
}

// markStage adds the bookmark of a stage that begins at the top of what is free.
func (d *desk) markStage(l *leaf, stage string) {
	title, _ := d.stageWords(stage)
	d.mark(title, 1)
	d.marks[len(d.marks)-1].Y = l.y
}

// stagesWords heads a page with steps of one or more stages.
func (d *desk) stagesWords(steps []stepPage) (title, purpose string) {
	title, purpose = d.stageWords(steps[0].step.Stage)
	for i, st := range steps[1:] {
		if st.step.Stage != steps[i].step.Stage {
			next, _ := d.stageWords(st.step.Stage)
			title += ", " + lower(next)
			purpose = "The end of one stage and the beginning of the next. Do not go on until the check of a step is met."
		}
	}
	return title, purpose
}

// stepsOn sets steps on a page and shares the height between them.
func (d *desk) stepsOn(l *leaf, steps []stepPage) {
	spare := l.room() - stepGap*float64(len(steps)-1)
	for _, st := range steps {
		spare -= st.tall + stepHead
	}
	pictures := 0.0 // they share what is left
	for _, st := range steps {
		if !st.bare {
			pictures++
		}
	}
	for i, st := range steps {
		if i > 0 {
			l.skip(stepGap/2 - 1)
			l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
			l.skip(stepGap/2 + 1)
		}
		d.name("step " + digits(st.step.Number))
		if i > 0 && st.step.Stage != steps[i-1].step.Stage {
			d.markStage(l, st.step.Stage)
		}
		l.stepHead(st.step)
		l.add(Moved(st.band.items, pt(l.left(), l.y))...)
		l.skip(-st.band.y)
		tall := st.tall + st.band.y
		high := min(tall+spare/pictures, max(pictureMost, tall))
		if st.bare {
			high = tall
		}
		x := l.left()
		if !st.bare {
			w := d.widen(&st, high)
			l.stepPicture(st.step, geom.Box{Min: pt(x, l.y-high), Max: pt(x+w, l.y)})
			x += w + wordsGap
		}
		l.addStep(st.step, Moved(st.words.items, pt(x, l.y)))
		l.skip(high)
	}
}
