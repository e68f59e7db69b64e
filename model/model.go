// Package model has the nouns of a solved plan: parts, joints, hardware, steps.
//
// A Plan is complete and is never changed after it was solved: every length is
// millimetres, every angle radians, every text has its numbers in it. How it was
// written is in model/reading, how it was solved in model/assembly. It knows
// nothing of pages and pens.
package model

import (
	"planset/model/expr"
	"planset/model/geom"
)

// A Plan is one size of one piece of furniture in one unit system, solved.
type Plan struct {
	Title    string // "Petrel deck chair"
	Slug     string // "petrel-chair", starts the file names
	Purpose  string // one line under the title
	Intro    string // the maker's own words on the cover, may be empty
	Variant  Variant
	Variants []Variant // all sizes the file knows, the plain one first
	Unit     expr.Unit // of the reader
	Brand    Brand
	Revision string // "B"
	Date     string // of the revision, YYYY-MM-DD
	Skill    string // "first outdoor project"
	Hours    string // "two weekends"
	Changes  []Change
	Notes    []string // the maker's general notes

	Measures []Measure // sizes, derived and solved values, in the order of the file
	Stocks   []*Stock
	Hardware []*Hardware
	Parts    []*Part // one for each code; a family has one for each rank
	Placed   []*Placed
	Joints   []*Joint
	Stages   []Stage
	Steps    []*Step
	Exploded Exploded // the whole
	Critical []Critical
	Finish   Finish
	Care     []string
	Terms    []Term // the author's own glossary entries
	Cautions []Caution
	Proof    *Proof // nil when nothing is bolted through match-drilled holes
	Waivers  []Waiver
	Editions []Edition
	Kerf     float64 // mm
	EndTrim  float64 // mm off each end of a bought board
	Drops    []Drop
	Kind     Kind   // "" when the author did not say
	Seats    int    // how many sit side by side; 0 when not said
	Children bool   // children use it
	Beside   Beside // the chair that it goes with
}

// A Variant names a size.
type Variant struct {
	Key   string // "standard", "tall"
	Title string // "Standard", "Tall"
	Note  string // who it is for, may be empty
}

// An Edition is one PDF the model asks for when build has no flags.
type Edition struct {
	Variant string
	Unit    expr.Unit
	Paper   string // "letter" or "a4"
}

// A Brand is the maker's own look.
type Brand struct {
	Maker, Contact, Licence string
	Accent                  [3]uint8
	Logo                    []byte // PNG, may be nil
}

// A Change is one line of the change log.
type Change struct {
	Revision, Date, Text string
	Parts                []*Part // that changed, when the author says
	Recut                bool    // affects parts already cut
}

// A Measure is a named value: a size, a derived or a solved one.
type Measure struct {
	Name  string
	Value expr.Value
	Kind  MeasureKind
	Note  string // what it measures, in words for the buyer; may be empty
}

// MeasureKind says where a measure came from.
type MeasureKind int8

// The kinds of measure.
const (
	SizeMeasure MeasureKind = iota
	CountMeasure
	DerivedMeasure
	SolvedMeasure
)

// A Critical is a value the author wants held, with the limit.
type Critical struct {
	Name   string
	Value  expr.Value
	Within float64 // mm or radians either way
	Note   string
}

// A Stock is one kind of board the yard sells, in the reader's system.
type Stock struct {
	Key          string
	Name         string // as said at the yard
	Thick, Width float64
	Lengths      []Sold
	Species      string
	Select       string  // how to choose the boards, may be empty
	Spare        int     // boards bought over what the layout needs
	Cleanup      float64 // mm taken off each ripped edge
	Nominal      [2]float64
	OnHand       []OnHand // boards the maker has, in the order of the file
}

// Sold is a length the yard sells and its price; 0 when not known.
type Sold struct {
	Length, Price float64
	Most          int // that the yard has; 0 when there are enough
}

// An OnHand is a board the maker has, mm. It lies with its better face up, one
// end to the left.
type OnHand struct {
	Name          string
	Length, Width float64
	Bad           []Stretch
}

// A Stretch is a bad length of a board on hand, mm from its left end: a knot, a
// stain, a check. Clear parts keep away from it, hidden ones may take it.
type Stretch struct {
	From, To float64
	Edge     string // "near" or "far" if only that edge is bad, else ""
	Face     string // "up" or "down" if only that face is bad, else ""
}

