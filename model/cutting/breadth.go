package cutting

// breadth is a bound on the cost for every way of cutting, however many
// sections there are: strips of each width are needed in so much length, and
// side by side only certain widths lie in a board. The least length of board
// that gives all strips, if they could be cut into lengths without loss, is a
// cutting problem across the board, whose linear program is solved as that of
// any other task. Its length at the best rate of cost a length is the bound.
func (t *task) breadth(work *int) float64 {
	across := &task{kerf: t.kerf + 2*t.clean, width: 1, weight: 1}
	need := map[int64]int64{}
	for _, k := range t.kinds {
		if need[k.width] == 0 {
			across.kinds = append(across.kinds, kind{length: k.width, width: 1})
		}
		need[k.width] += int64(k.want) * (k.length + t.kerf)
	}
	across.sortKinds()
	wants := make([]int, len(across.kinds))
	for i, k := range across.kinds {
		wants[i] = int(need[k.length] / perLength)
		across.weight += int64(wants[i])
		across.sections = append(across.sections, section{k.length, 1, [][]int{{i}}, []entry{{i, 1}}})
	}
	across.sortSections()
	across.sizes, across.widths = []size{{room: t.width + across.kerf + grace, cost: 1, width: 1, limit: many}}, []int64{1}
	r := newMaster(across, wants, across.limits()).solve(&pricer{t: across}, work)
	rate := 0.0
	for i, s := range t.sizes {
		if one := float64(s.cost) / float64(s.room); i == 0 || one < rate {
			rate = one
		}
	}
	return r.bound * perLength * rate
}

// perLength is the step that lengths of strip are counted in, nanometres: a
// micrometre, rounded down, so that the bound stays one.
const perLength = 1000
