package sheets

import (
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/render/view"
)

// A slip is how far two joined pieces slide off the axis of what joins them, and
// how far they come apart along it.
type slip struct {
	moves  []geom.V3 // for each cell a way is opened
	along  []float64
	weight float64
}

// A steelTip is a point of hardware that the picture must have room for.
type steelTip struct {
	at   geom.V3
	with int // the mask it moves with
}

// A judge weighs how a thing is best taken apart: large on the page, with
// little of it hidden. It looks at the pieces as masks of coarse cells that are
// shifted against each other, which takes some microseconds.
type judge struct {
	masks []mask
	tips  []steelTip
	slips []slip
	ways  []way
	cell  float64   // mm
	room  geom.Size // of the picture
	move  []geom.V3 // by mask, in cells
	shift []geom.V3 // the same in whole cells
	pairs []pair
	seen  []int

	usual   float64 // the usual distance
	work    int     // done so far, in cells and moves looked at
	roomy   float64 // how much more room than they take balloons are given
	pile    pile
	reached []bool // by key
}

// cellsAcross is how many cells there are along the diagonal of the whole.
const cellsAcross = 60

// newJudge makes the masks of what is to be taken apart, for a picture that has
// so much room.
func newJudge(u *undoing, cam view.Camera, room geom.Size) *judge {
	j := &judge{ways: u.ways, room: room, roomy: 1, cell: u.d.apart(u.pieces) / 0.11 / cellsAcross}
	like, keys := map[string]float64{}, map[string]int32{}
	for _, i := range u.pieces {
		k := u.d.balloonKey(i)
		if like[k]++; like[k] == 1 {
			keys[k] = int32(len(keys))
		}
	}
	j.reached = make([]bool, len(keys))
	at, when := map[int]int{}, u.d.addedWhen()
	for _, i := range u.pieces {
		m := mask{key: keys[u.d.balloonKey(i)], weight: 1 / math.Sqrt(like[u.d.balloonKey(i)]), lo: [2]int{math.MaxInt32, math.MaxInt32}, hi: [2]int{math.MinInt32, math.MinInt32}}
		m.stage = when[i].stage
		for _, v := range u.moves[i] {
			m.moves = append(m.moves, eyed(cam, v))
		}
		m.draw(u.d.plan.Placed[i].Solid, cam, j.cell)
		at[i] = len(j.masks)
		j.masks = append(j.masks, m)
	}
	for _, p := range u.d.plan.Joints {
		j.addJoint(u, p, cam, at)
	}
	j.shift, j.move = make([]geom.V3, len(j.masks)), make([]geom.V3, len(j.masks))
	j.pairs = u.pairs(cam, j.cell)
	return j
}

// addJoint adds the slips of a joint, those that are alike as one, and the room its
// hardware takes. At says which mask a piece has.
func (j *judge) addJoint(u *undoing, p *model.Joint, cam view.Camera, at map[int]int) {
	first, n := len(j.slips), 0.0
	for _, f := range p.Fasteners {
		k, ok := at[f.Pieces[0]]
		if _, both := at[f.Pieces[1]]; !ok || !both {
			continue
		}
		n++
		s := u.slip(f)
		if i := slices.IndexFunc(j.slips[first:], s.alike); i >= 0 {
			j.slips[first+i].weight++
		} else {
			j.slips = append(j.slips, s)
		}
		if f.Hardware != nil {
			head := f.Head.Sub(f.Dir.Mul(f.Length + driveGap(f)))
			j.tips = append(j.tips, steelTip{eyed(cam, head).Mul(1 / j.cell), k})
		}
	}
	for i := range j.slips[first:] {
		j.slips[first+i].weight /= n
		if !u.opens(p) {
			j.slips[first+i].weight *= closingShare
		}
	}
}

// alike reports whether two slips are the same.
func (s slip) alike(t slip) bool {
	for w := range s.moves {
		if s.moves[w].Sub(t.moves[w]).Len() > 1e-6 || math.Abs(s.along[w]-t.along[w]) > 1e-6 {
			return false
		}
	}
	return true
}

// slip is how the pieces of a fastener slide off its axis.
func (u *undoing) slip(f model.Fastener) slip {
	a, b := u.moves[f.Pieces[0]], u.moves[f.Pieces[1]]
	s := slip{weight: 1}
	for w := range a {
		v := b[w].Sub(a[w])
		s.along = append(s.along, v.Dot(f.Dir))
		s.moves = append(s.moves, v.Sub(f.Dir.Mul(v.Dot(f.Dir))))
	}
	return s
}

