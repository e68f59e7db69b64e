package cutting

import (
	"cmp"
	"slices"
)

// A plank is one run of clear board with its sections, before they have places.
type plank struct {
	size  int
	cells []cell
}

// A cell is a section that is really cut: strips of pieces, by kind.
type cell struct {
	length int64
	strips []strip
	stays  bool // its pieces match others on the board
}

// planks turns patterns into sections without more pieces than are wanted.
// The patterns that come last lose what is over.
func (t *task) planks(patterns []pattern) []plank {
	patterns = slices.Clone(patterns)
	slices.SortStableFunc(patterns, byCost)
	wants := t.wants()
	var out []plank
	for _, p := range patterns {
		pl := plank{size: p.size}
		for _, i := range p.sections {
			pl.cells = append(pl.cells, t.cells(t.sections[i], wants)...)
		}
		pl.cells = t.compact(pl.cells, t.sizes[p.size].width)
		if len(pl.cells) > 0 {
			out = append(out, pl)
		}
	}
	t.gather(out)
	t.tuck(out)
	for i := range out {
		t.arrange(out[i].cells)
		t.bunch(&out[i])
	}
	return out
}

// cells makes the cells of a section from the pieces still wanted. A section
// that is left with one strip needs no long rip: each piece is its own.
func (t *task) cells(s section, wants []int) []cell {
	var c cell
	for _, pieces := range s.strips {
		var st strip
		for _, k := range pieces {
			if wants[k] > 0 {
				wants[k]--
				st = t.lengthen(st, k)
				c.stays = c.stays || t.kinds[k].run > 1
			}
		}
		if len(st.pieces) > 0 {
			c.strips = append(c.strips, st)
			c.length = max(c.length, st.length)
		}
	}
	switch len(c.strips) {
	case 0:
		return nil
	case 1:
		var out []cell
		for _, k := range c.strips[0].pieces {
			one := strip{t.kinds[k].length, []int{k}}
			out = append(out, cell{one.length, []strip{one}, t.kinds[k].run > 1})
		}
		return out
	}
	return []cell{c}
}

// compact puts sections of one board side by side where the board is wide
// enough, the most length saved first: what is left over is then longer.
func (t *task) compact(cells []cell, board int64) []cell {
	for {
		best, a, b := int64(0), 0, 0
		for i := range cells {
			for j := range cells[:i] {
				if saved := min(cells[i].length, cells[j].length); saved > best && t.breadthOf(cells[j], cells[i]) <= board+grace {
					best, a, b = saved, j, i
				}
			}
		}
		if best == 0 {
			return cells
		}
		cells[a].strips = append(cells[a].strips, cells[b].strips...)
		cells[a].length = max(cells[a].length, cells[b].length)
		cells[a].stays = cells[a].stays || cells[b].stays
		cells = slices.Delete(cells, b, b+1)
	}
}

// breadthOf is the width that the strips of sections need side by side.
func (t *task) breadthOf(cells ...cell) int64 {
	var widths []int64
	for _, c := range cells {
		for _, s := range c.strips {
			widths = append(widths, t.widthOf(s))
		}
	}
	return t.need(widths)
}

// lies reports whether a section lies in the board of a plank.
func (t *task) lies(c cell, p *plank) bool {
	board, need := t.sizes[p.size].width, t.breadthOf(c)
	if len(c.strips) == 1 {
		return t.single(need, board)
	}
	return need <= board+grace
}

// widthOf is the width of a strip.
func (t *task) widthOf(s strip) int64 { return t.kinds[s.pieces[0]].width }

// arrange puts sections long to short, and in each the widest strip first, as
// the fence is set.
func (t *task) arrange(cells []cell) {
	byStrip := func(a, b strip) int {
		return cmp.Or(cmp.Compare(t.widthOf(b), t.widthOf(a)), cmp.Compare(b.length, a.length), slices.Compare(a.pieces, b.pieces))
	}
	for _, c := range cells {
		slices.SortStableFunc(c.strips, byStrip)
	}
	slices.SortStableFunc(cells, func(a, b cell) int {
		return cmp.Or(cmp.Compare(b.length, a.length), cmp.Compare(len(a.strips), len(b.strips)),
			slices.CompareFunc(a.strips, b.strips, byStrip))
	})
}

