package assembly

import (
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// number is one name of [size], [count] or [derive].
type number struct {
	name  string
	kind  model.MeasureKind
	decl  reading.Named
	unit  expr.Unit // of its bare numbers
	value expr.Value
}

// readNumbers gathers the names, lays the overrides of the variant and of the
// unit system over them, and refuses names the file does not know.
func (s *solver) readNumbers(v *reading.Variant) {
	s.addNumbers(s.d.Sizes, model.SizeMeasure)
	s.addNumbers(s.d.Counts, model.CountMeasure)
	s.addNumbers(s.d.Derived, model.DerivedMeasure)
	s.override(s.d.Systems[s.opt.Unit], s.opt.Unit)
	if v != nil {
		s.override(v.Numbers, s.d.Unit)
		s.override(v.Systems[s.opt.Unit], s.opt.Unit)
	}
}

func (s *solver) addNumbers(list []reading.Named, kind model.MeasureKind) {
	for _, n := range list {
		if !s.goodName(n.Name, n.At) {
			continue
		}
		if old, ok := s.numbers[n.Name]; ok {
			s.problems.Errorf(n.At, "name-twice", "%q is named twice", n.Name).Note(old.decl.At, "here first").Fix("give one of them another name")
			continue
		}
		s.numbers[n.Name] = &number{name: n.Name, kind: kind, decl: n, unit: s.d.Unit}
		s.order = append(s.order, n.Name)
	}
}

func (s *solver) override(o reading.Override, unit expr.Unit) {
	for kind, list := range [][]reading.Named{o.Sizes, o.Counts, o.Derived} {
		for _, n := range list {
			old, ok := s.numbers[n.Name]
			if !ok || old.kind != model.MeasureKind(kind) {
				s.problems.Errorf(n.At, "unknown-name", "there is no %q in [%s] to change", n.Name, [...]string{"size", "count", "derive"}[kind]).
					Suggest(n.Name, s.order)
				continue
			}
			old.decl.Is, old.unit = n.Is, unit
		}
	}
}

// wordForm reports whether a formula can read name as one word.
func wordForm(name string) bool {
	return name != "" && !strings.ContainsFunc(name, func(r rune) bool {
		return !(r == '_' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9')
	})
}

// goodName refuses names a formula could not speak of.
func (s *solver) goodName(name string, at source.Span) bool {
	if !wordForm(name) || name[0] >= '0' && name[0] <= '9' {
		s.problems.Errorf(at, "name", "%q cannot be a name", name).Fix("use letters, digits and _, starting with a letter")
		return false
	}
	if expr.Reserved(name) || name == "rank" || name == "floor" || name == "length" || name == "width" || name == "thick" {
		s.problems.Errorf(at, "name", "%q means something of its own in formulas", name).Fix("choose another name")
		return false
	}
	return true
}

// numberValue works out a name of [size], [count] or [derive].
func (s *solver) numberValue(name string, at source.Span) (expr.Value, bool) {
	n := s.numbers[name]
	ok := s.once(name, at, func() bool {
		if !n.decl.Is.Given() {
			return false
		}
		v, ok := n.decl.Is.F.Eval(n.unit, &scope{s: s}, s.problems)
		if !ok {
			return false
		}
		if !s.settle(n, v) {
			return false
		}
		if tried, given := s.opt.Sizes[name]; given {
			n.value.V = tried
		}
		return true
	})
	if !ok {
		return expr.Value{}, false
	}
	return n.value, true
}

// settle gives a bare number the file's unit, and an angle its zero by its name.
func (s *solver) settle(n *number, v expr.Value) bool {
	if n.kind != model.CountMeasure && v.Loose {
		mm, bad := v.AsLength(n.unit)
		if bad != nil {
			bad.Report(s.problems, n.decl.Is.At)
			return false
		}
		v = expr.Length(mm)
	}
	if n.kind == model.SizeMeasure && v.Dim != (expr.Dim{Length: 1}) && v.Dim != (expr.Dim{Angle: 1}) && v.Dim != (expr.Dim{}) {
		s.problems.Errorf(n.decl.Is.At, "size", "%q is %s, but a size is a length or an angle", n.name, v.Dim).Fix("put it under [derive]")
		return false
	}
	if n.kind == model.CountMeasure {
		c, bad := v.AsNumber(n.unit)
		if bad != nil {
			bad.Report(s.problems, n.decl.Is.At)
			return false
		}
		if c != float64(int(c)) || c < 0 || c > 1000 {
			s.problems.Errorf(n.decl.Is.At, "count", "%q is %g; a count is a whole number from 0 to 1000", n.name, c)
			return false
		}
		v = expr.Count(c)
	}
	if v.Dim == (expr.Dim{Angle: 1}) {
		z, named := expr.ZeroOfName(n.name)
		if !named && n.kind == model.SizeMeasure {
			s.problems.Errorf(n.decl.At, "angle-zero", "%q is an angle, and its name does not say from where it is measured", n.name).
				Fix("end the name in slope or fall (from level), lean, recline, plumb or splay (from plumb), miter or bevel (off square), or turn, step, taper (a difference)")
			return false
		}
		if named && v.Zero == 0 {
			v.Zero = z
		}
	}
	n.value = v
	return true
}
