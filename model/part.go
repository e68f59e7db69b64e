package model

import "planset/model/geom"

// Hand says whether a part comes in left and right.
type Hand string

// The hands. Left and right are as seen by the sitter.
const (
	NoHand    Hand = ""
	Pair      Hand = "pair"
	LeftHand  Hand = "left"
	RightHand Hand = "right"
)

// Names are what the author calls the sides of a part: [0] is the datum end,
// the reference edge, the face at thick = 0.
type Names struct{ Ends, Edges, Faces [2]string }

// A Part is one thing to cut, with its exact shape. A handed part is drawn as
// the right one; the left is its mirror.
type Part struct {
	Key      string // "back_slat"; never printed
	Code     string // "A", "F2"
	Family   string // code of the family, "" when alone
	Rank     int    // 0 for the middle of a family
	Name     string // "Back slat"
	Hand     Hand
	Quantity int // every piece, a handed pair is 2
	Stock    *Stock

	Thick, Width, Length    float64
	RoughWidth, RoughLength float64
	AsBought                bool // keeps the stock's full width
	TrimLater               string
	Found                   bool // its length is found by the assembly, not typed
	Note                    string
	Face                    string // which face to put the good side, may be empty
	Need                    string // "clear", "hidden" or ""
	Match                   bool   // grain should match within the set
	Spare                   int    // pieces to cut beyond Quantity; of a family, its largest blanks
	Single                  bool   // never cut head to tail with another from one blank

	Names    Names
	Board    geom.Board
	Ends     [2]EndCut
	Edges    [2]EdgeCut
	Tapers   []Taper
	Corners  []Corner
	Arrises  []Arris
	Notches  []Notch
	Grooves  []Groove
	Holes    []Hole
	Pockets  []Pocket
	Free     bool // its outline was given as a path
	Template bool
	Volume   float64 // mm³
	Mass     float64 // kg
	Skin     float64 // mm², all faces
	Critical []string
	Drawing  Drawing
}

// A Drawing is what the author wants otherwise in a part's drawing. The zero
// Drawing leaves everything to the program.
type Drawing struct {
	Face  string   // name of the face that is drawn, "" for the one with more on it
	Scale float64  // one to so many, 0 for the largest that fits
	Hide  []string // names of dimensions that are left out
	Move  []Shift
}

// A Shift moves a dimension away from its automatic place, mm on paper, x right
// and y up.
type Shift struct {
	Name string
	By   geom.Pt
}

// An EndCut is how one end is sawn. Angles are off square.
type EndCut struct {
	Shape    string  // "square", "half round", "round", "cut", "free"
	Radius   float64 // of a round or half round
	Miter    float64 // in the face; radians
	LongEdge int     // 0 or 1: the edge left longer by the miter
	Bevel    float64 // blade tilt; radians
	LongFace int     // 0 or 1: the face left longer by the bevel
	By       string  // what it was cut by, in words: "floor"
	Flat     float64 // length of the flat on the floor, when it was trimmed so
	Then     float64 // angle of the second cut off square; radians
}

// An EdgeCut is a bevel along an edge. Angle off square.
type EdgeCut struct {
	Bevel    float64
	LongFace int // the face left wider
	By       string
}

// A Taper is a straight sloping saw cut along one edge or both, from one
// station along the part to another; the widths are there.
type Taper struct {
	Edge       int // 0, 1; 2 is both
	FromAlong  float64
	FromWidth  float64
	ToAlong    float64
	ToWidth    float64
	Angle      float64 // of one edge against the grain; radians
	OffsetEdge float64 // how much one edge comes in
}

// A Corner is a rounded or clipped corner of the outline.
type Corner struct {
	End, Edge int
	Radius    float64 // round
	Along     float64 // clip
	Across    float64
}

// An Arris is a rounded or chamfered edge between an edge or end and a face.
type Arris struct {
	Side    string // name of the edge or end
	Face    string // name of the face
	Size    float64
	Chamfer bool
}

// A Notch is cut in from an edge, square.
type Notch struct {
	Name              string
	Edge              int
	Along, Long, Deep float64
}

// A Groove is a flat-bottomed recess in a face.
type Groove struct {
	Name     string
	Face     int
	Box      geom.Box // along and across
	Deep     float64
	Through  bool // runs out at the ends
	AlongRun bool // runs with the grain
}

// HoleKind says what a hole is for.
type HoleKind string

// The kinds of hole.
const (
	PlainHole     HoleKind = "hole"
	BoltHole      HoleKind = "bolt"
	ClearanceHole HoleKind = "clearance"
	PilotHole     HoleKind = "pilot"
)

// A Hole is a round hole square to a face, edge or end of a part. Along runs
// from the datum end, Across from the reference edge, both to the centre.
type Hole struct {
	Name          string
	Kind          HoleKind
	Along, Across float64
	Thick         float64 // height of the mouth above face 0 when drilled into an edge or end
	Into          string  // "face", "edge" or "end": what it is drilled into
	From          int     // index of that face, edge or end
	Diam          float64
	Depth         float64 // 0 is right through
	BoreDiam      float64 // counterbore; 0 is none
	BoreDepth     float64
	Sink          bool // countersunk flush
	Matched       bool
	Through       string // code of the part it is drilled through
	Fine          bool
	Hardware      *Hardware
	Joint         *Joint
	Critical      int // number of the critical mark, 0 none
	InPart        geom.V3
	Dir           geom.V3
}

// A Pocket is a slanted screw pocket near an end.
type Pocket struct {
	Along, Across float64 // of the mouth's centre
	End           int     // the end the screw leaves by
	Face          int     // the face the mouth is in
	Joint         *Joint
}
