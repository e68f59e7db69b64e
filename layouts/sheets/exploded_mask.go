package sheets

import (
	"math"

	"planset/layouts/sight"
	"planset/model/geom"
	"planset/render/view"
)

// A mask is what a piece covers in the picture: cells with how near they are to
// the eye. All in cells.
type mask struct {
	cells  []maskCell
	rim    []maskCell // the cells round it
	lo, hi [2]int
	moves  []geom.V3 // for each cell a way is opened
	weight float64
	key    int32  // what its balloon says, counted from 0
	stage  string // in which the piece is put on
}

// A maskCell is a cell of a mask, counted from the picture's origin, and how near
// it is in steps of nearness.
type maskCell struct{ x, y, z int32 }

// draw fills the faces of a solid that look at the eye.
func (m *mask) draw(s *geom.Solid, cam view.Camera, cell float64) {
	nearest := map[[2]int32]int{}
	var cuts []float64
	for _, f := range s.Faces {
		n := eyed(cam, f.N)
		if n.Z < 1e-3 {
			continue
		}
		loops := make([][]geom.Pt, len(f.Loops))
		low := geom.NoBox()
		for i, l := range f.Loops {
			for _, v := range l {
				q := cam.Flat(v).Mul(1 / cell)
				loops[i] = append(loops[i], q)
				low = low.With(q)
			}
		}
		d := n.Dot(eyed(cam, f.Loops[0][0])) / cell
		y0 := math.Floor(low.Min.Y)
		cuts = sight.Rows(loops, geom.Pt{Y: y0}, 1, int(low.Max.Y-y0)+2, cuts, func(y int, x0, x1 float64) {
			for x := int(math.Ceil(x0)); x <= int(math.Floor(x1)); x++ {
				c := maskCell{x: int32(x), y: int32(y) + int32(y0)}
				c.z = nearness((d - n.X*(float64(c.x)+0.5) - n.Y*(float64(c.y)+0.5)) / n.Z)
				key := [2]int32{c.x, c.y}
				if k, had := nearest[key]; had {
					m.cells[k].z = max(m.cells[k].z, c.z)
					continue
				}
				nearest[key] = len(m.cells)
				m.cells = append(m.cells, c)
				m.lo = [2]int{min(m.lo[0], x), min(m.lo[1], int(c.y))}
				m.hi = [2]int{max(m.hi[0], x), max(m.hi[1], int(c.y))}
			}
		})
	}
	m.drawRim(nearest)
}

// drawRim finds the cells round a mask: what lies right behind them does not stand
// clear of it.
func (m *mask) drawRim(in map[[2]int32]int) {
	done := map[[2]int32]bool{}
	for _, c := range m.cells {
		for _, way := range [4][2]int32{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			key := [2]int32{c.x + way[0], c.y + way[1]}
			if _, own := in[key]; !own && !done[key] {
				done[key] = true
				m.rim = append(m.rim, maskCell{key[0], key[1], c.z})
			}
		}
	}
}

// nearness counts cells in steps, as far as a pile has room for them.
func nearness(z float64) int32 {
	return int32(max(-nearZero/4, min(nearZero/4, math.Round(z*nearStep))))
}
