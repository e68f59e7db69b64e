package model

import (
	"planset/model/expr"
	"planset/model/geom"
)

// ShowKind is what a step measures.
type ShowKind int8

// The kinds of a Show.
const (
	ShowDistance ShowKind = iota // from A to B, with a tape
	ShowGap                      // between two faces, with a spacer
	ShowLevel                    // a side, off level
	ShowPlumb                    // a side, off plumb
	ShowSquare                   // two sides at right angles, with a square
	ShowFlat                     // two sides in one plane, under a straightedge
)

// Floor stands for the floor among the pieces of a Show.
const Floor = -1

// A Show is one thing a step measures, in the world, where it is measured. It is
// worked out from the pieces as they stand, so what it reads is true of them.
type Show struct {
	Kind   ShowKind
	Pieces [2]int     // indices into Placed, or Floor
	Value  expr.Value // what the tape or the gauge reads; no dimension for square and flat
	Text   string     // the same in the reader's units; empty where a mate tells it
	Mates  int        // shows of a step with the same number, above 0, read the same

	// A and B are the points a tape lies between; of a gap, where the spacer
	// touches; of a level, a plumb line or a square, A is where the tool is held;
	// of a straightedge, the middles of the two sides it lies on.
	A, B geom.V3
	// Along, Into and Out are unit. Of a gap Along and Into span its faces, Along
	// the longer way. Of a level or plumb line Along runs up the side, Into is level
	// or plumb itself, and Out leads out of the wood. Of a square Along and Into
	// are its two legs. Of a straightedge Along is its length and Out leads out of
	// the wood.
	Along, Into, Out geom.V3
}

// WrongHow is a way to get a step wrong.
type WrongHow string

// The ways.
const (
	Flipped  WrongHow = "flipped"   // other face out: turned over about its length
	Turned   WrongHow = "turned"    // end for end, the same face out
	Swapped  WrongHow = "swapped"   // the other edge: the other hand's piece, or turned where it has no hand
	SameHand WrongHow = "same hand" // the left one made as one more right one
	LeftOut  WrongHow = "left out"  // not there
	BothEnds WrongHow = "both ends" // the cut of one end made, turned round, at the other too
	OtherEnd WrongHow = "other end" // the shaped end cut off in place of the one that is trimmed last
)

// A Wrong is how a step looks when the mistake is made. It can be seen: no solid
// in it looks the same as the right one.
type Wrong struct {
	How    WrongHow
	Pieces []int         // indices into Placed that are wrong; none where parts are only made
	Solids []*geom.Solid // the wrong ones, one for each piece, in the world; of what is left out, the right ones
	Made   *Part         // the part that is made wrong, in a step that only makes; its Solids lie in its own frame
}

// OnBench reports whether a step joins only its own new pieces with each other:
// they are then built by themselves, away from what was there before.
func (st *Step) OnBench() bool {
	added := map[int]bool{}
	for _, i := range st.Add {
		added[i] = true
	}
	joined := false
	for _, j := range st.Fasten {
		for _, f := range j.Fasteners {
			if !added[f.Pieces[0]] || !added[f.Pieces[1]] {
				return false
			}
			joined = true
		}
	}
	return joined
}
