package sheets

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// pictured calls see for the picture of every step of every example, in the box it
// has on its page and in one as wide as the page.
func pictured(t *testing.T, see func(name string, n *stepDrawing)) {
	t.Helper()
	for _, piece := range []string{"chair", "chair tall", "footstool", "side-table"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			in := drawnPiece(t, "chair", "tall", unit)
			if piece != "chair tall" {
				in = drawnPiece(t, piece, "", unit)
			}
			d := newDesk(in, nil)
			pages, _ := d.drawnPages(allForms(d))
			for _, p := range pages {
				for i, f := range p.steps {
					s := d.stepScene(f.step)
					if onlyMakes(f.step) || len(s.pieces) == 0 {
						continue
					}
					for _, box := range []geom.Box{f.rungs[p.at[i]].picture(), {Max: pt(bodyW, 140)}} {
						n := d.fitStep(f.step, s, box)
						see(fmt.Sprintf("%s %s step %d, %g wide", piece, unit, f.step.Number, box.W()), n)
					}
				}
			}
		}
	}
}

// foreign is how many of the samples along the leaders of a picture, half a
// millimetre apart, lie on wood that the leader does not name.
func foreign(n *stepDrawing) (over, all int) {
	each(n.items, func(item render.Item) {
		g, ok := item.(render.Group)
		if !ok || g.Name != "leader" && g.Name != "balloon" {
			return
		}
		line := strokesOf(g.Items)[0]
		own := n.ground.at(line[0])
		for s := 1.0; s < line[1].Sub(line[0]).Len(); s += 0.5 {
			p := line[0].Add(line[1].Sub(line[0]).Unit().Mul(s))
			all++
			if n.ground.wood(p) && !n.alike(own, n.ground.at(p)) {
				over++
			}
		}
	})
	return over, all
}

// Leaders run over parts that they do not name only where there is no choice:
// where what they name is in the midst of others. That is a seventh of their
// length over all examples.
func TestLeadersKeepOffOtherParts(t *testing.T) {
	over, all := 0, 0
	pictured(t, func(_ string, n *stepDrawing) {
		o, a := foreign(n)
		over, all = over+o, all+a
	})
	t.Logf("%d of %d samples", over, all)
	assert.Positive(t, all)
	assert.Less(t, float64(over), 0.16*float64(all))
}
