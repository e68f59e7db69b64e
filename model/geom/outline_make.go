package geom

import (
	"errors"
	"fmt"
	"math"
)

// Rect returns the rectangle from the origin to w, h, in millimetres.
func Rect(w, h float64) Outline {
	return Polygon(Pt{}, Pt{w, 0}, Pt{w, h}, Pt{0, h})
}

// Polygon returns the outline of straight sides through the given corners.
func Polygon(pts ...Pt) Outline {
	o := make(Outline, len(pts))
	for i, p := range pts {
		o[i] = Line(p.Snap(), pts[(i+1)%len(pts)].Snap())
	}
	return o
}

// Circle returns the full circle about c, as two half turns from its right.
func Circle(c Pt, r float64) Outline {
	a, b := Pt{c.X + r, c.Y}, Pt{c.X - r, c.Y}
	return Outline{ArcBy(a, b, c, CCW), ArcBy(b, a, c, CCW)}
}

// A Trace makes an outline from moves. The first move that cannot be made is
// remembered and told by Close.
type Trace struct {
	at    Pt
	segs  Outline
	moves int
	err   error
}

// A TraceError says which move of a trace cannot be made and why. Moves count
// from 1; 0 stands for the outline as a whole.
type TraceError struct {
	Move int
	Text string // one sentence, no full stop
}

// Error returns the text with the number of the move before it.
func (e *TraceError) Error() string {
	if e.Move == 0 {
		return e.Text
	}
	return fmt.Sprintf("move %d: %s", e.Move, e.Text)
}

// From begins a trace at p.
func From(p Pt) *Trace {
	t := &Trace{at: p.Snap()}
	if !finite(p) {
		t.fail("the start is not a number")
	}
	return t
}

func finite(p Pt) bool { return math.Abs(p.X) < 1e7 && math.Abs(p.Y) < 1e7 }

func (t *Trace) fail(format string, args ...any) {
	if t.err == nil {
		t.err = &TraceError{t.moves, fmt.Sprintf(format, args...)}
	}
}

// to begins a move to p and reports whether it can be made.
func (t *Trace) to(p Pt) bool {
	t.moves++
	switch {
	case t.err != nil:
		return false
	case !finite(p):
		t.fail("the point is not a number, or farther off than ten kilometres")
	case Same(p, t.at):
		t.fail("it ends where it begins, at %.3f, %.3f", t.at.X, t.at.Y)
	}
	return t.err == nil
}

func (t *Trace) add(s Seg) {
	t.segs = append(t.segs, s)
	t.at = s.B
}

// LineTo goes straight to p.
func (t *Trace) LineTo(p Pt) *Trace {
	p = p.Snap()
	if t.to(p) {
		t.add(Line(t.at, p))
	}
	return t
}

// ArcOver goes to p by the arc through mid.
func (t *Trace) ArcOver(mid, p Pt) *Trace {
	p = p.Snap()
	if !t.to(p) {
		return t
	}
	s := ArcThrough(t.at, mid, p)
	switch {
	case !finite(mid) || Same(mid, t.at) || Same(mid, p):
		t.fail("the point the arc passes must be away from both its ends")
	case s.Turn == Straight:
		t.fail("the three points of the arc are in one line")
	default:
		t.add(s)
	}
	return t
}

// ArcTo goes to p by an arc of radius r that turns as told, the longer way
// round the circle when large is set.
func (t *Trace) ArcTo(p Pt, r float64, turn Turn, large bool) *Trace {
	p = p.Snap()
	if !t.to(p) {
		return t
	}
	chord := p.Sub(t.at)
	half := chord.Len() / 2
	switch {
	case turn == Straight:
		t.fail("an arc must turn one way or the other")
		return t
	case !(r > 0) || r > 1e7:
		t.fail("the radius %g is no radius", r)
		return t
	case r < half-Grid:
		t.fail("a radius of %.3f is too small to span %.3f; it needs at least %.3f", r, 2*half, half)
		return t
	}
	// The centre lies to the left of the chord for a short anticlockwise arc.
	h := math.Sqrt(max(0, (r-half)*(r+half))) * float64(turn)
	if large {
		h = -h
	}
	c := t.at.Add(chord.Mul(0.5)).Add(chord.Unit().Left().Mul(h))
	t.add(ArcBy(t.at, p, c, turn))
	return t
}

