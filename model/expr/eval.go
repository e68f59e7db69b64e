package expr

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model/source"
)

// A Scope knows the values of names. Lookup is asked for each name where it
// stands; false means that the value is not to be had and that this was reported
// already.
type Scope interface {
	Lookup(name string, at source.Span) (Value, bool)
}

// Eval works the formula out in a file whose bare numbers are in unit. It is
// false after an error was added to problems, or when the scope had no value.
// The value is always finite. A nil scope knows no names; a nil formula, whose
// fault Parse has told, has no value.
func (f *Formula) Eval(unit Unit, scope Scope, problems *source.List) (Value, bool) {
	if f == nil {
		return Value{}, false
	}
	e := &evaluator{formula: f, unit: unit, scope: scope, problems: problems}
	return e.value(f.root)
}

type evaluator struct {
	formula  *Formula
	unit     Unit
	scope    Scope
	problems *source.List
	known    []known // the names met so far, in order
}

// known is a name with its value.
type known struct {
	name  string
	value Value
}

// pair is two operands as written and as worked out.
type pair struct {
	left, right *node
	a, b        Value
}

func (e *evaluator) value(n *node) (Value, bool) {
	var v Value
	ok := true
	switch n.kind {
	case nodeNumber:
		v = n.value
	case nodeName:
		v, ok = e.lookup(n)
	default:
		v, ok = e.compound(n)
	}
	if !ok {
		return Value{}, false
	}
	if math.IsInf(v.V, 0) || math.IsNaN(v.V) {
		e.wrong(n, "the value of %s is too large", e.written(n))
		return Value{}, false
	}
	return v, true
}

func (e *evaluator) lookup(n *node) (Value, bool) {
	if e.scope == nil {
		e.wrong(n, "no names can be used here, so %q has no value", n.word)
		return Value{}, false
	}
	v, ok := e.scope.Lookup(n.word, e.formula.span(n.start, n.end))
	if ok {
		e.known = append(e.known, known{n.word, v})
	}
	return v, ok
}

func (e *evaluator) compound(n *node) (Value, bool) {
	args := make([]Value, len(n.args))
	for i, a := range n.args {
		v, ok := e.value(a)
		if !ok {
			return Value{}, false
		}
		args[i] = v
	}
	switch n.kind {
	case nodeNegate:
		v := args[0]
		v.V = 0 - v.V // never a negative zero
		return v, true
	case nodeCall:
		return n.do(e, n, args)
	}
	p := pair{n.args[0], n.args[1], args[0], args[1]}
	switch n.word {
	case "+", "-":
		return e.sum(n, p)
	case "*":
		return e.product(n, p, p.b.V, p.a.Dim.plus(p.b.Dim))
	case "/":
		if p.b.V == 0 {
			return e.byZero(n, p.right)
		}
		return e.quotient(n, p)
	}
	return e.power(n, p)
}

func (e *evaluator) sum(n *node, p pair) (Value, bool) {
	verb := "add"
	if n.word == "-" {
		verb = "subtract"
	}
	a, b, ok := e.alike(n, p, verb)
	if !ok {
		return Value{}, false
	}
	p.a, p.b = a, b
	zero, ok := e.sameZero(n, p, verb)
	if !ok {
		return Value{}, false
	}
	out := a
	out.Zero = zero
	if n.word == "+" {
		out.V = a.V + b.V
		return out, true
	}
	out.V = a.V - b.V
	// What is left between two directions, or up to one from a fixed turn, is
	// no direction any more.
	if b.Zero != None {
		out.Zero = None
	}
	return out, true
}

// alike gives two operands the same dimension or says that they clash. A loose
// one becomes what the other is.
func (e *evaluator) alike(n *node, p pair, verb string) (a, b Value, ok bool) {
	a, b = e.adapt(p.a, p.b), e.adapt(p.b, p.a)
	if a.Dim == b.Dim {
		a.Loose, b.Loose = a.Loose && b.Loose, a.Loose && b.Loose
		return a, b, true
	}
	problem := e.clash(n, "cannot %s %s (%s) and %s (%s)", verb,
		e.told(p.left, p.a), p.a.kind(), e.told(p.right, p.b), p.b.kind())
	switch {
	case a.Loose && b.isAngle():
		problem.Fix("%s", e.missingDeg(p.left, a))
	case b.Loose && a.isAngle():
		problem.Fix("%s", e.missingDeg(p.right, b))
	case a.Dim == plain && b.isLength() || b.Dim == plain && a.isLength():
		problem.Fix("a count or a ratio is no length; multiply it by one first")
	case a.isAngle() && b.isLength() || a.isLength() && b.isAngle():
		problem.Fix("take sin, cos or tan of the angle and multiply a length by that")
	default:
		problem.Fix("make both the same kind of value")
	}
	return Value{}, Value{}, false
}

func (e *evaluator) missingDeg(n *node, v Value) string {
	if n.kind == nodeNumber {
		return fmt.Sprintf("write %s deg if it is degrees", v.Text(e.unit))
	}
	return fmt.Sprintf("if %s is an angle, write deg after its number where it is set", e.written(n))
}

