package sight

import (
	"cmp"
	"slices"

	"planset/model/geom"
)

// Spots returns for each number below n places where it is seen and that are
// well inside what is seen of it, at most most of each and no two nearer than
// apart mm. The first lies deepest, of equally deep places nearest the middle of
// what is seen; the others are spread as widely as they can be. A place so
// narrow that no cell lies inside it has the cells there are.
func (m *Map) Spots(n, most int, apart float64) [][]geom.Pt {
	out := make([][]geom.Pt, n)
	deep := m.depths()
	cells := make([][]int32, n)
	for i, id := range m.who {
		if id >= 0 && int(id) < n {
			cells[id] = append(cells[id], int32(i))
		}
	}
	for id, all := range cells {
		if len(all) > 0 {
			out[id] = m.spread(m.inmost(all, deep), deep, most, apart)
		}
	}
	return out
}

// wanted is how many cells deep a spot should lie; farther in is no better.
const wanted = 3

// depths returns for each cell how many steps it is to a cell that shows
// something else, up to wanted.
func (m *Map) depths() []int8 {
	deep := make([]int8, len(m.who))
	for round := int8(1); round <= wanted; round++ {
		for y := 1; y < m.ny-1; y++ {
			for x := 1; x < m.nx-1; x++ {
				i := y*m.nx + x
				id := m.who[i]
				if id == Nobody || deep[i] != round-1 {
					continue
				}
				in := true
				for _, k := range [4]int{i - 1, i + 1, i - m.nx, i + m.nx} {
					in = in && m.who[k] == id && deep[k] >= round-1
				}
				if in {
					deep[i] = round
				}
			}
		}
	}
	return deep
}

// mostCandidates bounds the cells of one number that are looked at.
const mostCandidates = 1000

// inmost keeps the cells that are as deep as any, or deep enough; of very many
// it keeps some.
func (m *Map) inmost(all []int32, deep []int8) []int32 {
	var top int8
	for _, i := range all {
		top = max(top, deep[i])
	}
	least := max(top-1, min(top, 1)) // the rim of a broad face is as good as its middle
	in := slices.DeleteFunc(slices.Clone(all), func(i int32) bool { return deep[i] < least })
	skip := len(in)/mostCandidates + 1
	some := in[:0]
	for k := 0; k < len(in); k += skip {
		some = append(some, in[k])
	}
	return some
}

// spread picks the deepest of the cells nearest their middle, then again and
// again the one farthest from all that are picked.
func (m *Map) spread(cells []int32, deep []int8, most int, apart float64) []geom.Pt {
	mid := geom.Pt{}
	at := make([]geom.Pt, len(cells))
	for k, i := range cells {
		at[k] = m.low.Add(geom.Pt{X: float64(int(i)%m.nx) + 0.5, Y: float64(int(i)/m.nx) + 0.5}.Mul(m.cell))
		mid = mid.Add(at[k].Mul(1 / float64(len(cells))))
	}
	first := 0
	for k := range at {
		if cmp.Or(-cmp.Compare(deep[cells[k]], deep[cells[first]]), cmp.Compare(near(at[k], mid), near(at[first], mid))) < 0 {
			first = k
		}
	}
	away := make([]float64, len(at))
	out := []geom.Pt{at[first]}
	for k := range at {
		away[k] = near(at[k], at[first])
	}
	for len(out) < most {
		far := 0
		for k := range away {
			if away[k] > away[far] {
				far = k
			}
		}
		if away[far] < apart*apart {
			break
		}
		out = append(out, at[far])
		for k := range at {
			away[k] = min(away[k], near(at[k], at[far]))
		}
	}
	return out
}

// near is the square of a distance.
func near(a, b geom.Pt) float64 { return b.Sub(a).Dot(b.Sub(a)) }
