package assembly

import (
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
)

// sameAs is how far values may differ that are told to be the same: a tenth of a
// millimetre, or a twentieth of a degree.
var sameAs = map[expr.Dim]float64{{Length: 1}: 0.1, {Angle: 1}: 0.05 * math.Pi / 180}

// flatTol is how far in mm two sides under a straightedge may differ.
const flatTol = 0.1

// squareTol is how far in radians two sides in a square may be off.
const squareTol = 1e-4

// shows works out what a step measures, from the pieces as they stand. Values
// with a name are known in the texts of the step; the names are returned.
func (s *solver) shows(d *reading.Step, st *model.Step) (names []string) {
	v := s.viewOf(st)
	mates := map[string]*mating{}
	numbers := 0
	for _, sh := range d.Shows {
		from := len(st.Shows)
		list, ok := s.show(sh, v)
		if !ok {
			continue
		}
		st.Shows = append(st.Shows, list...)
		if len(list) > 1 {
			numbers++
			for i := range list {
				st.Shows[from+i].Mates = numbers
			}
		}
		if sh.Same.Given() && len(list) == 1 {
			if mates[sh.Same.Text] == nil {
				numbers++
				mates[sh.Same.Text] = &mating{number: numbers, word: sh.Same}
			}
			m := mates[sh.Same.Text]
			m.all = append(m.all, from)
			s.agree(st, m)
		}
		if sh.Name.Given() && s.freeName(sh.Name) {
			s.measured[sh.Name.Text] = list[0].Value
			names = append(names, sh.Name.Text)
		}
	}
	s.lonely(d, st, mates)
	return names
}

// A mating is shows that read the same.
type mating struct {
	number int
	word   reading.Word
	all    []int // indices into the step's Shows
	bad    bool  // told
}

// agree gives the newest mate the number of the others, and refuses it when it
// does not read what the first one reads.
func (s *solver) agree(st *model.Step, m *mating) {
	st.Shows[m.all[len(m.all)-1]].Mates = m.number
	a, b := st.Shows[m.all[0]], st.Shows[m.all[len(m.all)-1]]
	if m.bad || a.Value.Dim == b.Value.Dim && math.Abs(a.Value.V-b.Value.V) <= sameAs[a.Value.Dim] {
		return
	}
	m.bad = true
	s.problems.Errorf(m.word.At, "not-same", "%q is to be the same everywhere, but reads %s and %s", m.word.Text, a.Value.Text(s.opt.Unit), b.Value.Text(s.opt.Unit)).
		Fix("name points that lie alike on both sides, or take away same")
}

// lonely tells of a value that is the same as nothing.
func (s *solver) lonely(d *reading.Step, st *model.Step, mates map[string]*mating) {
	for _, sh := range d.Shows {
		m := mates[sh.Same.Text]
		if sh.Same.Given() && m != nil && len(m.all) == 1 && len(st.Shows) == len(d.Shows) {
			s.problems.Errorf(sh.Same.At, "not-same", "nothing else in this step is the same as %q", sh.Same.Text).Fix("give two measures the same word")
		}
	}
}

// freeName reports whether a name of a measure in a step is good and free.
func (s *solver) freeName(w reading.Word) bool {
	if !s.goodName(w.Text, w.At) {
		return false
	}
	_, number := s.numbers[w.Text]
	_, measured := s.measured[w.Text]
	if number || measured || s.parts[w.Text] != nil || s.groups[w.Text] != nil || s.stocks[w.Text] != nil {
		s.problems.Errorf(w.At, "name-twice", "%q is named twice", w.Text).Fix("give one of them another name")
		return false
	}
	return true
}

// show works out one entry; gaps of a whole row give one show each.
func (s *solver) show(d reading.Show, v benchView) ([]model.Show, bool) {
	if !d.From.Given() {
		s.problems.Errorf(d.At, "incomplete", "this measure does not say where it is taken").Fix(`write from = with a side or corner of a piece, as "leg left.top.front"`)
		return nil, false
	}
	a, ok := s.hold(d.From, v)
	if !ok {
		return nil, false
	}
	b := &hold{}
	alone := d.As.Text == "level" || d.As.Text == "plumb"
	switch {
	case alone && d.To.Given():
		s.problems.Errorf(d.To.At, "show", "a side is %s by itself, not to something else", d.As.Text).Fix("take to away")
		return nil, false
	case d.To.Given():
		if b, ok = s.hold(d.To, v); !ok {
			return nil, false
		}
	case !alone && d.As.Text != "gap":
		s.problems.Errorf(d.At, "incomplete", "this measure does not say where it ends").Fix(`write to = with another point, a side, or "floor"`)
		return nil, false
	}
	switch d.As.Text {
	case "gap":
		return s.showGap(a, b)
	case "level", "plumb":
		return s.showLean(d.As.Text, a)
	case "square":
		return s.showSquare(a, b)
	case "flat":
		return s.showFlat(a, b)
	}
	return s.showDistance(a, b)
}