// rest returns the length of a plank that its sections leave over.
func (t *task) rest(p plank) int64 {
	room := t.sizes[p.size].room
	for _, c := range p.cells {
		room -= c.length + t.kerf
	}
	return room
}

// gather moves sections between boards so that what is left over comes
// together on few of them: one long offcut is worth more than many short ones.
// Each move or exchange makes the sum of the squares of the rests larger, so it
// comes to an end.
func (t *task) gather(planks []plank) {
	const rounds = 20
	for range rounds {
		moved := false
		for i := range planks {
			for j := range planks {
				if i != j && t.shift(&planks[i], &planks[j]) {
					moved = true
				}
			}
		}
		if !moved {
			return
		}
	}
}

// shift takes the first move or exchange that lengthens a's rest, if a's rest
// is the longer one already.
func (t *task) shift(a, b *plank) bool {
	ra, rb := t.rest(*a), t.rest(*b)
	if ra < rb || len(a.cells) == 1 {
		return false
	}
	for x, c := range a.cells {
		if !c.stays && c.length+t.kerf <= rb && t.lies(c, b) {
			b.cells = append(b.cells, c)
			a.cells = slices.Delete(a.cells, x, x+1)
			return true
		}
		if c.stays {
			continue
		}
		for y, d := range b.cells {
			if d.stays {
				continue
			}
			if gain := c.length - d.length; gain > 0 && gain <= rb && t.lies(c, b) && t.lies(d, a) {
				a.cells[x], b.cells[y] = d, c
				return true
			}
		}
	}
	return false
}

// A bench lays planks out as boards.
type bench struct {
	job   Job
	stock Stock
	t     *task
	runs  []OnHand
	next  []int // by kind: pieces handed out
}

// boards lays out the planks of a task, runs of one board on hand together.
func (b *bench) boards(planks []plank, rough []roughSpot) []Board {
	b.next = make([]int, len(b.t.kinds))
	var out []Board
	hand := map[int]int{} // board on hand to place in out
	for _, p := range planks {
		s := b.t.sizes[p.size]
		if at, known := hand[s.hand]; s.hand >= 0 && known {
			b.lay(&out[at], p)
			continue
		}
		board := b.board(s)
		b.lay(&board, p)
		if s.hand >= 0 {
			hand[s.hand] = len(out)
		}
		out = append(out, board)
	}
	out = b.onRough(rough, out, hand)
	b.leftRuns(planks, out, hand)
	for i := range out {
		tidy(&out[i])
		b.unfold(&out[i])
		number(&out[i], b.job.Rules.Kerf)
		out[i].Waste = waste(out[i : i+1])
	}
	return out
}

// board returns the empty board of a size.
func (b *bench) board(s size) Board {
	out := Board{Stock: b.stock.Key, Thick: b.stock.Thick, Width: b.stock.Width, Trim: b.job.Rules.EndTrim}
	if s.hand >= 0 {
		on := b.stock.OnHand[s.hand]
		out.Name, out.Length, out.Bad, out.OnHand = on.Name, on.Length, slices.Clone(on.Bad), true
		if on.Width > 0 {
			out.Width = on.Width
		}
		return out
	}
	sold := b.stock.Lengths[s.sold]
	out.Length = sold.Length
	if b.t.priced {
		out.Cost = sold.Price
	}
	return out
}

