package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// coarse reads an outline from bytes, two a corner, on a grid of 16 by 16 so
// that sides of two of them often fall together; some sides are arcs.
func coarse(in []byte) (Outline, bool) {
	if len(in) < 6 {
		return nil, false
	}
	point := func(b byte) Pt { return Pt{float64(b&15) * 10, float64(b>>4) * 10} }
	start := point(in[0])
	t, last := From(start), start
	for i := 2; i < len(in)-1 && i < 20; i += 2 {
		p := point(in[i])
		d := p.Sub(last)
		switch in[i+1] % 5 {
		case 0:
			t.ArcTo(p, d.Len()/2, CCW, false)
		case 1:
			t.ArcTo(p, d.Len(), CW, false)
		default:
			t.LineTo(p)
		}
		last = p
	}
	o, err := t.Close()
	return o, err == nil
}

// FuzzCombine checks that cutting and offsetting never lose or invent area.
func FuzzCombine(f *testing.F) {
	square := []byte{0x00, 2, 0x08, 2, 0x88, 2, 0x80, 2}
	f.Add(square, []byte{0x04, 2, 0x0c, 2, 0x8c, 2, 0x84, 2})
	f.Add(square, []byte{0x44, 2, 0x4c, 2, 0xcc, 2, 0xc4, 2})
	f.Add(square, []byte{0x00, 2, 0x08, 0, 0x88, 2, 0x80, 1})
	f.Add([]byte{0x02, 2, 0x0a, 0, 0x4a, 2, 0x42, 0}, []byte{0x02, 2, 0x0a, 1, 0x4a, 2, 0x42, 1})
	f.Fuzz(func(t *testing.T, a, b []byte) {
		p, ok := coarse(a)
		q, ok2 := coarse(b)
		if !ok || !ok2 {
			return
		}
		tol := 1e-4 * max(1, p.Length()/100)
		both := areas(p.And(q))
		require.InDelta(t, p.Area(), both+areas(p.Minus(q)), tol, "p = p and q + p less q")
		require.InDelta(t, q.Area(), both+areas(q.Minus(p)), tol, "q = p and q + q less p")
		require.InDelta(t, both, areas(q.And(p)), tol)
		for _, d := range []float64{-2.5, 3.1} {
			o, err := p.Offset(d)
			if err != nil {
				require.Negative(t, d, "%v", err)
				continue
			}
			require.NoError(t, o.Valid())
			for _, s := range o {
				require.InDelta(t, math.Abs(d), p.Distance(s.Mid()), 1e-4)
			}
			require.Equal(t, d > 0, o.Area() > p.Area())
		}
	})
}
