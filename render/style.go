package render

// A Tone is a colour, 0 to 255 each; the zero Tone is black.
type Tone struct{ R, G, B uint8 }

// Gray returns the tone with the given share of ink, 0 white to 1 black.
func Gray(ink float64) Tone {
	v := uint8(255*(1-ink) + 0.5)
	return Tone{v, v, v}
}

// White is paper.
var White = Tone{255, 255, 255}

// A Pen is a line's look. Widths and dashes are millimetres.
type Pen struct {
	Width float64
	Tone  Tone
	Dash  []float64 // on, off, ...; nil is solid
	Round bool      // round caps and joins; else butt caps and miter joins
}

// The few pens of a plan set. Widths follow the series of ISO 128 (0.18 0.25
// 0.35 0.5 0.7), dashes its 12d, 24d and 3d, from memory of that standard.
var (
	Outline  = Pen{Width: 0.5, Round: true}
	Thin     = Pen{Width: 0.25, Round: true}
	Hairline = Pen{Width: 0.18}
	Heavy    = Pen{Width: 0.7, Round: true}
	Hidden   = Pen{Width: 0.25, Dash: []float64{2, 1}}
	Center   = Pen{Width: 0.25, Dash: []float64{6, 0.8, 0.6, 0.8}}
	Break    = Pen{Width: 0.25}
	Ghost    = Pen{Width: 0.18, Tone: Gray(0.5)}
	CutLine  = Pen{Width: 0.35, Round: true}
	Rule     = Pen{Width: 0.18, Tone: Gray(0.4)}
)

// The sizes of type, in points. The capitals of the house face are 0.698 em
// high: Note has 2.5 mm capitals, Measure 3 mm.
const (
	Small   = 8.0  // legends inside artwork: 1.97 mm capitals
	Body    = 10.2 // running text and notes: 2.51 mm capitals
	Note    = 10.2
	Step    = 11.5 // step text, read at arm's length
	Measure = 12.2 // dimensions a buyer cuts to: 3.0 mm capitals
	Head    = 24.0
	Cover   = 40.0
)

// The four tones that survive a mono printer.
var (
	Paper = White
	Edge  = Gray(0.15) // edges of boards, new parts
	Grain = Gray(0.40) // end grain
	Dark  = Gray(0.70)
)
