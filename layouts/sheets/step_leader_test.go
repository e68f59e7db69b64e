package sheets

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// pictured calls see for the picture of every step of every example, in boxes as
// they are on pages with one step and with two.
func pictured(t *testing.T, see func(name string, n *stepDrawing)) {
	t.Helper()
	for _, piece := range []string{"chair", "chair tall", "footstool", "side-table"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			in := drawnPiece(t, "chair", "tall", unit)
			if piece != "chair tall" {
				in = drawnPiece(t, piece, "", unit)
			}
			d := newDesk(in, nil)
			for _, st := range in.Plan.Steps {
				s := d.stepScene(st)
				if onlyMakes(st) || len(s.pieces) == 0 {
					continue
				}
				for _, size := range []geom.Pt{{X: 91, Y: 100}, {X: 190, Y: 140}} {
					box := geom.Box{Max: size}
					n := d.drawStep(st, s, box, 1)
					for _, close := range [...]float64{0.6, 0.3, 0} {
						if len(n.lost) > 0 {
							n = d.drawStep(st, s, box, close)
						}
					}
					see(fmt.Sprintf("%s %s step %d, %g wide", piece, unit, st.Number, size.X), n)
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