// opens reports whether a joint comes apart along its axis: one that only closes a
// ring does not.
func (u *undoing) opens(j *model.Joint) bool { return u.leads[j] != nil }

// eyed is v in the camera's own frame: right, up, and nearness.
func eyed(cam view.Camera, v geom.V3) geom.V3 {
	p := cam.Flat(v)
	return geom.V3{X: p.X, Y: p.Y, Z: cam.Depth(v)}
}

// Prices of what is seen: how much hidden wood counts against size, and what
// sliding off the axis of a joint costs for each usual distance; of one that only
// closes a ring it counts for less.
const (
	hiddenPrice  = 4.5
	slipPrice    = 0.10 // straight up or down
	asidePrice   = 0.24 // level
	closingShare = 0.2
	openPrice    = 0.06 // for the square of each usual distance
	throughPrice = 0.6  // for pieces that would pass through each other on their axis
	insidePrice  = 1.5  // for pieces that stand in each other
	crossedPrice = 3.5  // for the share of wood at which stages lie over each other
	blindPrice   = 0.2  // for each balloon whose leader has to run over another part
)

// price is what it costs to open the ways so many cells each: the less the
// better. From limit on it may stop counting.
func (j *judge) price(open []float64, limit float64) float64 {
	box := j.settle(open)
	j.work += j.pile.all + len(j.masks)*len(j.ways)
	w, h := float64(box[2]-box[0]+1), float64(box[3]-box[1]+1)
	sum := math.Log(max(w*j.cell/j.room.W, h*j.cell/j.room.H))
	sum += j.slide(open)
	for w, y := range j.ways {
		if y.joint != nil && !y.lift {
			sum += openPrice * open[w] * open[w] / j.usual / j.usual
		}
	}
	hidden, all := 0.0, 0.0
	for i := range j.masks {
		m := &j.masks[i]
		if len(m.cells) == 0 {
			continue
		}
		h := 1 - float64(j.seen[i])/float64(len(m.cells))
		hidden += m.weight * (h + 2*h*h*h)
		all += m.weight
	}
	if all > 0 {
		sum += hiddenPrice * hidden / all
	}
	if n := float64(j.inEachOther()); n > 0 {
		sum += insidePrice * (1 + n) / (6 + n)
	}
	sum += crossedPrice * float64(j.pile.crossed) / float64(max(1, j.pile.all))
	if sum < limit {
		sum += blindPrice * float64(j.blind(1/max(w/j.room.W, h/j.room.H)))
	}
	return sum
}

// slide is what sliding off the axes costs, and passing through each other.
func (j *judge) slide(open []float64) float64 {
	sum := 0.0
	for i := range j.slips {
		s := &j.slips[i]
		v, along := geom.V3{}, 0.0
		for w, o := range open {
			if o != 0 {
				v = v.Add(s.moves[w].Mul(o))
				along += s.along[w] * o
			}
		}
		sum += s.weight * (slipPrice*math.Abs(v.Z) + asidePrice*math.Hypot(v.X, v.Y)) / j.usual
		if short := 0.25 - along/j.usual; short > 0 {
			sum += s.weight * (throughPrice + short)
		}
	}
	return sum
}

// settle lays the masks over each other and counts the cells of each that are
// seen. It returns the box round all of it: left, low, right, top.
func (j *judge) settle(open []float64) [4]int {
	box := [4]int{math.MaxInt32, math.MaxInt32, math.MinInt32, math.MinInt32}
	with := func(x0, y0, x1, y1 int) {
		box = [4]int{min(box[0], x0), min(box[1], y0), max(box[2], x1), max(box[3], y1)}
	}
	for i := range j.masks {
		m := &j.masks[i]
		v := geom.V3{}
		for w, o := range open {
			if o != 0 {
				v = v.Add(m.moves[w].Mul(o))
			}
		}
		j.move[i] = v
		v.X, v.Y = math.Round(v.X), math.Round(v.Y)
		j.shift[i] = v
		if len(m.cells) > 0 {
			with(m.lo[0]+int(v.X), m.lo[1]+int(v.Y), m.hi[0]+int(v.X), m.hi[1]+int(v.Y))
		}
	}
	j.pile.frame(box)
	for _, r := range j.tips {
		x, y := int(math.Floor(r.at.X+j.shift[r.with].X)), int(math.Floor(r.at.Y+j.shift[r.with].Y))
		with(x, y, x, y)
	}
	j.seen = j.pile.cover(j.masks, j.shift)
	return box
}

