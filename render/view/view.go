// Package view turns placed solids into flat drawings: exact visible and hidden
// edges, and the faces that look at the eye in an order to paint them in.
//
// It knows points, planes and one tolerance. It does not know what a part is
// for, and it does not know pens, pages or scales.
package view

import "planset/model/geom"

// Touch is the one tolerance, in millimetres: what is nearer than this is at
// the same place. A point that lies less than this behind a face is on it, two
// lines less than this apart in the picture are one line, and solids that reach
// less than this into each other only touch.
const Touch = 0.01

// A Body is a placed part or piece of hardware. ID is the caller's and is
// carried through.
type Body struct {
	ID    int
	Solid *geom.Solid
	Pose  geom.Pose
}

// EdgeKind says what makes an edge.
type EdgeKind int8

// The kinds of edge.
const (
	Crease     EdgeKind = iota // a true arris, where two faces meet at an angle
	Silhouette                 // the limb of a curved surface
	Mark                       // where the surfaces of two bodies cross
)

// An Edge is one straight line of a drawing, in picture millimetres. Body is
// the ID of the body it belongs to; where edges of several bodies lie on one
// another it is the one that was named first to Draw.
type Edge struct {
	A, B    geom.Pt
	Body    int
	Visible bool
	Kind    EdgeKind
}

// An Area is a face, or a piece of a face, that looks at the eye. Insides of
// its loops are by the even-odd rule; N is its unit normal in the world.
type Area struct {
	Body  int
	Kind  geom.FaceKind
	N     geom.V3
	Loops [][]geom.Pt
}

// A Drawing is the picture of a scene. Visible edges come before hidden ones,
// each in the order of the bodies. Areas run from far to near: filled in this
// order each covers what it hides. Box holds every edge.
type Drawing struct {
	Edges []Edge
	Areas []Area
	Box   geom.Box
}

// Draw returns the picture of bodies as cam sees them. No line is drawn twice:
// where lines lie on one another a visible one is kept before a hidden one, and
// then the body that comes first in bodies. The same input gives the same
// drawing.
func Draw(bodies []Body, cam Camera) *Drawing {
	s := place(bodies, cam)
	marks := s.marks()
	s.raster()
	pieces := s.hide(append(s.lines, marks...))
	pieces = s.single(pieces)
	d := &Drawing{Edges: s.edges(chain(pieces)), Box: geom.NoBox()}
	for _, e := range d.Edges {
		d.Box = d.Box.With(e.A).With(e.B)
	}
	d.Areas = s.paint(cam)
	return d
}
