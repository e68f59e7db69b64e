package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTraceTellsWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		name string
		t    *Trace
		move int
		text string
	}{
		{"zero move", From(Pt{1, 1}).LineTo(Pt{9, 1}).LineTo(Pt{9, 1}), 2, "ends where it begins"},
		{"small radius", From(Pt{0, 0}).ArcTo(Pt{10, 0}, 4, CCW, false), 1, "too small to span 10.000; it needs at least 5.000"},
		{"no turn", From(Pt{0, 0}).ArcTo(Pt{10, 0}, 40, Straight, false), 1, "must turn"},
		{"no radius", From(Pt{0, 0}).ArcTo(Pt{10, 0}, -1, CW, false), 1, "no radius"},
		{"flat arc", From(Pt{0, 0}).LineTo(Pt{0, 5}).ArcOver(Pt{0, 7}, Pt{0, 9}), 2, "in one line"},
		{"not a number", From(Pt{0, 0}).LineTo(Pt{math.NaN(), 0}), 1, "not a number"},
		{"bow tie", From(Pt{0, 0}).LineTo(Pt{10, 10}).LineTo(Pt{10, 0}).LineTo(Pt{0, 9}), 0, "cross or touch at 4.737, 4.737"},
		{"spike", From(Pt{0, 0}).LineTo(Pt{10, 0}).LineTo(Pt{10, 5}).LineTo(Pt{10, 2}).LineTo(Pt{0, 5}), 0, "side"},
		{"pinch", From(Pt{0, 0}).LineTo(Pt{10, 0}).LineTo(Pt{5, 5}).LineTo(Pt{10, 9}).LineTo(Pt{0, 9}).LineTo(Pt{5, 5}), 0, "cross or touch at 5.000, 5.000"},
		{"two lines", From(Pt{0, 0}).LineTo(Pt{10, 0}), 0, "encloses nothing"},
		{"nothing", From(Pt{0, 0}), 0, "no sides"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.t.Close()
			require.Error(t, err)
			var te *TraceError
			require.ErrorAs(t, err, &te)
			assert.Equal(t, c.move, te.Move)
			assert.Contains(t, err.Error(), c.text)
		})
	}
}

func TestTraceEitherWayRound(t *testing.T) {
	cw, err := From(Pt{0, 0}).LineTo(Pt{0, 30}).LineTo(Pt{100, 30}).LineTo(Pt{100, 0}).Close()
	require.NoError(t, err)
	assert.InDelta(t, 3000, cw.Area(), 0)
	assert.Equal(t, Pt{0, 0}, cw[0].A)
	closed, err := From(Pt{0, 0}).LineTo(Pt{100, 0}).LineTo(Pt{100, 30}).LineTo(Pt{0, 30}).LineTo(Pt{0, 0}).Close()
	require.NoError(t, err)
	assert.Equal(t, Rect(100, 30), closed)
}

func TestHalfRoundJoinsSmoothly(t *testing.T) {
	// Line into arc without a corner: rounding to the grid must not be taken
	// for a crossing, at any size or turn.
	for _, r := range []float64{0.37, 1.0 / 3, 41.2753, 1056.6667} {
		for _, a := range []float64{0, 0.1, 1, 2.345} {
			o := stadium(3*r, r).Turn(a)
			snapped := make(Outline, len(o))
			for i, s := range o {
				s.A, s.B = s.A.Snap(), s.B.Snap()
				if s.Turn != Straight {
					s = ArcThrough(s.A, o[i].Mid(), s.B)
				}
				snapped[i] = s
			}
			assert.NoError(t, snapped.Valid(), "r %g turned %g", r, a)
		}
	}
}

// FuzzTrace makes outlines from bytes, four a move. Whatever closes must obey
// the laws of outlines, whatever does not must say why.
func FuzzTrace(f *testing.F) {
	f.Add([]byte{0, 40, 0, 0, 0, 40, 40, 0, 0, 0, 40, 0})
	f.Add([]byte{1, 80, 0, 60, 0, 80, 40, 0, 2, 0, 40, 90})
	f.Add([]byte{0, 255, 10, 0, 3, 200, 200, 120, 1, 20, 200, 7})
	f.Add([]byte{2, 100, 100, 71, 2, 0, 0, 71})
	f.Add([]byte{0, 10, 0, 0, 0, 10, 10, 0, 0, 10, 0, 0})
	f.Fuzz(func(t *testing.T, moves []byte) {
		tr := From(Pt{})
		for ; len(moves) >= 4 && tr.moves < 12; moves = moves[4:] {
			p := Pt{float64(moves[1]), float64(moves[2])}
			k := float64(moves[3])
			switch moves[0] % 4 {
			case 0:
				tr.LineTo(p)
			case 1:
				tr.ArcTo(p, k, CCW, moves[0]&4 != 0)
			case 2:
				tr.ArcTo(p, k, CW, moves[0]&4 != 0)
			case 3:
				tr.ArcOver(Pt{k, p.X / 2}, p)
			}
		}
		o, err := tr.Close()
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		a := o.Area()
		require.Positive(t, a)
		require.InDelta(t, -a, o.Reverse().Area(), 1e-6*max(1, a))
		b := o.Box()
		require.LessOrEqual(t, a, b.W()*b.H()*(1+1e-9))
		require.True(t, b.Grow(1e-6).Has(o.Centroid()))
		x := b.Min.X + 0.37*b.W()
		left, right := 0., 0.
		for _, l := range o.ClipLine(Pt{x, 0}, Pt{1, 0}) {
			left += l.Area()
		}
		for _, r := range o.ClipLine(Pt{x, 0}, Pt{-1, 0}) {
			right += r.Area()
		}
		require.InDelta(t, a, left+right, 1e-3*max(1, o.Length()/100))
	})
}