// adapt makes a loose value what its partner is, where that is allowed.
func (e *evaluator) adapt(v, partner Value) Value {
	switch {
	case !v.Loose:
	case partner.isLength():
		return Length(e.unit.mm(v.V))
	case partner.isAngle() && v.V == 0:
		return Radians(0, None)
	case v.V == 0:
		return Value{Dim: partner.Dim, Loose: partner.Loose}
	}
	return v
}

// sameZero returns from where the sum of two angles is measured. An angle off
// square goes with any other; level and plumb never go together.
func (e *evaluator) sameZero(n *node, p pair, verb string) (Zero, bool) {
	a, b := p.a.Zero, p.b.Zero
	switch {
	case a == b, b == None:
		return a, true
	case a == None:
		return b, true
	case a == Square || b == Square:
		return None, true
	}
	plumb := p.left
	if b == Plumb {
		plumb = p.right
	}
	e.clash(n, "cannot %s %s (from %s) and %s (from %s)", verb,
		e.told(p.left, p.a), a, e.told(p.right, p.b), b).
		Fix("turn one round first: write 90 deg - %s in the place of %s", e.written(plumb), e.written(plumb))
	return None, false
}

// product multiplies p.a by factor, which is p.b or what stands for it.
func (e *evaluator) product(n *node, p pair, factor float64, dim Dim) (Value, bool) {
	out := Value{V: p.a.V * factor, Dim: dim}
	if !dim.fits() {
		e.wrong(n, "too many lengths or angles are multiplied in %s", e.written(n))
		return Value{}, false
	}
	out.Loose = dim == plain && p.a.Dim == plain && (p.a.Loose || p.b.Loose)
	switch {
	case dim != angle:
	case p.a.isAngle():
		out.Zero = p.a.Zero
	case p.b.isAngle():
		out.Zero = p.b.Zero
	}
	return out, true
}

func (e *evaluator) quotient(n *node, p pair) (Value, bool) {
	out, ok := e.product(n, p, 1, p.a.Dim.minus(p.b.Dim))
	out.V = p.a.V / p.b.V
	if out.isAngle() && !p.a.isAngle() {
		out.Zero = None
	}
	return out, ok
}

func (e *evaluator) power(n *node, p pair) (Value, bool) {
	count := p.b.V
	if p.b.Dim != plain || count != math.Trunc(count) || math.Abs(count) > maxPower {
		e.clash(n, "the power after ^ is a whole number up to %d, but this is %s", maxPower, e.told(p.right, p.b)).
			Fix("for a root write sqrt(x)")
		return Value{}, false
	}
	if p.a.V == 0 && count < 0 {
		return e.byZero(n, p.left)
	}
	power := int(count)
	dim := Dim{}
	for range max(power, -power) {
		dim = dim.plus(p.a.Dim)
		if !dim.fits() {
			e.wrong(n, "too many lengths or angles are multiplied in %s", e.written(n))
			return Value{}, false
		}
	}
	if power < 0 {
		dim = Dim{}.minus(dim)
	}
	out := Value{V: raised(p.a.V, power), Dim: dim, Loose: p.a.Loose}
	if power == 1 {
		out.Zero = p.a.Zero
	}
	return out, true
}

// raised multiplies rather than calling math.Pow, whose last digit may differ
// between processors.
func raised(x float64, power int) float64 {
	out := 1.0
	for range max(power, -power) {
		out *= x
	}
	if power < 0 {
		return 1 / out
	}
	return out
}

func (e *evaluator) byZero(n, under *node) (Value, bool) {
	if under.kind == nodeNumber {
		e.wrong(n, "this divides by zero")
	} else {
		e.wrong(n, "this divides by zero: %s is 0", e.written(under))
	}
	return Value{}, false
}

// written returns a piece of the formula as it stands in the file.
func (e *evaluator) written(n *node) string { return e.formula.text[n.start:n.end] }

// clash reports values that do not go together.
func (e *evaluator) clash(n *node, format string, args ...any) *source.Problem {
	return e.report(n, ruleDimension, fmt.Sprintf(format, args...))
}

// wrong reports a value that something cannot take.
func (e *evaluator) wrong(n *node, format string, args ...any) *source.Problem {
	return e.report(n, ruleValue, fmt.Sprintf(format, args...))
}

// report adds an error with the values that went into the failing piece.
func (e *evaluator) report(n *node, rule, text string) *source.Problem {
	p := e.problems.Errorf(e.formula.span(n.start, n.end), rule, "%s", text)
	var values []string
	n.walk(func(n *node) {
		i := slices.IndexFunc(e.known, func(k known) bool { return n.kind == nodeName && k.name == n.word })
		if i < 0 {
			return
		}
		if value := n.word + " = " + e.known[i].value.Text(e.unit); !slices.Contains(values, value) {
			values = append(values, value)
		}
	})
	if len(values) > 0 {
		p.Note(source.Span{}, "with %s", strings.Join(values, ", "))
	}
	return p
}
