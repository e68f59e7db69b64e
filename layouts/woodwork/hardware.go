package woodwork

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// A ring is one step of a turned profile: how far along the axis, how wide.
type ring struct{ s, r float64 }

// Sides of turned shapes, enough for pictures.
const turnedSides = 14

// Driven returns a bolt or screw as a solid, its head bearing at head and its
// shank pointing along dir. Sizes it does not know are drawn by proportion.
func Driven(h *model.Hardware, head, dir geom.V3) *geom.Solid {
	t := newLathe(head, dir)
	s := SizesOf(h)
	switch h.Kind {
	case model.CarriageBolt, model.HexBolt:
		if h.Kind == model.CarriageBolt {
			t.turn(turnedSides, ring{-s.HeadHigh, 0.35 * s.Head / 2}, ring{-0.8 * s.HeadHigh, 0.7 * s.Head / 2}, ring{-0.4 * s.HeadHigh, 0.94 * s.Head / 2}, ring{0, s.Head / 2})
			t.turn(4, ring{0, s.Square / math.Sqrt2}, ring{s.Neck, s.Square / math.Sqrt2})
		} else {
			t.turn(6, ring{-s.HeadHigh, s.Head / 2}, ring{0, s.Head / 2})
		}
		t.turn(turnedSides, ring{s.Neck, s.Diam / 2}, ring{h.Length - 0.15*s.Diam, s.Diam / 2}, ring{h.Length, 0.38 * s.Diam})
	default:
		t.turn(turnedSides, ring{0, s.Head / 2}, ring{s.HeadHigh, s.Shank / 2}, ring{0.38 * h.Length, s.Shank / 2}, ring{0.38 * h.Length, s.Diam / 2},
			ring{h.Length - 1.6*s.Diam, s.Diam / 2}, ring{h.Length, 0})
	}
	return &t.solid
}

// Nut returns a hex nut with its bearing face at at, growing along dir.
func Nut(bolt *model.Hardware, at, dir geom.V3) *geom.Solid {
	t, s := newLathe(at, dir), SizesOf(bolt)
	t.turn(6, ring{0, s.Flats / math.Sqrt(3)}, ring{s.NutThick, s.Flats / math.Sqrt(3)})
	return &t.solid
}

// Washer returns a washer that lies at at and is thick along dir. Its hole is
// not drawn: the bolt fills it.
func Washer(bolt *model.Hardware, at, dir geom.V3) *geom.Solid {
	t, s := newLathe(at, dir), SizesOf(bolt)
	t.turn(20, ring{0, s.Washer / 2}, ring{s.WasherThick, s.Washer / 2})
	return &t.solid
}

// Sizes are what hardware measures where a picture needs it, mm.
type Sizes struct {
	Diam, Shank, Root                    float64
	Head, HeadHigh                       float64 // diameter, and height of a bolt's head or depth of a screw's
	Square, Neck, Thread                 float64
	Flats, NutThick, Washer, WasherThick float64
	WasherInside                         float64
}

// SizesOf looks hardware up in the tables of the trade; what is not in them is
// drawn by proportion.
func SizesOf(h *model.Hardware) Sizes {
	d := h.Diam
	s := Sizes{Diam: d, Shank: 0.8 * d, Root: 0.66 * d, Head: 1.9 * d, HeadHigh: 0.55 * d, Square: d, Neck: 0, Thread: min(h.Length, 2*d+6.35),
		Flats: 1.5 * d, NutThick: 0.87 * d, Washer: 2.1 * d, WasherThick: 0.2 * d, WasherInside: 1.08 * d}
	if b, ok := wood.Bolt(h.Size); ok && (h.Kind == model.CarriageBolt || h.Kind == model.HexBolt) {
		s.Diam, s.Shank, s.Root = b.Diameter, b.Diameter, b.Diameter-1.1*b.Pitch
		s.Flats, s.NutThick = b.Nut.Flats.Max, b.Nut.Thick.Max
		s.Washer, s.WasherThick, s.WasherInside = b.Narrow.Outside, b.Narrow.Thick, b.Narrow.Inside
		s.Thread = b.Thread(h.Length)
		s.Head, s.HeadHigh = 1.7*b.Diameter, 0.65*b.Diameter
		if h.Kind == model.CarriageBolt {
			s.Head, s.HeadHigh, s.Square, s.Neck = b.Head.Max, b.HeadHeight.Max, b.Square.Max, b.Neck.Max
		}
		return s
	}
	if w, ok := wood.Screw(h.Size); ok {
		s.Diam, s.Shank, s.Root, s.Head = w.Diameter, 0.82*w.Diameter, w.Root, w.Head
		s.HeadHigh = (s.Head - s.Shank) / 2 / math.Tan(w.HeadAngle/2*math.Pi/180)
	}
	if h.Kind == model.PocketScrew {
		s.Head, s.HeadHigh = 2.2*s.Diam, 0.55*s.Diam
	}
	return s
}

// A lathe turns profiles about an axis into one solid.
type lathe struct {
	at, u, v, w geom.V3
	smooth      int
	solid       geom.Solid
}

func newLathe(at, dir geom.V3) *lathe {
	w := dir.Unit()
	u := geom.V3{X: 1}
	if math.Abs(w.X) > 0.8 {
		u = geom.V3{Z: 1}
	}
	u = u.Sub(w.Mul(u.Dot(w))).Unit()
	return &lathe{at: at, u: u, v: w.Cross(u), w: w}
}

// turn adds a closed body through rings with the given number of sides.
func (t *lathe) turn(sides int, rings ...ring) {
	t.smooth++
	pt := func(g ring, k int) geom.V3 {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / float64(sides))
		return t.at.Add(t.w.Mul(g.s)).Add(t.u.Mul(c * g.r)).Add(t.v.Mul(s * g.r))
	}
	loop := func(g ring, way int) []geom.V3 {
		var out []geom.V3
		for k := range sides {
			out = append(out, pt(g, way*k))
		}
		return out
	}
	if first := rings[0]; first.r > 0 {
		t.face(geom.Flat, 0, loop(first, -1)...)
	}
	if last := rings[len(rings)-1]; last.r > 0 {
		t.face(geom.Flat, 0, loop(last, 1)...)
	}
	for i := 1; i < len(rings); i++ {
		a, b := rings[i-1], rings[i]
		smooth := t.smooth*16 + i
		if sides < 10 {
			smooth = 0
		}
		for k := range sides {
			switch {
			case b.r == 0:
				t.face(geom.Side, smooth, pt(a, k), pt(a, k+1), pt(b, k))
			case a.r == 0:
				t.face(geom.Side, smooth, pt(a, k), pt(b, k+1), pt(b, k))
			default:
				t.face(geom.Side, smooth, pt(a, k), pt(a, k+1), pt(b, k+1), pt(b, k))
			}
		}
	}
}

func (t *lathe) face(kind geom.FaceKind, smooth int, loop ...geom.V3) {
	n := loop[1].Sub(loop[0]).Cross(loop[len(loop)-1].Sub(loop[0])).Unit()
	t.solid.Faces = append(t.solid.Faces, geom.Face{Loops: [][]geom.V3{loop}, N: n, Kind: kind, Smooth: smooth})
}