// Close goes straight back to the start unless the trace is there already, and
// returns the outline, anticlockwise whichever way it was traced. The error is
// a *TraceError.
func (t *Trace) Close() (Outline, error) {
	if t.err != nil {
		return nil, t.err
	}
	if len(t.segs) == 0 {
		return nil, &TraceError{0, "the outline has no sides"}
	}
	o := append(Outline(nil), t.segs...)
	last := &o[len(o)-1]
	if start := o[0].A; Same(last.B, start) {
		last.B = start
	} else {
		o = append(o, Line(last.B, start))
	}
	if o.Area() < 0 {
		o = o.Reverse()
	}
	if err := o.Valid(); err != nil {
		return nil, &TraceError{0, err.Error()}
	}
	return o, nil
}

// Valid returns an error in words unless o is closed, anticlockwise, without
// sides of no length and without crossing or touching itself.
func (o Outline) Valid() error {
	if len(o) < 2 {
		return errors.New("an outline needs at least two sides")
	}
	for i, s := range o {
		if err := s.valid(); err != nil {
			return fmt.Errorf("side %d %w", i+1, err)
		}
		if n := o[(i+1)%len(o)]; !Same(s.B, n.A) {
			return fmt.Errorf("side %d ends at %.3f, %.3f but the next begins at %.3f, %.3f", i+1, s.B.X, s.B.Y, n.A.X, n.A.Y)
		}
	}
	if err := o.crossing(); err != nil {
		return err
	}
	// A sliver a grid step wide is no area.
	if o.Area() <= Grid*o.Length() {
		return errors.New("the outline runs clockwise or encloses nothing")
	}
	return nil
}

func (s Seg) valid() error {
	switch {
	case !finite(s.A) || !finite(s.B):
		return errors.New("has an end that is not a number")
	case Same(s.A, s.B):
		return fmt.Errorf("has no length, at %.3f, %.3f", s.A.X, s.A.Y)
	case s.Turn == Straight:
		return nil
	case !finite(s.C) || !(s.R > 0):
		return errors.New("is an arc without a centre or radius")
	case math.Abs(s.A.Sub(s.C).Len()-s.R) > reach || math.Abs(s.B.Sub(s.C).Len()-s.R) > reach:
		return errors.New("is an arc whose ends are not on its circle")
	}
	return nil
}

// crossing returns an error naming the first two sides of o that cross or touch
// elsewhere than at a common corner.
func (o Outline) crossing() error {
	for i, s := range o {
		for j := i + 1; j < len(o); j++ {
			t := o[j]
			for _, p := range meet(s, t) {
				if o.common(i, j, p) {
					continue
				}
				return fmt.Errorf("sides %d and %d cross or touch at %.3f, %.3f", i+1, j+1, p.X, p.Y)
			}
		}
		if n := o[(i+1)%len(o)]; len(o) > 2 && foldsBack(s, n) {
			return fmt.Errorf("side %d turns straight back on itself at %.3f, %.3f", i+1, n.A.X, n.A.Y)
		}
	}
	return nil
}

// common reports whether p is a corner that sides i < j share.
func (o Outline) common(i, j int, p Pt) bool {
	s, t := o[i], o[j]
	if j == i+1 && nearCorner(s, t, p) {
		return true
	}
	return i == 0 && j == len(o)-1 && nearCorner(t, s, p)
}

// nearCorner reports whether p counts as the corner between s and the following
// t. Where they join smoothly, rounding may let them cross once more a few
// grid steps on.
func nearCorner(s, t Seg, p Pt) bool {
	d := p.Sub(t.A).Len()
	u, v := s.Tangent(1), t.Tangent(0)
	if u.Dot(v) > 0 && math.Abs(u.Cross(v)) < 1e-5 {
		return d < 1e-3
	}
	return d <= reach
}

// foldsBack reports whether t leaves the end of s the way s came, on the same
// line or circle.
func foldsBack(s, t Seg) bool {
	u, v := s.Tangent(1), t.Tangent(0)
	if u.Dot(v) > 0 || math.Abs(u.Cross(v)) > 1e-9 {
		return false
	}
	l := min(s.Length(), t.Length())
	back, on := s.At(1-l/s.Length()), t.At(l/t.Length())
	return s.Distance(on) <= reach || t.Distance(back) <= reach
}
