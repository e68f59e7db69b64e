package geom

// A Plane passes through P; N is its unit normal.
type Plane struct{ P, N V3 }

// A Bore is a round hole drilled into a board, square to a face unless Dir
// says otherwise.
type Bore struct {
	At    V3      // centre of the mouth, board coordinates
	Dir   V3      // unit, pointing into the wood
	Diam  float64 // mm
	Depth float64 // mm of full diameter; 0 means right through
}

// A Recess is a flat-bottomed cut into a face: groove, rabbet, dado, pocket.
// Its outline may run past the edges of the board, so a groove runs out there.
type Recess struct {
	Outline Outline // convex, in the board's x and y
	Top     bool    // from the face at z = Thick, else from z = 0
	Depth   float64
}

// A Board is a piece of wood by its exact shape, in its own frame: x along the
// grain from the datum end, y across from the reference edge, z through the
// thickness. The blank fills 0..L, 0..W, 0..Thick.
type Board struct {
	Outline  Outline // of the prism, anticlockwise
	Thick    float64
	Cuts     []Plane // wood on the side N points to is sawn away: bevelled ends and edges, chamfers
	Rounds   []Round // rounded arrises
	Bores    []Bore
	Recesses []Recess
}

// A Round is a quarter round of radius R worked along the straight arris where
// the side of the outline from A to B meets a face.
type Round struct {
	A, B Pt // on the outline, anticlockwise
	Top  bool
	R    float64
}

// FaceKind says which side of a board a face of its solid belongs to.
type FaceKind int8

// The kinds of face.
const (
	Flat   FaceKind = iota // one of the two wide faces
	Side                   // a long edge, grain runs along it
	End                    // end grain
	Hollow                 // wall or floor of a hole, groove or pocket
)

// A Face is a flat piece of the skin of a solid. The first loop is its outside,
// anticlockwise seen from outside the wood; the others are holes, clockwise.
type Face struct {
	Loops  [][]V3
	N      V3 // unit, out of the wood
	Kind   FaceKind
	Smooth int // facets of one curved surface share a number > 0; 0 is a true flat
}

// A Solid is the skin of a board. Curved surfaces are facets no farther from
// the true surface than the chord it was made with.
type Solid struct{ Faces []Face }