// HardwareKind is what a piece of hardware is.
type HardwareKind string

// The kinds of hardware.
const (
	CarriageBolt HardwareKind = "carriage bolt"
	HexBolt      HardwareKind = "hex bolt"
	WoodScrew    HardwareKind = "wood screw"
	PocketScrew  HardwareKind = "pocket screw"
	Washer       HardwareKind = "washer"
	Nut          HardwareKind = "nut"
	Plug         HardwareKind = "plug"
	OtherItem    HardwareKind = "other"
)

// A Hardware is one line of the hardware list: one kind, one size, one length.
// The same entry of the file gives two lines where two joints need two lengths.
type Hardware struct {
	Key      string
	Code     string // "h1": as printed on steps and exploded views
	Name     string // "carriage bolt"
	Kind     HardwareKind
	Size     string // "3/8", "M10", "#8"
	Diam     float64
	Length   float64 // 0 for washers and nuts
	Material string
	Quantity int // counted from the joints
	Buy      int // rounded up to what is sold
	Box      int // pieces in a box; 0 sold singly
	Sum      []Term2
	Part     bool // a washer or nut that goes with a bolt
}

// A Term2 is one line of a worked sum: what and how much, in mm.
type Term2 struct {
	What string
	MM   float64
}

// A Placed is one piece standing in the finished thing.
type Placed struct {
	Part   *Part
	Hand   Hand // left, right or none
	Pose   geom.Pose
	Solid  *geom.Solid // in the world
	Index  int
	Center geom.V3 // of mass
}

// A Joint is one way two parts are held together, everywhere it occurs.
type Joint struct {
	Key       string
	Name      string // "Legs to stringers"
	Kind      string // "bolted", "screwed", "pocket screwed", "glued"
	First     []*Part
	Second    []*Part
	Hardware  *Hardware // nil when only glued
	With      []*Hardware
	Glue      bool
	Bond      bool // glue only
	Each      int  // fasteners at one place
	Places    int
	NutSide   string // name of the face the nut is on
	Mouth     string // which way pocket mouths look, in words
	Stack     []Layer
	Fasteners []Fastener
	Inset     float64 // of the outer fasteners from the ends of the run
	Spacing   float64
	Pilot     float64 // drill in the second part
	PilotDeep float64
	Clear     float64 // drill in the first part
	Sink      bool
	Angle     float64 // of the axis off the face's normal; pocket screws lean
	Note      string
	Plug      bool
}

// A Layer is what a fastener passes through, from its head on.
type Layer struct {
	Part  *Part
	Thick float64
}

// A Fastener is one bolt or screw in the world, not yet exploded.
type Fastener struct {
	Hardware *Hardware
	Joint    *Joint
	Head     geom.V3 // where the head bears on the wood
	Dir      geom.V3 // from the head into the wood, unit
	Length   float64
	Grip     float64 // wood between head and washer, or held thickness of a screw
	Pieces   [2]int  // indices into Placed: first and second
}

// A Finish says what goes on the wood.
type Finish struct {
	Name     string
	Coats    int
	Cover    float64 // m² a litre, one coat
	Oily     bool    // its rags heat up
	Text     []string
	Cure     string
	EndGrain string
	Hidden   string  // what faces get that the joints will hide; the first of Text
	Area     float64 // m², all parts
}

// A Term is one entry of the glossary.
type Term struct{ Word, Text string }

// Signal is the word at the head of a caution, with the meanings of ANSI Z535.6.
type Signal string

// The signal words.
const (
	Danger   Signal = "DANGER"
	Warn     Signal = "WARNING"
	Careful  Signal = "CAUTION"
	NoticeOf Signal = "NOTICE"
)

// A Caution is one message: the hazard, what it can do, how to avoid it.
type Caution struct {
	Key                        string
	Signal                     Signal
	Hazard, Consequence, Avoid string
}

// A Waiver lets a finding stand, with a reason.
type Waiver struct {
	Rule   string
	Parts  []string
	Reason string
	Value  float64
}

// A Proof is the frame solved again from the rounded numbers that are printed.
type Proof struct {
	Recline, SeatSlope float64 // radians, with the printed values
	Tilt               float64 // how far the frame turns on its feet
}

// A Drop is a part a variant leaves out.
type Drop struct{ Part, Variant string }
