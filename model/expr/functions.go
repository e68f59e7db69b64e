package expr

import (
	"fmt"
	"math"
)

// function is a function of formulas.
type function struct {
	usage       string
	least, most int // how many values; most 0 is any number
	do          func(e *evaluator, n *node, args []Value) (Value, bool)
}

// functions returns all functions by name. The table is made anew each time, so
// that nothing is shared; only reading a formula asks for it.
func functions() map[string]function {
	return map[string]function{
		"min":      {"min(a, b)", 1, 0, extreme},
		"max":      {"max(a, b)", 1, 0, extreme},
		"floor":    {"floor(x)", 1, 1, toWhole},
		"ceil":     {"ceil(x)", 1, 1, toWhole},
		"round_to": {"round_to(x, step)", 2, 2, roundTo},
		"sqrt":     {"sqrt(x)", 1, 1, root},
		"abs":      {"abs(x)", 1, 1, magnitude},
		"sin":      {"sin(angle)", 1, 1, trigonometry},
		"cos":      {"cos(angle)", 1, 1, trigonometry},
		"tan":      {"tan(angle)", 1, 1, trigonometry},
		"asin":     {"asin(x)", 1, 1, inverse},
		"acos":     {"acos(x)", 1, 1, inverse},
		"atan":     {"atan(x)", 1, 1, inverse},
		"atan2":    {"atan2(rise, run)", 2, 2, atan2},
	}
}

// extreme is min and max.
func extreme(e *evaluator, n *node, args []Value) (Value, bool) {
	best := args[0]
	at := n.args[0]
	for i, v := range args[1:] {
		a, b, ok := e.alike(n, pair{at, n.args[i+1], best, v}, "compare")
		if !ok {
			return Value{}, false
		}
		zero, ok := e.sameZero(n, pair{at, n.args[i+1], a, b}, "compare")
		if !ok {
			return Value{}, false
		}
		if (b.V < a.V) == (n.word == "min") && a.V != b.V {
			a, at = b, n.args[i+1]
		}
		best = a
		best.Zero = zero
	}
	return best, true
}

// toWhole is floor and ceil.
func toWhole(e *evaluator, n *node, args []Value) (Value, bool) {
	v := args[0]
	if v.Dim != plain {
		e.clash(n, "%s counts whole numbers, but %s is %s", n.word, e.told(n.args[0], v), v.kind()).
			Fix("write round_to(x, step) to round a length or an angle")
		return Value{}, false
	}
	// 6.999999999 from a division that should have given 7 is 7.
	if near := math.Round(v.V); math.Abs(v.V-near) <= noise*math.Max(1, math.Abs(v.V)) {
		v.V = near
	} else if n.word == "floor" {
		v.V = math.Floor(v.V)
	} else {
		v.V = math.Ceil(v.V)
	}
	return v, true
}

func roundTo(e *evaluator, n *node, args []Value) (Value, bool) {
	v, step, ok := e.alike(n, pair{n.args[0], n.args[1], args[0], args[1]}, "round")
	if !ok {
		return Value{}, false
	}
	if step.V <= 0 {
		e.wrong(n, "round_to needs a step above 0, but %s is not", e.told(n.args[1], step))
		return Value{}, false
	}
	v.V = nearest(v.V/step.V, noise) * step.V
	return v, true
}

func root(e *evaluator, n *node, args []Value) (Value, bool) {
	v := args[0]
	if v.Dim.Length%2 != 0 || v.Dim.Angle%2 != 0 {
		e.clash(n, "the square root of %s has no meaning: %s", v.Dim, e.told(n.args[0], v)).
			Fix("sqrt gives a length from an area, or a number from a number")
		return Value{}, false
	}
	if v.V < 0 {
		e.wrong(n, "sqrt needs a value that is not below 0, but %s is", e.told(n.args[0], v))
		return Value{}, false
	}
	v.V = math.Sqrt(v.V)
	v.Dim = Dim{v.Dim.Length / 2, v.Dim.Angle / 2}
	return v, true
}

func magnitude(_ *evaluator, _ *node, args []Value) (Value, bool) {
	v := args[0]
	v.V = math.Abs(v.V)
	return v, true
}

// trigonometry is sin, cos and tan.
func trigonometry(e *evaluator, n *node, args []Value) (Value, bool) {
	v := args[0]
	rad := v.V
	switch {
	case v.Loose:
		rad = v.V * math.Pi / 180
	case !v.isAngle():
		e.clash(n, "%s takes an angle, but %s is %s", n.word, e.told(n.args[0], v), v.kind()).
			Fix("give it an angle such as 14 deg; to get an angle from two lengths write atan(rise / run)")
		return Value{}, false
	}
	// Beyond a few turns nothing is furniture, and digits are lost.
	if math.Abs(rad) > 1e6 {
		e.wrong(n, "%s of %s is too large an angle", n.word, e.told(n.args[0], v))
		return Value{}, false
	}
	switch n.word {
	case "sin":
		return Count(math.Sin(rad)), true
	case "cos":
		return Count(math.Cos(rad)), true
	}
	if math.Abs(math.Cos(rad)) < 1e-12 {
		e.wrong(n, "tan has no value at %s", e.told(n.args[0], v))
		return Value{}, false
	}
	return Count(math.Tan(rad)), true
}

// inverse is asin, acos and atan.
func inverse(e *evaluator, n *node, args []Value) (Value, bool) {
	v := args[0]
	if v.Dim != plain {
		e.clash(n, "%s takes a ratio, but %s is %s", n.word, e.told(n.args[0], v), v.kind()).
			Fix("divide two lengths, as in atan(rise / run)")
		return Value{}, false
	}
	x := v.V
	if n.word == "atan" {
		return Radians(math.Atan(x), None), true
	}
	if math.Abs(x) > 1+noise {
		e.wrong(n, "%s takes a ratio from -1 to 1, but %s is outside", n.word, e.told(n.args[0], v)).
			Fix("divide the shorter length by the longer one")
		return Value{}, false
	}
	x = max(-1, min(1, x))
	if n.word == "asin" {
		return Radians(math.Asin(x), None), true
	}
	return Radians(math.Acos(x), None), true
}

func atan2(e *evaluator, n *node, args []Value) (Value, bool) {
	a, b, ok := e.alike(n, pair{n.args[0], n.args[1], args[0], args[1]}, "compare")
	if !ok {
		return Value{}, false
	}
	if a.V == 0 && b.V == 0 {
		e.wrong(n, "atan2 has no value when %s and %s are both 0", e.written(n.args[0]), e.written(n.args[1]))
		return Value{}, false
	}
	return Radians(math.Atan2(a.V, b.V), None), true
}

// told names a piece of a formula with its value: "seat_w = 21 in".
func (e *evaluator) told(n *node, v Value) string {
	text := v.Text(e.unit)
	if written := e.written(n); n.kind != nodeNumber && written != text {
		return fmt.Sprintf("%s = %s", written, text)
	}
	return text
}
