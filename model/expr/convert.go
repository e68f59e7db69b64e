package expr

import (
	"fmt"
	"math"

	"planset/model/source"
)

// A Mismatch says why a value cannot be what was asked for.
type Mismatch struct {
	Text string // a sentence without its full stop
	Fix  string // what to write instead, may be empty
}

// Error returns the text, so that a Mismatch can pass as an error.
func (m *Mismatch) Error() string { return m.Text }

// Report adds m to problems as an error at a place.
func (m *Mismatch) Report(problems *source.List, at source.Span) *source.Problem {
	p := problems.Errorf(at, "dimension", "%s", m.Text)
	if m.Fix != "" {
		p.Fix("%s", m.Fix)
	}
	return p
}

// AsLength returns v in millimetres; a loose number is one of unit.
func (v Value) AsLength(unit Unit) (mm float64, bad *Mismatch) {
	switch {
	case v.Loose:
		if mm = unit.mm(v.V); math.IsInf(mm, 0) {
			return 0, &Mismatch{Text: "this number is too large for a length"}
		}
		return mm, nil
	case v.isLength():
		return v.V, nil
	}
	bad = v.mismatch("a length", unit)
	switch {
	case v.Dim == plain:
		bad.Fix = fmt.Sprintf("a count or a ratio has no unit; multiply it by a length, for example %s * 1 %s", v.Text(unit), unit)
	case v.Dim == Dim{Length: 2}:
		bad.Fix = "divide an area by a length, or take its sqrt, to get a length"
	}
	return 0, bad
}

// AsAngle returns v in radians and from where it is measured. Of loose numbers
// only 0 is an angle.
func (v Value) AsAngle(unit Unit) (rad float64, zero Zero, bad *Mismatch) {
	switch {
	case v.isAngle():
		return v.V, v.Zero, nil
	case v.Loose && v.V == 0:
		return 0, None, nil
	}
	bad = v.mismatch("an angle", unit)
	if v.Dim == plain {
		bad.Fix = fmt.Sprintf("write %s deg if it is degrees", v.Text(unit))
	}
	return 0, None, bad
}

// From returns the angle v as one measured from zero, which is what giving it to
// a key or a name does. A difference takes any zero, and an angle off square may
// come from any other; only level and plumb are never each other.
func (v Value) From(zero Zero, unit Unit) (Value, *Mismatch) {
	rad, was, bad := v.AsAngle(unit)
	if bad != nil {
		return Value{}, bad
	}
	if was == Level && zero == Plumb || was == Plumb && zero == Level {
		return Value{}, &Mismatch{
			Text: fmt.Sprintf("this angle is measured from %s, but it should be from %s (%s)", was, zero, v.Text(unit)),
			Fix:  "turn it round: write 90 deg minus the angle",
		}
	}
	return Radians(rad, zero), nil
}

// AsNumber returns v if it is a plain number, loose or not.
func (v Value) AsNumber(unit Unit) (float64, *Mismatch) {
	if v.Dim == plain {
		return v.V, nil
	}
	bad := v.mismatch("a plain number", unit)
	if v.isLength() || v.isAngle() {
		bad.Fix = fmt.Sprintf("leave the unit away, or divide by %s to get a ratio", v.Dim)
	}
	return 0, bad
}

func (v Value) mismatch(wanted string, unit Unit) *Mismatch {
	return &Mismatch{Text: fmt.Sprintf("this should be %s, but it is %s (%s)", wanted, v.kind(), v.Text(unit))}
}
