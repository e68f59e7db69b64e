package geom

import (
	"errors"
	"math"
)

// behindMouth is how many diameters before its mouth a bore already cuts, so
// that a slanted one opens the whole of its mouth.
const behindMouth = 2

// bore drills one hole.
func (m *mesh) bore(d Bore, chord float64, smooth int) error {
	if !(d.Diam > reach) || !(d.Depth >= 0) || d.Dir.Len() < 0.5 {
		return errors.New("a bore needs a diameter, a direction and a depth of zero or more")
	}
	dir := d.Dir.Unit()
	f := frameOf(dir)
	r := d.Diam / 2
	n := facets(r, 2*math.Pi, chord)
	n += (4 - n%4) % 4 // whole quarters keep holes alike in both directions
	at := func(i int) V3 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		return d.At.Add(f.u.Mul(r * cos)).Add(f.v.Mul(r * sin))
	}
	tool := []blade{{Plane{d.At.Sub(dir.Mul(behindMouth * d.Diam)), dir.Neg()}, 0}}
	if d.Depth > 0 {
		tool = append(tool, blade{Plane{d.At.Add(dir.Mul(d.Depth)), dir}, 0})
	}
	// Opposite walls first: the wood left to look at shrinks fastest so.
	for i := range n / 4 {
		for q := range 4 {
			k := i + q*n/4
			out := at(k + 1).Sub(at(k)).Cross(dir).Unit()
			tool = append(tool, blade{Plane{at(k), out}, smooth})
		}
	}
	m.carve(tool, nil, Hollow)
	return nil
}

// recess cuts one flat-bottomed recess and returns the last number used for a
// smooth surface.
func (m *mesh) recess(b Board, r Recess, chord float64, smooth int) (int, error) {
	if !(r.Depth > reach) {
		return smooth, errors.New("a recess needs a depth")
	}
	if err := r.Outline.Valid(); err != nil {
		return smooth, err
	}
	flat := r.Outline.Flatten(chord)
	if !convex(flat) {
		return smooth, errors.New("a recess must have a convex outline; make it of several")
	}
	floor := Plane{V3{0, 0, r.Depth}, V3{0, 0, 1}}
	if r.Top {
		floor = Plane{V3{0, 0, b.Thick - r.Depth}, V3{0, 0, -1}}
	}
	tool := []blade{{floor, 0}}
	i := 0
	for _, s := range r.Outline {
		pieces, curve := 1, 0
		if s.Turn != Straight {
			smooth++
			pieces, curve = facets(s.R, s.Sweep(), chord), smooth
		}
		for range pieces {
			d := flat[(i+1)%len(flat)].Sub(flat[i]).Unit()
			tool = append(tool, blade{Plane{V3{flat[i].X, flat[i].Y, 0}, V3{d.Y, -d.X, 0}}, curve})
			i++
		}
	}
	m.carve(tool, nil, Hollow)
	return smooth, nil
}

// convex reports whether the polygon turns left, or goes straight on, at every
// corner.
func convex(pts []Pt) bool {
	n := len(pts)
	for i, p := range pts {
		u, v := pts[(i+1)%n].Sub(p), pts[(i+2)%n].Sub(pts[(i+1)%n])
		if u.Cross(v) < -1e-9*u.Len()*v.Len() {
			return false
		}
	}
	return true
}