// The distances that are tried, in usual ones, and where on these ladders the
// search starts.
var (
	axisRungs = [...]float64{0.3, 0.45, 0.6, 0.8, 1.1, 1.5, 2, 2.8}
	liftRungs = [...]float64{-0.8, -0.4, 0, 0.4, 0.8, 1.3}
	sideRungs = [...]float64{0, 0.3, 0.6, 1, 1.5, 2}
)

const axisStart, liftStart, liftHigh, sideStart = 2, 2, 4, 0

// A ladder is the distances that are tried for one way, in cells.
type ladder []float64

func ladderOf(rungs []float64, usual float64) ladder {
	out := make(ladder, len(rungs))
	for i, r := range rungs {
		out[i] = r * usual
	}
	return out
}

// best opens the ways, in mm, so that the picture shows as much as it can. A
// distance of the author's holds for every joint; 0 leaves that open too. It
// goes down from an even start and from one with all lifted high, then kicks one way after the other far off and
// goes down again from there.
func (j *judge) best(u *undoing, apart float64) []float64 {
	j.usual = u.d.apart(u.pieces) / j.cell
	ladders, at := make([]ladder, len(j.ways)), make([]int, len(j.ways))
	for w, y := range j.ways {
		switch {
		case y.joint == nil:
			ladders[w], at[w] = ladderOf(sideRungs[:], j.usual), sideStart
		case y.lift:
			ladders[w], at[w] = ladderOf(liftRungs[:], j.usual), liftStart
		case apart > 0:
			ladders[w] = ladder{apart / j.cell}
		default:
			ladders[w], at[w] = ladderOf(axisRungs[:], j.usual), axisStart
		}
	}
	price := j.descend(ladders, at, math.Inf(1))
	lifted := slices.Clone(at)
	for w, y := range j.ways {
		if y.lift {
			lifted[w] = liftHigh
		}
	}
	if p := j.descend(ladders, lifted, math.Inf(1)); p < price-1e-9 {
		at, price = lifted, p
	}
	stride := 2 // where there are few ways each is kicked to more places
	if len(ladders) > manyWays {
		stride = 3
	}
	for w, l := range ladders {
		for i := (at[w] + stride) % stride; i < len(l); i += stride {
			if i == at[w] || j.work > mostWork {
				continue
			}
			from := slices.Clone(at)
			from[w] = i
			if p := j.descend(ladders, from, price+kickLoss); p < price-1e-9 {
				at, price = from, p
			}
		}
	}
	open := j.opened(ladders, at)
	for w := range open {
		open[w] *= j.cell
	}
	return open
}

// opened is how far the ways are opened at places on their ladders.
func (j *judge) opened(ladders []ladder, at []int) []float64 {
	open := make([]float64, len(at))
	for w, i := range at {
		open[w] = ladders[w][i]
	}
	return open
}

const (
	manyWays = 8
	// mostWork bounds the search in things of very many pieces; a chair takes a
	// sixth of it.
	mostWork = 60_000_000
	// mostRounds of going down are made.
	mostRounds = 5
	// kickLoss is how much dearer a start may be after the first round down from it.
	kickLoss = 0.03
)

// descend goes up or down the ladder of one way after the other as long as that
// makes it cheaper, and returns the price. It gives up when the first round does
// not get below limit.
func (j *judge) descend(ladders []ladder, at []int, limit float64) float64 {
	open := j.opened(ladders, at)
	price := j.price(open, math.Inf(1))
	for round := range mostRounds {
		moved := false
		for w, l := range ladders {
			if j.work > mostWork {
				return price
			}
			from := at[w]
			for _, step := range [...]int{1, -1, 2, -2} {
				i := from + step
				if i < 0 || i >= len(l) {
					continue
				}
				open[w] = l[i]
				if p := j.price(open, price); p < price-1e-9 {
					price, at[w], moved = p, i, true
				}
				open[w] = l[at[w]]
			}
		}
		if !moved || round == 0 && price > limit {
			break
		}
	}
	return price
}
