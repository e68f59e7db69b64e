package cutting

import "fmt"

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
