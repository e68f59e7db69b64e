package geom

import "math"

// A V3 is a point or vector in space, millimetres. In the world x runs to the
// sitter's right, y to the rear and z up.
type V3 struct{ X, Y, Z float64 }

// Add returns v moved by w.
func (v V3) Add(w V3) V3 { return V3{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns the way from w to v.
func (v V3) Sub(w V3) V3 { return V3{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Mul returns v stretched by k.
func (v V3) Mul(k float64) V3 { return V3{v.X * k, v.Y * k, v.Z * k} }

// Dot returns the inner product.
func (v V3) Dot(w V3) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Cross returns the right-handed cross product.
func (v V3) Cross(w V3) V3 {
	return V3{v.Y*w.Z - v.Z*w.Y, v.Z*w.X - v.X*w.Z, v.X*w.Y - v.Y*w.X}
}

// Len returns the length of v.
func (v V3) Len() float64 { return math.Sqrt(v.Dot(v)) }

// Unit returns v at length one; the zero vector stays zero.
func (v V3) Unit() V3 {
	if l := v.Len(); l > 0 {
		return v.Mul(1 / l)
	}
	return v
}

// Neg returns v turned round.
func (v V3) Neg() V3 { return V3{-v.X, -v.Y, -v.Z} }

// A Pose puts a board's own frame into the world. The three directions are unit
// and square to each other; a mirrored piece has a left-handed frame.
type Pose struct{ Origin, Along, Across, Thick V3 }

// Home is the pose that changes nothing.
func Home() Pose { return Pose{V3{}, V3{1, 0, 0}, V3{0, 1, 0}, V3{0, 0, 1}} }

// Point returns where the board's point v is in the world.
func (p Pose) Point(v V3) V3 { return p.Origin.Add(p.Dir(v)) }

// Dir returns which way the board's vector v points in the world.
func (p Pose) Dir(v V3) V3 {
	return p.Along.Mul(v.X).Add(p.Across.Mul(v.Y)).Add(p.Thick.Mul(v.Z))
}

// Local returns the world point w in the board's own frame.
func (p Pose) Local(w V3) V3 { return p.LocalDir(w.Sub(p.Origin)) }

// LocalDir returns the world vector w in the board's own frame.
func (p Pose) LocalDir(w V3) V3 { return V3{w.Dot(p.Along), w.Dot(p.Across), w.Dot(p.Thick)} }

// Then returns the pose of a thing that stands at p inside a frame that stands at q.
func (p Pose) Then(q Pose) Pose {
	return Pose{q.Point(p.Origin), q.Dir(p.Along), q.Dir(p.Across), q.Dir(p.Thick)}
}

// Mirrored reports whether p is left-handed.
func (p Pose) Mirrored() bool { return p.Along.Cross(p.Across).Dot(p.Thick) < 0 }

// Mirror returns p reflected in the centre plane x = 0 of the world.
func (p Pose) Mirror() Pose {
	m := func(v V3) V3 { return V3{-v.X, v.Y, v.Z} }
	return Pose{m(p.Origin), m(p.Along), m(p.Across), m(p.Thick)}
}

// Spin returns v turned right-handedly about the unit axis by a radians.
func (v V3) Spin(axis V3, a float64) V3 {
	s, c := math.Sincos(a)
	return v.Mul(c).Add(axis.Cross(v).Mul(s)).Add(axis.Mul(axis.Dot(v) * (1 - c)))
}
