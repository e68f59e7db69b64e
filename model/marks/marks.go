// Package marks finds which marks of a plan matter: how far the finished piece
// moves when one hole, length, bevel or placing is a little off.
//
// The pieces are put together in the order of the steps. Each has six small
// displacements. A fastener ties two pieces where it passes from one into the
// other, a bearing face holds them apart at three corners, feet stand on the
// floor; what is joined later is driven where it lies and does not pull back
// what stands already. A mark is an error in one of these ties. All is of the
// first order: good while the error is small against the piece.
//
// It judges nothing, that is model/check; it knows no page.
package marks

import (
	"cmp"
	"math"
	"slices"

	"planset/model"
	"planset/model/expr"
)

// A Value is something of the finished piece that a mark may change.
type Value struct {
	Name   string  // of the critical value or measure: "recline"; "rock" for the floor
	Title  string  // in words: "the recline"
	Angle  bool    // degrees, else millimetres
	Now    float64 // as designed
	Limit  float64 // what the author allows either way; 0 when it is not a critical value
	RSS    float64 // root of the sum of squares of all rows, match-drilled as the plan says
	RSSAll float64 // the same when every hole is laid out with a tape
}

// A Row is one mark: something a builder lays out, and what it does to the
// piece. Changes are for one step farther along, across or longer; both hands
// and all pieces of a family are taken to err alike, as they do when one stop
// or one tape sets them all.
type Row struct {
	Part     *model.Part // on whose drawing the mark is
	Parts    []string    // codes: the part, and the one set on it
	What     string      // "lower bolt hole, across"
	Hole     string      // name of the hole, "" for others
	Change   []float64   // for each value of the table: degrees or mm a step, signed
	Single   []float64   // the most any one piece alone changes it
	Matched  bool        // the other part is drilled through it
	Harmless string      // why it does no harm; "" when it does
	Clamped  bool        // set and clamped before the holes are drilled through: it takes the place of Matched rows
	Score    float64     // the greatest part of a limit that one step uses up
	slips    []int
}

// A Pair is the two marks that together change a value most.
type Pair struct {
	Value  int // index into the values
	A, B   int // indices into the rows
	Change float64
}

// A Table ranks all marks of a plan, the worst first.
type Table struct {
	Unit   expr.Unit
	Step   float64 // mm: 1/16 in or 1 mm
	Values []Value
	Rows   []Row
	Pairs  []Pair   // the worst pair for each value
	Unread []string // critical values that could not be found on any piece
}

// Limits for what the author does not limit, common practice: a seat or an arm
// is seen to be off at about a degree, a piece rocks at the thickness of a coin.
const (
	usualAngle  = 1.0 // degrees
	usualLength = 3.0 // mm
	usualRock   = 1.5 // mm
	// idle is the part of a limit below which a mark does nothing one could find.
	idle = 0.01
)

// Step returns how far a mark is moved: 1/16 in, or 1 mm for metric readers.
func Step(u expr.Unit) float64 {
	if u == expr.MM {
		return 1
	}
	return 25.4 / 16
}

// Rank moves every mark of a solved plan by a step and ranks them by what that
// does. A plan in which nothing stands has no rows.
func Rank(p *model.Plan) *Table {
	t := &Table{Unit: p.Unit, Step: Step(p.Unit)}
	if len(p.Placed) == 0 {
		return t
	}
	f := newFrame(p)
	f.settle()
	watches, unread := watched(f)
	t.Unread = unread
	for _, w := range watches {
		t.Values = append(t.Values, w.Value)
	}
	t.Rows = f.rows
	for i := range t.Rows {
		t.measure(f, watches, &t.Rows[i])
	}
	t.sums()
	slices.SortStableFunc(t.Rows, func(a, b Row) int {
		if c := cmp.Compare(b.Score, a.Score); math.Abs(a.Score-b.Score) > 1e-9 {
			return c
		}
		return 0
	})
	t.Pairs = t.worstPairs(f, watches)
	return t
}

// measure fills in what one row does.
func (t *Table) measure(f *frame, watches []watch, r *Row) {
	all := f.field(r.slips, t.Step)
	r.Change = f.both(watches, all)
	r.Single = slices.Clone(r.Change)
	if len(r.slips) > 1 {
		for _, s := range r.slips {
			for k, v := range f.both(watches, f.field([]int{s}, t.Step)) {
				if math.Abs(v) > math.Abs(r.Single[k]) {
					r.Single[k] = v
				}
			}
		}
	}
	for k, v := range t.Values {
		r.Score = math.Max(r.Score, math.Abs(r.change(k, v))/v.limit())
	}
	if r.Harmless == "" && r.Score < idle {
		r.Harmless = "nothing that is measured depends on it"
	}
}

// change is what counts of a row: both sides alike, but for rocking, which
// comes from one side alone.
func (r *Row) change(k int, v Value) float64 {
	if v.Name == rocking {
		return r.Single[k]
	}
	return r.Change[k]
}

// limit is the limit of a value, the author's or the usual one.
func (v Value) limit() float64 {
	switch {
	case v.Limit > 0:
		return v.Limit
	case v.Name == rocking:
		return usualRock
	case v.Angle:
		return usualAngle
	}
	return usualLength
}

// sums works out the root sum of squares of each value, for marks that are
// independent of each other.
func (t *Table) sums() {
	for k := range t.Values {
		v := &t.Values[k]
		for i := range t.Rows {
			r := &t.Rows[i]
			c := r.change(k, *v)
			if !r.Matched {
				v.RSS += c * c
			}
			if !r.Clamped {
				v.RSSAll += c * c
			}
		}
		v.RSS, v.RSSAll = math.Sqrt(v.RSS), math.Sqrt(v.RSSAll)
	}
}
