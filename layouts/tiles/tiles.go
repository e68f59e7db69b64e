// Package tiles puts a full-size template on small pages that are taped together.
//
// It knows paper, overlaps, trim lines, registration marks and which sheets are
// worth printing. It does not know how a part got its shape, nor how a page is
// painted.
package tiles

import (
	"strconv"

	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A Template is one part's shape at full size. Lengths are millimetres in the
// part's own frame: x along the grain from the datum end, y across from the
// reference edge. A template is never mirrored: whoever makes one sees to it that
// x right and y up show the face that Face names.
type Template struct {
	Code, Name string // part letter and name: "D", "Arm"
	Hand       string // "", "L" or "R", shown inside the part's tab
	Note       string // "cut 2: one each way"
	Face       string // which face looks up: "good face up"; may be empty
	End, Edge  string // the names of the datum end and the reference edge: "foot", "front"; may be empty
	Outline    geom.Outline
	Holes      []Hole
	Blank      geom.Size  // along and across, of the board it is cut from; its sides x = 0 and y = 0 are the datum edges
	Controls   []Control  // checks with a tape; made up from the outline when none is given
	Family     [][]string // a table for the map page, first row the heads; may be empty
	Fold       geom.Seg   // of a half template, one of the outline's lines: the other half is the mirror image about it
}

// A Hole is a round hole seen from the template's face.
type Hole struct {
	At      geom.Pt
	Diam    float64 // mm
	Note    string  // `3/8" through`; may be empty
	Matched bool    // drilled through its mate: shown, never laid out
}

// A Control is a length to be proved with a tape on the taped-up template.
type Control struct {
	A, B  geom.Pt
	Name  string  // "overall length"
	Allow float64 // mm it may be off by
}

// A Paper is a size of sheet, upright.
type Paper struct {
	Name string
	Size geom.Size
}

// Letter returns the paper of 8 1/2 by 11 inches.
func Letter() Paper { return Paper{"letter", geom.Size{W: 215.9, H: 279.4}} }

// A4 returns the paper of 210 by 297 mm.
func A4() Paper { return Paper{"a4", geom.Size{W: 210, H: 297}} }

// The measures of a sheet, in mm.
const (
	Overlap  = 12.0  // of neighbouring windows
	margin   = 12.7  // of paper above and below everything printed
	field    = 190.0 // printed width, the same on either paper so that both get the same frame
	foot     = 18.0  // strip under the window: what the sheet is, and the foot line
	trimming = 5.0   // strip right of and above the window, cut away
	holeRing = 1.5   // radius of the circle an awl is set in
)

// Live returns the size of a full window on p: what is left inside the margins
// when the foot and the trimmings have had their room.
func (p Paper) Live() geom.Size {
	return geom.Size{W: field - trimming, H: p.Size.H - 2*margin - foot - trimming}
}

// at is where the lower-left corner of every window lies on the page.
func (p Paper) at() geom.Pt {
	return geom.Pt{X: (p.Size.W - field) / 2, Y: margin + foot}
}

// A Layout is one template laid out on one paper. Its outline and holes are what
// the windows show: of a half template the one half, closed along Fold, which is
// a line of the outline that is folded, not sawn.
type Layout struct {
	Template           // in the frame it is printed in: turned as a whole when Turned
	Turned     bool    // the frame was turned a quarter: the grain runs up the page, the datum end is at the bottom
	Askew      float64 // radians the frame was turned anticlockwise instead, so that the part fits on one sheet slantwise
	Half       bool    // outline and holes are those of one half, the outline closed along Fold
	Paper      Paper
	Rows, Cols int
	Tiles      []Tile // printed, row A first, each from column 1
	Dropped    []Tile // not printed: blank, or nothing but parallel straight lines
	Joints     []Joint
	Breaks     []Break
}

// A Tile is one window on the template. Rows count up from the bottom, columns
// from the left, both from 0.
type Tile struct {
	Row, Col int
	Window   geom.Box // in the layout's frame
	At       geom.Pt  // where the window's lower-left corner lies on the page, from the page's lower-left
}

// Label returns the row's letter and the column's number: "B1".
func (t Tile) Label() string { return rowName(t.Row) + strconv.Itoa(t.Col+1) }

// rowName counts A..Z, AA, AB and on.
func rowName(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// A Joint is where two printed tiles overlap. The first is trimmed and lies on
// top: it is left of the second, or below it.
type Joint struct {
	On, Under int  // indexes into Tiles
	Upright   bool // the seam runs up the page
	Marks     []Mark
}

// A Mark is a registration circle, printed on both tiles of a joint.
type Mark struct {
	At  geom.Pt // in the layout's frame
	Key string  // "a", the same on both

	letter geom.Pt // the corner the key stands at, as signs of x and y
}

// A Look is what the rest of the plan set says on every page.
type Look struct {
	Title, Edition, Revision, Date string
	Accent                         render.Tone
	Unit                           expr.Unit // datum lines fall on whole inches or centimetres
	First, Total                   int       // number of the first page made, and of all pages of the set
}

// A Run is the finished range of full-size pages: maps first, then the tiles.
// Pieces that are not taped to others may share a page; their windows are then
// smaller than those that Lay gave them.
type Run struct {
	Pages   []render.Page
	Maps    int      // how many pages at the front are maps
	Layouts []Layout // as printed, in the order they were given
	On      [][]int  // the index in Pages of every tile of every layout
	Starts  []int    // for each layout the index of its first page
}
