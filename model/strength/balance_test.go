package strength

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

func chairPlan(t *testing.T) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), "petrel-chair/plan.toml", "", &problems)
	p := assembly.Solve(d, assembly.Options{}, &problems)
	require.False(t, problems.Failed())
	return p
}

// Under every load each piece of the chair is in balance, the floor carries what
// was put on, nothing pulls on a bearing face and no screw is pressed.
func TestEveryPieceIsInBalance(t *testing.T) {
	p := chairPlan(t)
	n := newNetwork(p)
	list := tryouts(p, Usual())
	require.Len(t, list, 4)
	for _, c := range list {
		c.loads = append(weights(p), c.loads...)
		n.carry(c.loads)
		for i, q := range p.Placed {
			var force, turn geom.V3
			for _, f := range n.on(i, c.loads) {
				force = force.Add(f.Push)
				turn = turn.Add(f.At.Sub(q.Center).Cross(f.Push))
			}
			assert.InDelta(t, 0, force.Len(), 0.1, "%s: forces on %s", c.what, q.Part.Code)
			assert.InDelta(t, 0, turn.Len(), 30, "%s: moments on %s", c.what, q.Part.Code)
		}
		floor, put := geom.V3{}, geom.V3{}
		for i, s := range n.springs {
			if s.a < 0 {
				floor = floor.Add(s.dir.Mul(-n.force[i]))
			}
			switch s.kind {
			case push:
				assert.LessOrEqual(t, n.force[i], 1e-4, "a face pulls")
			case axial:
				assert.GreaterOrEqual(t, n.force[i], -1e-4, "a screw pushes")
			}
		}
		for _, l := range c.loads {
			put = put.Add(l.Push)
		}
		assert.InDelta(t, 0, floor.Add(put).Len(), 0.5, c.what)
	}
}

// What is mirrored carries alike: sitting loads both legs by half each.
func TestSittingIsEven(t *testing.T) {
	p := chairPlan(t)
	n := newNetwork(p)
	n.carry(tryouts(p, Usual())[0].loads)
	side := map[model.Hand]float64{}
	for i, s := range n.springs {
		if s.a < 0 && s.dir.Z == 1 {
			side[p.Placed[s.b].Hand] -= n.force[i]
		}
	}
	assert.InDelta(t, 650, side[model.LeftHand], 2)
	assert.InDelta(t, 650, side[model.RightHand], 2)
}

// A hole in the middle of a slat takes its diameter from the width that bends
// through the thickness, and d³ from the w³ that bends edgewise.
func TestHolesWeaken(t *testing.T) {
	p := &model.Part{Thick: 20, Holes: []model.Hole{{Into: "face", Along: 100, Across: 40, Diam: 10}, {Into: "edge", Along: 100, Diam: 10}, {Into: "face", Along: 300, Across: 10, Diam: 10}}}
	width, inertia := drilled(p, 102, 1, 40)
	assert.InDelta(t, 10, width, 1e-12)
	assert.InDelta(t, 20*1000.0/12, inertia, 1e-9)
	_, inertia = drilled(p, 300, 1, 40)
	assert.InDelta(t, 20*1000.0/12+20*10*900, inertia, 1e-9, "and by Steiner off the middle")
	width, _ = drilled(p, 200, 1, 40)
	assert.Zero(t, width)
}
