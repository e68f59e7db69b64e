package reading

import "planset/model/source"

// A Part is one [part.*].
type Part struct {
	Key                            string
	At                             source.Span
	Name, Code, Stock, Hands       Word
	Pieces                         Formula
	Thick, Width, Length           Formula
	RoughWidth, RoughLength        Formula
	AsBought, Match                bool
	Spare                          int
	TrimLater, Note, Face, Need    Word
	EndNames, EdgeNames, FaceNames []Word
	Ends                           []End
	Edges                          []Edge
	Tapers                         []Taper
	Corners                        []Corner
	Arrises                        []Arris
	Notches                        []Notch
	Grooves                        []Groove
	Holes                          []*Hole
	Trims                          []Trim
	Outline                        []Move
	OutlineAt                      source.Span
	Template, HeadToTail           Word
}

// Cuts counts the cuts and holes of a part by the time they take to work out:
// four points of an outline count as one.
func (p *Part) Cuts() int {
	return len(p.Tapers) + len(p.Notches) + len(p.Grooves) + len(p.Holes) + len(p.Arrises) + len(p.Corners) + len(p.Outline)/4
}

// An End shapes one end.
type End struct {
	Name         Word
	Shape        Word
	Radius       Formula
	Miter, Bevel Formula
	Long         Word // the edge left longer
	LongFace     Word
}

// An Edge bevels one edge.
type Edge struct {
	Name  Word
	Bevel Formula
	Wide  Word // the face left wider
	Bears Word // the face it must bear flat on
}

// A Taper slopes one edge or both.
type Taper struct {
	Name     Word
	Edge     Word
	From, To [2]Formula
}

// A Corner rounds or clips a corner.
type Corner struct {
	End, Edge Word
	Round     Formula
	Clip      [2]Formula
}

// An Arris rounds or chamfers a long edge.
type Arris struct {
	Side, Face     Word
	Round, Chamfer Formula
}

// A Notch is cut in from an edge.
type Notch struct {
	Name, Edge     Word
	At, Long, Deep Formula
}

// A Groove is cut into a face.
type Groove struct {
	Name, Face    Word
	Along, Across [2]Formula
	Deep          Formula
}

// A Hole is one hole of a part.
type Hole struct {
	Name     string
	At       source.Span
	Place    [2]Formula
	Diameter Formula
	Deep     Formula
	For      Word
	Through  Word
	Face     Word
	Fine     bool
	Sink     bool
	BoreWide Formula
	BoreDeep Formula
}

// A Trim is an end found by another plane.
type Trim struct {
	Name, By Word
	Flat     Formula
	Then     Word
}

// A Move is one step of a free outline.
type Move struct {
	At          source.Span
	To          [2]Formula
	Start       bool
	Via, Center [2]Formula
}

// A Group is a frame of its own.
type Group struct {
	Key    string
	At     source.Span
	In, On Word
	Set    []Direction
	Turns  []Turned // at most one is allowed
	Stands []Word
}

// A Direction is a distance toward a side.
type Direction struct {
	Side Word
	By   Formula
}

// A Turned is one named angle of a group.
type Turned struct {
	Key string // fall, lean, turn, splay, tip
	By  Formula
}

// A Place is one [[place]].
type Place struct {
	At     source.Span
	Part   Word
	In     Word
	Lies   []Lie
	Meets  []Meet
	Level  []Meet
	Row    *Row
	Fan    *Fan
	Around int
	Clear  *Clear
}

// A Lie says which way a feature looks.
type Lie struct{ Feature, Way Word }

// A Meet puts a feature at a position.
type Meet struct {
	Feature Word // may be dotted: a point or a hole
	Where   Formula
	Floor   bool
	Hole    Word // the hole it meets, when the feature is one
}

// A Row repeats a part.
type Row struct {
	At     source.Span
	Toward Word
	Count  Formula
	Gap    Formula
	To     Formula
}

// A Fan spreads a part about the center line.
type Fan struct {
	At               source.Span
	Count, Gap, Turn Formula
}

// A Clear keeps a feature away from other parts.
type Clear struct {
	At      source.Span
	Feature Word
	Of      Word
	By      Formula
}
