package buying

import (
	"cmp"
	"math"
	"slices"

	"planset/model/cutting"
)

// SetupKind is what is set.
type SetupKind int

// The kinds of set-up, in the order of the work.
const (
	Stop  SetupKind = iota // a stop beside the blade that crosscuts to one length
	Fence                  // the rip fence
	Jig                    // the taper jig, for two pieces of one blank
)

// A Setup is one setting of the saw and what is cut with it before it is changed.
type Setup struct {
	Kind   SetupKind
	At     float64  // mm from blade to stop or fence; for the jig, how far the cut slants over Over
	Over   float64  // mm, length of the blank; for the jig only
	Boards []int    // numbers of the boards, counted from 1, rising
	Codes  []string // parts, in the order of the alphabet
	Cuts   int      // pieces stopped, strips ripped or pairs parted
}

// oneSetting is how far apart two places may be that are cut with one setting, mm.
const oneSetting = 0.05

// Setups lists the settings that the layouts ask for: stops that serve two
// pieces or more, longest first, then fences, widest first, then the jig. It
// reads nothing but the finished layouts.
func Setups(c *cutting.Plan) []Setup {
	var list []Setup
	for i, b := range c.Boards {
		for _, p := range b.Pieces {
			// Of a pair the blank is crosscut, once; short pieces are sawn without a
			// stop, which would trap them.
			if p.Length >= c.Rules.Short && !(p.Pair > 0 && p.Turned) {
				list = note(list, Setup{Kind: Stop, At: p.Length}, i+1, codesOfPair(b, p)...)
			}
		}
		for _, cut := range b.Cuts {
			switch cut.Kind {
			case cutting.Rip:
				if byHand(c, cut) {
					continue
				}
				low := below(b, cut, c.Rules.Kerf)
				list = note(list, Setup{Kind: Fence, At: cut.At - low}, i+1, inStrip(b, cut, low)...)
			case cutting.Slant:
				list = note(list, Setup{Kind: Jig, At: math.Abs(cut.Stop - cut.At), Over: cut.To - cut.From}, i+1, parted(b, cut)...)
			}
		}
	}
	list = slices.DeleteFunc(list, func(s Setup) bool { return s.Kind == Stop && s.Cuts < 2 })
	for _, s := range list {
		slices.Sort(s.Codes)
	}
	slices.SortStableFunc(list, func(a, b Setup) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.At, a.At), cmp.Compare(b.Over, a.Over))
	})
	return list
}

// byHand reports whether a rip is too short for the fence.
func byHand(c *cutting.Plan, rip cutting.Cut) bool { return rip.To-rip.From < c.Rules.Short-oneSetting }

// note counts a cut with those of its setting.
func note(list []Setup, s Setup, board int, codes ...string) []Setup {
	at := slices.IndexFunc(list, func(o Setup) bool {
		return o.Kind == s.Kind && math.Abs(o.At-s.At) < oneSetting && math.Abs(o.Over-s.Over) < oneSetting
	})
	if at < 0 {
		at = len(list)
		list = append(list, s)
	}
	one := &list[at]
	one.Cuts++
	if !slices.Contains(one.Boards, board) {
		one.Boards = append(one.Boards, board)
	}
	for _, code := range codes {
		if !slices.Contains(one.Codes, code) {
			one.Codes = append(one.Codes, code)
		}
	}
	return list
}

// codesOfPair is a piece's code, and that of the one it shares a blank with.
func codesOfPair(b cutting.Board, p cutting.Placed) []string {
	codes := []string{p.Code}
	for _, q := range b.Pieces {
		if p.Pair > 0 && q.Pair == p.Pair {
			codes = append(codes, q.Code)
		}
	}
	return codes
}

// below is where the strip that a rip takes off begins, across the board.
func below(b cutting.Board, rip cutting.Cut, kerf float64) float64 {
	low := 0.0
	for _, c := range b.Cuts {
		if c.Kind == cutting.Rip && c.At < rip.At-oneSetting && math.Abs(c.From-rip.From) < oneSetting {
			low = max(low, c.At+kerf)
		}
	}
	return low
}

// inStrip names the pieces in the strip below a rip.
func inStrip(b cutting.Board, rip cutting.Cut, low float64) []string {
	var codes []string
	for _, p := range b.Pieces {
		if p.Along > rip.From-oneSetting && p.Along < rip.To && p.Across > low-oneSetting && p.Across < rip.At {
			codes = append(codes, p.Code)
		}
	}
	return codes
}

// parted names the two pieces on both sides of a slanted cut.
func parted(b cutting.Board, cut cutting.Cut) []string {
	var codes []string
	for _, p := range b.Pieces {
		if p.Pair > 0 && p.Cut == cut.N {
			codes = append(codes, p.Code)
		}
	}
	return codes
}
