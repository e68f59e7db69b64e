package view

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"planset/model/geom"
)

// chairs is a row of n boards in groups of about 15 that lean on each other,
// like so many chairs side by side: drilled, notched, plain and round.
func chairs(n int) []Body {
	r := rand.New(rand.NewPCG(1, 1))
	solids := []*geom.Solid{
		drilled(500, 90, 25), box(600, 60, 25), notched(550, 140, 25),
		prism(25, rim{at: ring(geom.Pt{}, 45, 24, false).at, smooth: 1}, ring(geom.Pt{}, 10, 24, true)),
		drilled(700, 120, 38),
	}
	var out []Body
	for i := range n {
		group := float64(i / 15)
		row, col := float64(int(group)/8), float64(int(group)%8)
		p := geom.V3{X: col*900 + r.Float64()*500, Y: row*900 + r.Float64()*500, Z: r.Float64() * 700}
		axis := [3]geom.V3{{X: 1}, {Y: 1}, {Z: 1}}[i%3]
		out = append(out, Body{ID: i, Solid: solids[i%len(solids)], Pose: turned(p, axis, float64(r.IntN(8))*0.25)})
	}
	return out
}

func BenchmarkDraw(b *testing.B) {
	for _, n := range []int{50, 60, 100, 200, 400, 800} {
		bodies, cam := chairs(n), Iso(0.5, 0.4)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Draw(bodies, cam)
			}
		})
	}
}
