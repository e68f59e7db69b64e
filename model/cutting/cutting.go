// Package cutting turns pieces into boards: what to buy, and where each piece
// is sawn, for the fewest dollars and with cuts that a home saw can make.
//
// It knows lengths, widths, saw kerf, end trim, prices and bad stretches. It
// does not know where a piece goes in the furniture, what shape it is later
// given, or how a page shows the result.
//
// A board is first crosscut into sections. A section is either one piece as
// wide as the cut needs, or it is ripped into strips, and each strip may be
// crosscut again: three stages at most, every cut from edge to edge. Ripping a
// whole board first is the case of one section.
//
// The files, in the order of the work: pack (a job, stock by stock), match (rows
// of pieces that stay together), demand (pieces to whole numbers), section and
// grow (what can lie side by side), pattern and offer (the best board for given
// values), counted (the same with pieces counted one by one), sequence (a first plan), master and matrix (the
// linear program over patterns), bound (the least cost that is proved), search
// and exhaust (whole boards), blank (pairs head to tail) and blank_rest (short
// pieces), place and order (boards with numbered cuts), setups (fewer changes of
// stop and fence). Work is limited by counting, never by the clock, so a job
// always gives the same plan.
package cutting

import "fmt"

// A Job is all that is asked of one visit to the yard. Lengths are mm.
type Job struct {
	Stocks []Stock
	Pieces []Piece
	Rules  Rules
}

// A Stock is one section of timber in the lengths that are sold.
type Stock struct {
	Key          string
	Thick, Width float64
	Lengths      []Sold
	OnHand       []OnHand // used first: they cost nothing
	Cleanup      float64  // extra width for each edge that a rip makes in this stock; 0 is the rules' own
	Spare        int      // boards to buy beyond the layout, of the cheapest length that takes the longest piece
}

// A Sold is one length that can be bought. If any length of a stock has no
// price, that stock is planned for the least length instead and costs nothing
// in the sums.
type Sold struct {
	Length, Price float64
	Limit         int // most that can be had; 0 is as many as needed
}

// An OnHand is a board the maker has, with stretches that must not show.
type OnHand struct {
	Name   string
	Length float64
	Width  float64 // as measured; 0 is the width of the stock
	Bad    []Stretch
}

// A Stretch is a bad part of a board's length, mm from its left end. Hidden
// pieces may take it, clear ones never; pieces without a need may take it if
// only one face is bad. A bad edge counts for the whole width.
type Stretch struct {
	From, To float64
	Edge     string // "near" or "far", or "" for both
	Face     string // "up" or "down", or "" for both
}

// takes reports whether a piece with this need may lie on a bad stretch.
func (s Stretch) takes(need string) bool {
	return need == Hidden || need != Clear && s.Face != ""
}

// What a piece needs.
const (
	Clear  = "clear"  // wood without a bad stretch
	Hidden = "hidden" // any wood
)

// A Piece is a rough blank: what must come off the saw. A piece of the stock's
// own width is used as bought and needs no rip.
type Piece struct {
	Code, Name, Stock string
	Length, Width     float64 // along and across the grain, with the clean-up that is planed off later
	Count             int     // pieces the plan needs
	Spare             int     // pieces to cut beyond those
	Face              string  // Clear, Hidden or "": which bad stretches of a board on hand it may take
	Match             bool    // all of them from one board, end to end, as far as one is long enough
	Family            string  // said on the layout; pieces of one size are placed in the job's order
	Nest              Nest    // how two of them lie head to tail in one blank, if they can

	two []member // of a blank: the pieces it is cut into
}

// Rules are the shop's own numbers, mm. Zero means none, so start from
// InchRules or MetricRules.
type Rules struct {
	Kerf         float64 // between any two pieces
	EndTrim      float64 // lost at each end of a board, bought or on hand, the trimming cut included
	EdgeCleanup  float64 // extra width for each edge that a rip makes; 0 if Width has it
	Keep         float64 // an offcut at least this long is kept and named
	Short        float64 // pieces shorter than this are cut last, from what is left of a board; 0 is none
	Work         int     // steps of search for a stock; 0 is the default
	Alternatives bool    // also plan without each length that was chosen
}

// Plan lengths that are not in the rules.
const (
	inch        = 25.4
	defaultWork = 40_000_000
)

// InchRules are a full-kerf blade, half an inch off each end, offcuts kept from
// a foot, and pieces below a foot, too short to hold at a saw (common practice),
// cut last.
func InchRules() Rules {
	return Rules{Kerf: inch / 8, EndTrim: inch / 2, Keep: 12 * inch, Short: 12 * inch, Alternatives: true}
}

// MetricRules are those of InchRules in round millimetres.
func MetricRules() Rules {
	return Rules{Kerf: 3.2, EndTrim: 13, Keep: 300, Short: 300, Alternatives: true}
}

// A Plan is every piece on exactly one board, or named in Left.
type Plan struct {
	Boards       []Board
	Buying       []Buy // one row for each stock and length, spare boards included
	Cost         float64
	Bound        Bound   // of all stocks together, spare boards included
	Waste        float64 // share of the bought timber that is neither a piece nor a kept offcut, 0 to 1
	Stocks       []Result
	Alternatives []Alternative
	Left         []Misfit
	Rules        Rules
}

// A Bound is a cost that no layout of this kind can beat.
type Bound struct {
	Cost   float64
	Proved bool // the plan costs no more than that
}

// A Result is what is known of one stock.
type Result struct {
	Stock  string
	Priced bool // false: Cost and Bound.Cost are zero and Least is what was made small
	Cost   float64
	Length float64 // bought, mm, without spare boards
	Least  float64 // mm that no layout can beat; for an unpriced stock
	Bound  Bound   // without spare boards
	Waste  float64
}

