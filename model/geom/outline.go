package geom

// A Turn says how a segment bends.
type Turn int8

// The turns.
const (
	Straight Turn = 0
	CCW      Turn = 1  // anticlockwise about its centre
	CW       Turn = -1 // clockwise about its centre
)

// A Seg is one exact piece of a path: a straight line or a circular arc of less
// than a full turn, from A to B. C and R are the centre and radius of an arc.
type Seg struct {
	A, B Pt
	C    Pt
	R    float64
	Turn Turn
}

// An Outline is a closed path of segments, each starting where the last ended.
// The outside of a shape runs anticlockwise, a hole in it clockwise.
type Outline []Seg

// A Region is a flat shape: one outside and any number of holes.
type Region struct {
	Outer Outline
	Holes []Outline
}
