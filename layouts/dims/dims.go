// Package dims places dimensions, leaders, callouts and balloons on a flat
// drawing so that they keep clear of it and of each other.
//
// It knows paper: millimetres, pens, type and free space. It does not know
// boards or what a number means: it gets a drawing already scaled to the page
// and a list of wishes, each with its text already printed. It does not scale,
// round or choose what is dimensioned.
//
// Every wish offers many ways to be drawn. Ways that would put text on a line
// or on other text, or cross two leaders, are never taken; of the others the
// one with the fewest crossings and the shortest lines is. Wishes are placed in
// the order of their freedom, and a bounded number of rounds moves the free
// ones again. A wish with no clean place is left out and named in a problem.
package dims

import (
	"planset/model/geom"
	"planset/render"
)

// A Field is the drawing and the paper round it.
type Field struct {
	Box   geom.Box      // nothing is drawn outside
	Body  geom.Box      // what dimension lines stand off from; zero: the box round Ink
	Ink   []render.Path // lines of the drawing, kept clear of text
	Keep  []geom.Box    // taken: text already placed, other views
	Low   bool          // keep the whole low: notes rather stand beside the drawing than above or below it
	Faces []Face        // shapes a balloon's leader should not run over, far ones first
	// Inside lets tabs stand in what is free within Body too, so that the drawing
	// may be larger.
	Inside bool
}

// A Face is a face that is seen of one part of an exploded view, or of hardware.
type Face struct {
	Code, Hand string    // whose it is, as in Balloon
	Small      bool      // hardware: a leader would rather run over it than over a part
	Loop       []geom.Pt // closed
}

// A Side is where a dimension stands.
type Side int8

// The sides. Along is for a Span only: parallel to the line from A to B, on the
// right hand of one who walks it, which is outside of an anticlockwise outline.
const (
	Below Side = iota
	Above
	LeftOf
	RightOf
	Along
)

// A Wish is one thing to be drawn: Run, Offsets, Span, Callout, Radius, Gauge,
// Angle, Datum, Center, Break or Balloon, or one of them Shifted.
type Wish interface {
	// tasks returns what has to be placed, with the name for problems.
	tasks(f *Field) []task
}

// A Label is the text of a dimension.
type Label struct {
	Text  string
	Key   int  // number of a critical dimension, boxed; 0 is an ordinary one
	Note  bool // 2.5 mm capitals instead of 3: not a dimension to cut to
	Quiet bool // grey and 2.5 mm: for checking only
}

// A Stop is one position of a Run: the point measured and what the tape reads.
// Ring is the radius on paper of the hole round At, which the extension line
// keeps off; 0 for a point on an edge. Name is the caller's own. By is how far
// the text stands from where it would be, mm on paper, its line bent to it.
type Stop struct {
	At   geom.Pt
	Ring float64
	Name string
	By   geom.Pt
	Label
}

// A Run is running dimensions: positions along one axis, all from the first
// stop, which is the datum and usually reads 0. Stops in line with each other
// that read the same, such as a pair of holes, are drawn as one.
type Run struct {
	Side  Side
	Stops []Stop
}

// Offsets are the heights of a shallow taper or curve over a straight edge: at
// each station a line across the part from Foot to At, with the text beyond At
// on the given side.
type Offsets struct {
	Side     Side
	Stations []Station
}

// A Station is one of the Offsets.
type Station struct {
	Foot, At geom.Pt
	Label
}

// A Span is one plain dimension between two points.
type Span struct {
	Side Side
	A, B geom.Pt
	Label
}

// A Callout is a leader with text in free space. The leader ends with an arrow
// on an edge, on a circle of radius Ring round At, or with a dot at At when Dot
// is set.
type Callout struct {
	At     geom.Pt
	Ring   float64
	Dot    bool
	Text   []string
	Key    int
	Prefer geom.Pt // the way the text would best lie; zero: no matter
}

// A Radius is a callout of an arc; its leader points at the centre. The arc
// runs anticlockwise from From to To, radians.
type Radius struct {
	C        geom.Pt
	R        float64
	From, To float64
	Text     string
	Key      int
}

// A Gauge is a callout with a small sketch of a bevel gauge set to Off radians
// off square; positive leans to the left of square. One that stands for two cuts
// may have the numbers of both.
type Gauge struct {
	At     geom.Pt // the corner it is for
	Off    float64
	Text   []string // "14° off square"
	Key    int
	Also   int // the second number, 0 for none
	Prefer geom.Pt
}

// An Angle is an arc between two directions at a point, anticlockwise from
// From to To, radians.
type Angle struct {
	At       geom.Pt
	From, To float64
	Label
}

// A Datum marks the corner that is measured from with two filled triangles. X
// and Y say which way the wood lies from the corner: +1 or -1.
type Datum struct {
	At   geom.Pt
	X, Y float64
}

// A Center is a centre line from A to B, drawn a little longer.
type Center struct{ A, B geom.Pt }

// A Break is a pair of break lines from A to B, Gap mm apart.
type Break struct {
	A, B geom.Pt
	Gap  float64
}

// A Balloon names a part of an exploded view in a tab beside the drawing. Or
// are other points of the same part that its leader may end on.
type Balloon struct {
	At         geom.Pt
	Or         []geom.Pt
	Code, Hand string
	Count      string // "2": how many, set as 2 × beside the tab; may be empty
	Accent     render.Tone
}

// Place draws the wishes. Items are grouped by wish: "dim", "leader", "balloon"
// and "mark", in the order of the wishes, each text in a group in them: "text" is
// a size to cut to, "text note" anything else.
// Used is the box round the drawing and everything placed. Problems name the
// wishes for which there was no clean place; they are not drawn.
func Place(f Field, wishes ...Wish) (items []render.Item, used geom.Box, problems []string) {
	s := newScene(&f)
	all := tasksOf(s, wishes)
	s.solve(all)
	if !asked(all) {
		return s.finish(all)
	}
	again := newScene(&f)
	if moved := tasksOf(again, wishes); shift(all, moved) {
		s, all = again, moved
		s.solve(all)
	}
	return s.finish(all)
}

func tasksOf(s *scene, wishes []Wish) []*task {
	var all []*task
	for _, w := range wishes {
		for _, t := range w.tasks(s.field) {
			all = append(all, &t)
		}
	}
	return all
}
