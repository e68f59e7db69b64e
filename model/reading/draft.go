// Package reading turns the text of a plan file into a Draft: everything the
// author wrote, with its place in the file, formulas parsed but not worked out.
//
// It refuses what cannot be understood: wrong words, wrong kinds of value. It
// works out no number; model/assembly does.
package reading

import (
	"planset/model/expr"
	"planset/model/source"
)

// A Draft is a plan as it was written, includes merged in.
type Draft struct {
	Files    []*source.File
	Unit     expr.Unit // what a bare number means
	Info     Info
	Sizes    []Named
	Counts   []Named
	Derived  []Named
	Measures []Named
	Variants []Variant
	Systems  map[expr.Unit]Override // [inch] and [metric]: other numbers for one edition
	Goals    []Goal
	Stocks   []*Stock
	OnHand   []OnHand
	Hardware []*Hardware
	Parts    []*Part
	Groups   []*Group
	Places   []*Place
	Joints   []*Joint
	Stages   []Stage
	Steps    []*Step
	Exploded Exploded
	Drawings []Drawing
	Critical []Critical
	Finish   Finish
	Beside   Beside
	Care     []string
	Terms    []Term
	Waivers  []Waiver
	Editions []Edition
	Kerf     Formula
	EndTrim  Formula
}

// A Formula is one formula and where it stands. F is nil when it was not given
// or could not be parsed.
type Formula struct {
	F  *expr.Formula
	At source.Span
}

// Given reports whether there is a formula to work out.
func (f Formula) Given() bool { return f.F != nil }

// A Word is a text value and where it stands; its zero is "not given".
type Word struct {
	Text string
	At   source.Span
}

// Given reports whether the word was written.
func (w Word) Given() bool { return w.At.File != nil }

// A Named is a formula with a name, as in [size].
type Named struct {
	Name string
	At   source.Span // of the name
	Is   Formula
	Note string
}

// Info is the [plan] table.
type Info struct {
	Title, Slug, Purpose, Intro           Word
	Maker, Contact, Licence, Accent, Logo Word
	Revision, Date, Skill, Hours          Word
	Notes                                 []Word
	Kind                                  Word // what it is: "chair", "bench", ...
	Seats                                 int  // how many sit on it side by side; 0 when not said
	Children                              bool // children use it
	Changes                               []Change
}

// A Change is one [[plan.change]].
type Change struct {
	Revision, Date, Text Word
	Parts                []Word
	Recut                bool
}

// An Override is numbers that replace those of [size], [count] and [derive].
type Override struct{ Sizes, Counts, Derived []Named }

// A Variant is one [variant.*].
type Variant struct {
	Key     string
	At      source.Span
	Title   Word
	Note    Word
	Numbers Override
	Systems map[expr.Unit]Override
	Drop    []Word
}

// A Goal asks for a size to be chosen so that a value holds.
type Goal struct {
	Name      string
	At        source.Span
	Choose    Word
	Value, Is Formula
	From, To  Formula
}

// A Stock is one [stock.*], for one unit system.
type Stock struct {
	Key     string
	At      source.Span
	Species Word
	Select  string
	Base    Yard
	Systems map[expr.Unit]*Yard
}

// A Yard is what the yard calls and sells a stock as, in one unit system.
type Yard struct {
	Name             Word
	Section, Nominal []Formula
	Lengths, Prices  []Formula
	Most             []Formula // that the yard has of each length
	Cleanup          Formula
	Spare            int
	Unit             expr.Unit // of its bare numbers
}

// An OnHand is one [[on_hand]]: a board the maker has.
type OnHand struct {
	At            source.Span
	Stock, Name   Word
	Length, Width Formula
	Bad           []Bad
}

// A Bad is a stretch of a board on hand that must not show.
type Bad struct {
	At         source.Span
	From, To   Formula
	Edge, Face Word
}

// A Hardware is one [hardware.*].
type Hardware struct {
	Key      string
	At       source.Span
	Name     Word
	Kind     Word
	With     []Word
	Material string
	WithOf   string // material of what goes with a bolt; "" as the bolt
	Base     Bought
	Systems  map[expr.Unit]*Bought
}

// Bought is how a hardware is sold in one unit system.
type Bought struct {
	Size   Word
	Length Formula
	Auto   bool
	Box    int
	Unit   expr.Unit
}

// A Joint is one [joint.*].
type Joint struct {
	Key        string
	At         source.Span
	Name       Word
	From, Into []Word
	Hardware   Word
	Holes      []Word
	Count      Formula
	Run        Word
	Inset      Formula
	InsetEnd   Formula
	Pilot      Formula // drill in the second part; 0 for none
	Clearance  Formula // drill in the first part
	Mouth      Word
	Nut        Word
	Glue, Plug bool
	Note       Word
}

// A Stage is one [stage.*]: a run of steps.
type Stage struct {
	Key         string
	At          source.Span
	Title, Text Word
	Exploded    Exploded
}

// Exploded is the [explode] table, or what a [stage.*] says of its own picture.
type Exploded struct {
	View  Word
	Apart Formula
}

// A Drawing is one [drawing.PART].
type Drawing struct {
	Part  Word
	Face  Word
	Scale Word
	Hide  []Word
	Move  []Shift
}

// A Shift is one entry of [drawing.PART.move].
type Shift struct {
	Name Word
	By   [2]Formula
}

// A Step is one [[step]].
type Step struct {
	At                   source.Span
	Stage, Title, Do     Word
	Test, Watch, Mistake Word
	View, Turned         Word
	Notes                []Word
	Make, Add, Fasten    []Word
	Tighten, Glue        []Word
	Loose, Dry, Finish   bool
	People, Minutes      int
	Bit                  Formula // length of the bit that its screws take
	RightAngle           bool    // they take a right-angle driver
	Bare                 []Word  // joints whose faces its coat leaves bare
	Shows                []Show
	Wrong                *Wrong
}

// A Critical is one [critical.*].
type Critical struct {
	Name          string
	At            source.Span
	Value, Within Formula
	Note          Word
}

// Finish is the [finish] table.
type Finish struct {
	Name  Word
	Coats int
	Cover float64
	Oily  bool
	Cure  Word
	Text  []string
	Ends  Word // what end grain gets over and above
	Inner Word // what faces get that the joints will hide
}

// Beside is the [beside] table: the chair that a piece goes with.
type Beside struct{ SeatHeight, SeatSlope, ArmHeight Formula }

// A Term is one [[term]].
type Term struct{ Word, Text string }

// A Waiver is one [[waive]].
type Waiver struct {
	At     source.Span
	Rule   Word
	Parts  []string
	Reason Word
	Value  float64
}

// An Edition is one [[edition]].
type Edition struct {
	At      source.Span
	Variant Word
	Unit    expr.Unit
	Paper   Word
}

// Over returns y with what it leaves open taken from base.
func (y Yard) Over(base Yard) Yard {
	if !y.Name.Given() {
		y.Name = base.Name
	}
	if len(y.Section) == 0 {
		return mixed(y, base)
	}
	return y
}

// mixed fills y from base where y has no section of its own: then the numbers of
// base still count in base's unit, so only words and counts are y's.
func mixed(y, base Yard) Yard {
	base.Name = y.Name
	if y.Spare > 0 {
		base.Spare = y.Spare
	}
	return base
}