// A Buy is one row of the shopping list.
type Buy struct {
	Stock    string
	Length   float64
	Quantity int
	Spare    int     // of the quantity, boards that no layout uses
	Cost     float64 // of all of them
}

// An Alternative is the plan for a yard that lacks one length.
type Alternative struct {
	Stock   string
	Without float64 // the length that is lacking
	Cost    float64 // of that stock
	Buying  []Buy   // of that stock
	Boards  []Board // of that stock, laid out anew
}

// A Board is one board with its cuts. Along runs from its left end, across from
// its lower edge.
type Board struct {
	Stock        string
	Name         string // of a board on hand, may be empty
	OnHand       bool   // it need not be bought
	Thick, Width float64
	Length, Cost float64
	Cuts         []Cut
	Pieces       []Placed
	Blanks       []Blank // rectangles that two pieces are cut from, head to tail
	Rests        []Rest  // offcuts that short pieces are cut from
	Offcuts      []Offcut
	Waste        float64 // share that is neither a piece nor a kept offcut
	Trim         float64 // lost at each end
	Bad          []Stretch
}

// CutKind is what a cut does.
type CutKind int

// The kinds of cut, in the order of the work.
const (
	Trim     CutKind = iota // squares the end of a board
	Crosscut                // across the board
	Rip                     // along a section
	Recut                   // across a strip
	Slant                   // between two tapered pieces of one blank
)

// String returns the word for a kind of cut.
func (k CutKind) String() string {
	return [...]string{"trim", "crosscut", "rip", "crosscut strip", "slanted"}[k]
}

// A Cut is one pass of the saw, from edge to edge of what it cuts. The kerf
// lies beyond At: a crosscut's along the board, a rip's across it.
type Cut struct {
	N        int // 1, 2, 3 in the order of the work
	Kind     CutKind
	At       float64 // along for a crosscut, across for a rip; of a slanted cut, across at its left end
	From, To float64 // the other way
	Stop     float64 // of a slanted cut: across at its right end
}

// A Placed is one piece on a board.
type Placed struct {
	Code, Name    string
	Along, Across float64 // its corner nearest the board's left end and lower edge
	Length, Width float64
	Sawn          float64 // width as it comes off the saw, with the clean-up
	Cut           int     // number of the cut that frees it, 0 if none is needed
	Spare         bool
	Face, Family  string
	Pair          int  // which of the board's blanks it shares, counted from 1; 0 if none
	Turned        bool // lies with its far end to the left
	Rest          int  // which of the board's rests it is cut from, counted from 1; 0 if none

	blank int // which piece of the job it stands for, counted from 1, while it is a blank for two
}

// A Rest is an offcut that is used: what is left of a board when everything
// longer has been cut from it. It is the whole width of the board.
type Rest struct{ Along, Length, Width float64 }

// An Offcut is a rectangle that is left over.
type Offcut struct {
	Along, Across, Length, Width float64
	Keep                         bool // long enough to be kept
}

// Why says what is wrong with a piece.
type Why int

// The reasons.
const (
	NoStock   Why = iota // there is no such stock, or it has no lengths
	BadSize              // a length, width or count that cannot be
	TooLong              // for every sold length after end trim
	TooWide              // wider than the stock
	NoCleanup            // the stock is wide enough but leaves nothing to clean the ripped edge
	SoldOut              // the limited boards do not suffice
)

// A Misfit is a piece that no board takes. It is an error that says the
// numbers and what would help, in mm; the fields let another say it in inches.
type Misfit struct {
	Piece Piece
	Why   Why
	Asked float64 // mm that the piece needs
	Has   float64 // mm that the stock gives
	Count int     // pieces that are left over
}

// Error returns the misfit in a sentence, in mm.
func (m Misfit) Error() string {
	p := m.Piece
	return fmt.Sprintf("%s %q: %s; %s", p.Code, p.Name, m.what(), m.Fix())
}

func (m Misfit) what() string {
	switch m.Why {
	case NoStock:
		return fmt.Sprintf("there is no stock %q to cut it from", m.Piece.Stock)
	case BadSize:
		return fmt.Sprintf("%d pieces of %s × %s mm cannot be cut", m.Piece.Count, mm(m.Piece.Width), mm(m.Piece.Length))
	case TooLong:
		return fmt.Sprintf("%s mm long, and the longest %s gives %s mm after end trim", mm(m.Asked), m.Piece.Stock, mm(m.Has))
	case TooWide:
		return fmt.Sprintf("%s mm wide, and %s is %s mm wide", mm(m.Asked), m.Piece.Stock, mm(m.Has))
	case NoCleanup:
		return fmt.Sprintf("%s mm wide with its clean-up, and %s is %s mm wide: nothing is left to straighten",
			mm(m.Asked), m.Piece.Stock, mm(m.Has))
	}
	return fmt.Sprintf("%d of them are not covered by the boards of %s that can be had", m.Count, m.Piece.Stock)
}

// Fix says what would help, with numbers in mm.
func (m Misfit) Fix() string {
	switch m.Why {
	case NoStock:
		return "name a stock that has lengths"
	case BadSize:
		return "give a length, a width and a count above zero"
	case TooLong:
		return fmt.Sprintf("shorten it by %s mm or add a longer board", mm(m.Asked-m.Has))
	case TooWide:
		return fmt.Sprintf("make it %s mm narrower or choose a wider stock", mm(m.Asked-m.Has))
	case NoCleanup:
		return fmt.Sprintf("use it as bought at %s mm, make it %s mm narrower, or choose a wider stock",
			mm(m.Has), mm(m.Asked-m.Has))
	}
	return "raise the limit or add another length"
}

// mm prints a length without needless zeros.
func mm(x float64) string { return fmt.Sprintf("%.5g", x) }