// showDistance measures from a to b: straight between points, square to a side
// or the floor.
func (s *solver) showDistance(a, b *hold) ([]model.Show, bool) {
	if a.floor || !b.floor && b.named() > 1 && a.named() == 1 {
		a, b = b, a // the side or the floor is measured to
	}
	for _, h := range []*hold{a, b} {
		if !h.floor && h.named() == 0 {
			s.problems.Errorf(h.at, "show", "%q is a whole piece; a tape needs a point", h.text).Fix("name two or three of its sides, as %s, or one side to measure square to it", s.pointHint(h.p))
			return nil, false
		}
		if !h.floor && !s.onWood(h) {
			return nil, false
		}
	}
	sh := model.Show{Kind: model.ShowDistance, Pieces: [2]int{a.piece(), b.piece()}, A: a.point, B: b.point}
	if b.floor || b.named() == 1 {
		if a.named() == 1 && math.Abs(math.Abs(a.out.Dot(b.out))-1) > 1e-6 {
			s.problems.Errorf(a.at, "not-square", "%q and %q do not run along each other, so they have no one distance", a.text, b.text).Fix("name a point: two or three sides, as %s", s.pointHint(a.p))
			return nil, false
		}
		sh.B = a.point.Sub(b.out.Mul(a.point.Sub(b.point).Dot(b.out)))
	}
	mm := sh.B.Sub(sh.A).Len()
	if a.floor || mm < flatTol {
		s.problems.Errorf(a.at, "show", "there is nothing between %q and %q to measure", a.text, b.text)
		return nil, false
	}
	sh.Value = expr.Length(mm)
	sh.Text = s.opt.Unit.Length(mm, expr.Coarse)
	return []model.Show{sh}, true
}

// oneSide refuses a hold that is not a single side.
func (s *solver) oneSide(h *hold, why string) bool {
	if !h.floor && h.named() == 1 {
		return s.onWood(h)
	}
	bad := s.problems.Errorf(h.at, "show", "%q is not one side of a piece; %s", h.text, why)
	if h.p != nil {
		bad.Fix("name one of its sides, as %s.%s", h.p.decl.Key, h.p.names.Faces[1])
	}
	return false
}

// showLean reads how far a side is off level or plumb.
func (s *solver) showLean(as string, a *hold) ([]model.Show, bool) {
	if !s.oneSide(a, "a level is held against a side") {
		return nil, false
	}
	up := geom.V3{Z: 1}
	sh := model.Show{Pieces: [2]int{a.piece(), a.piece()}, A: a.point, B: a.point, Into: up, Out: a.out}
	// Along the side, as steep as it gets: nothing when the side is level.
	sh.Along = up.Sub(a.out.Mul(a.out.Z))
	if sh.Along.Len() < 1e-9 {
		sh.Along = s.plan.Placed[a.piece()].Pose.Along
	}
	sh.Along = sh.Along.Unit()
	off := math.Asin(math.Min(1, math.Abs(a.out.Z)))
	zero, text := expr.Plumb, " from plumb"
	sh.Kind = model.ShowPlumb
	if as == "level" {
		sh.Kind = model.ShowLevel
		off, zero, text = math.Pi/2-off, expr.Level, " from level"
		if flat := (geom.V3{X: sh.Along.X, Y: sh.Along.Y}); flat.Len() > 1e-9 {
			sh.Into = flat.Unit()
		} else {
			sh.Into = a.out // an upright side; level is a right angle away
		}
	}
	sh.Value = expr.Radians(off, zero)
	if sh.Text = expr.Angle(off, 0.5) + text; math.Abs(off) < sameAs[expr.Dim{Angle: 1}] {
		sh.Text = as
	}
	return []model.Show{sh}, true
}

// showSquare proves that two sides stand at right angles and finds the corner
// where a square is held.
func (s *solver) showSquare(a, b *hold) ([]model.Show, bool) {
	if !s.oneSide(a, "a square is held between two sides") || !s.oneSide(b, "a square is held between two sides") {
		return nil, false
	}
	if off := math.Asin(math.Abs(a.out.Dot(b.out))); off > squareTol {
		s.problems.Errorf(a.at, "not-square", "%q is %s off square to %q", a.text, expr.Angle(off, 0.1), b.text).Fix("name two sides that stand at right angles")
		return nil, false
	}
	// On both planes, and along them where the two pieces are both near.
	at := a.point.Sub(b.out.Mul(a.point.Sub(b.point).Dot(b.out)))
	axis := a.out.Cross(b.out)
	lo, hi := s.shared(a.piece(), b.piece(), axis)
	at = at.Add(axis.Mul((lo+hi)/2 - at.Dot(axis)))
	return []model.Show{{Kind: model.ShowSquare, Pieces: [2]int{a.piece(), b.piece()}, A: at, B: at, Along: a.out, Into: b.out, Text: "square"}}, true
}

// shared is the stretch along an axis where two pieces both are, or what lies
// between them.
func (s *solver) shared(i, k int, axis geom.V3) (lo, hi float64) {
	lo, hi = reachOf(s.plan.Placed[i].Solid, axis)
	lo2, hi2 := reachOf(s.plan.Placed[k].Solid, axis)
	return max(lo, lo2), min(hi, hi2)
}

// reachOf is how far a solid extends along an axis.
func reachOf(solid *geom.Solid, axis geom.V3) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, f := range solid.Faces {
		for _, p := range f.Loops[0] {
			lo, hi = min(lo, p.Dot(axis)), max(hi, p.Dot(axis))
		}
	}
	return lo, hi
}