// lay puts one plank's sections on a board.
func (b *bench) lay(board *Board, p plank) {
	r := b.job.Rules
	at := b.t.sizes[p.size].from
	end := at + millimetres(b.t.sizes[p.size].room-b.t.kerf-grace)
	if at > 0 {
		board.Cuts = append(board.Cuts, Cut{Kind: Trim, At: max(0, at-r.Kerf), To: board.Width})
	}
	rest := -1.0
	for i, c := range p.cells {
		if rest < 0 && i > 0 && b.t.small(c) {
			rest = at
		}
		b.cell(board, c, at)
		at += millimetres(c.length)
		if at < board.Length-fine {
			board.Cuts = append(board.Cuts, Cut{Kind: Crosscut, At: at, To: board.Width})
		}
		at += r.Kerf
	}
	board.offcut(Offcut{Along: at, Length: end - at, Width: board.Width}, r.Keep)
	if rest >= 0 {
		board.rested(rest, end)
	}
}

// cell puts the strips of one section side by side.
func (b *bench) cell(board *Board, c cell, at float64) {
	r := b.job.Rules
	across, length := 0.0, millimetres(c.length)
	// Where the board is wide enough the first strip, too, is ripped with the
	// clean-up of two edges, as the cut list says.
	first := 0.0
	if board.Width-millimetres(b.t.breadthOf(c)) > 2*r.EdgeCleanup-fine {
		first = r.EdgeCleanup
	}
	for i, s := range c.strips {
		low := max(0, across-r.EdgeCleanup)
		top := across + millimetres(b.t.kinds[s.pieces[0]].width)
		rip := min(top+r.EdgeCleanup, board.Width)
		switch {
		case top >= board.Width-fine:
			rip = board.Width
		case i == 0:
			rip = min(rip+first, board.Width)
		}
		b.strip(board, s, spot{at, across, length, rip - low})
		if rip >= board.Width-fine {
			return
		}
		board.Cuts = append(board.Cuts, Cut{Kind: Rip, At: rip, From: at, To: at + length})
		across = rip + r.Kerf + r.EdgeCleanup
	}
	across -= r.EdgeCleanup // the edge of an offcut needs no cleaning
	board.offcut(Offcut{Along: at, Across: across, Length: length, Width: board.Width - across}, r.Keep)
}

// A spot is where a strip lies on its board, how long its section is and how
// wide it is sawn.
type spot struct{ along, across, length, sawn float64 }

// strip puts the pieces of one strip end to end.
func (b *bench) strip(board *Board, s strip, where spot) {
	r := b.job.Rules
	at, across := where.along, where.across
	end := at + where.length
	width := millimetres(b.t.kinds[s.pieces[0]].width)
	for _, k := range b.rows(s.pieces) {
		placed := b.hand(k)
		placed.Along, placed.Across, placed.Sawn = at, across, where.sawn
		board.Pieces = append(board.Pieces, placed)
		at += placed.Length
		if at < end-fine {
			board.Cuts = append(board.Cuts, Cut{Kind: Recut, At: at, From: across, To: across + width})
		}
		at += r.Kerf
	}
	board.offcut(Offcut{Along: at, Across: across, Length: end - at, Width: width}, r.Keep)
}

// rows repeats each kind as often as its pieces stand in a row.
func (b *bench) rows(kinds []int) []int {
	var out []int
	for _, k := range kinds {
		for range max(1, b.t.kinds[k].run) {
			out = append(out, k)
		}
	}
	return out
}

// hand hands out the next piece of a kind.
func (b *bench) hand(k int) Placed {
	kind := b.t.kinds[k]
	n := b.next[k]
	b.next[k]++
	return b.placed(kind.pieces[n], n >= kind.spareFrom)
}

// placed is a piece of the job before it has a place.
func (b *bench) placed(at int, spare bool) Placed {
	p := b.job.Pieces[at]
	out := Placed{Code: p.Code, Name: p.Name, Face: p.Face, Family: p.Family, Spare: spare, Length: p.Length, Width: p.Width}
	if len(p.two) > 0 {
		out.blank = at + 1
	}
	return out
}

// fine is how near two places on a board must be to count as one, mm.
const fine = 0.01
