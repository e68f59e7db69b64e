package marks

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// rocking is the name of the value that says how far a foot hangs free.
const rocking = "rock"

// near is how well a face must agree with a value to be what it measures:
// radians, and millimetres times a hundred.
const near = 1e-6

// A watch is a value with the faces of the piece that show it.
type watch struct {
	Value
	zero  expr.Zero
	level bool // of level faces: which way they tip front to rear counts
	spots []spot
}

// spot is one face that shows a value, or one corner at a height.
type spot struct {
	piece, face int
	n, at       geom.V3
	weight      float64
}

// watched is the values to follow: the critical ones, the seat's slope, the
// arms' level, and rocking. Critical values that no piece shows are returned by
// name.
func watched(f *frame) (out []watch, unread []string) {
	for _, c := range f.plan.Critical {
		w, ok := f.follow(c.Name, c.Value)
		if !ok {
			unread = append(unread, c.Name)
			continue
		}
		w.Limit = c.Within
		if w.Angle {
			w.Limit = c.Within * 180 / math.Pi
		}
		out = append(out, w)
	}
	if v, ok := measureOf(f.plan, "seat_slope"); ok && !named(out, "seat_slope") {
		if w, ok := f.follow("seat_slope", v); ok {
			out = append(out, w)
		}
	}
	if w, ok := f.arms(); ok {
		out = append(out, w)
	}
	if len(f.feet) > 0 {
		out = append(out, watch{Value: Value{Name: rocking, Title: "rocking"}})
	}
	return out, unread
}

func measureOf(p *model.Plan, name string) (expr.Value, bool) {
	for _, m := range p.Measures {
		if m.Name == name {
			return m.Value, true
		}
	}
	return expr.Value{}, false
}

func named(list []watch, name string) bool {
	for _, w := range list {
		if w.Name == name {
			return true
		}
	}
	return false
}

// follow finds the faces that show a value: those that lean as much, of the
// part that has most of them, or the corners at that height.
func (f *frame) follow(name string, v expr.Value) (watch, bool) {
	w := watch{Value: Value{Name: name, Title: "the " + model.Spoken(name), Now: v.V}, zero: v.Zero}
	switch {
	case v.Dim == (expr.Dim{Angle: 1}) && (v.Zero == expr.Plumb || v.Zero == expr.Level):
		w.Angle, w.Now = true, v.V*180/math.Pi
		w.spots = f.leaning(v)
	case v.Dim == (expr.Dim{Length: 1}):
		w.spots = f.high(v.V)
	}
	return w, len(w.spots) > 0
}

// leaning is the wide faces at an angle from plumb or level, of the one part
// whose faces there are widest together.
func (f *frame) leaning(v expr.Value) []spot {
	byPart := map[string][]spot{}
	area := map[string]float64{}
	best := ""
	for _, key := range f.keys() {
		for _, i := range f.piecesOf(key) {
			for k, face := range f.placed[i].Solid.Faces {
				if face.Kind != geom.Flat || math.Abs(leanOf(face.N, v.Zero)-v.V) > near {
					continue
				}
				a := face.Area()
				byPart[key] = append(byPart[key], spot{i, k, face.N, face.Loops[0][0], a})
				area[key] += a
			}
		}
		if area[key] > area[best]+1e-6 {
			best = key
		}
	}
	return byPart[best]
}

// leanOf is the angle of a face from plumb or from level.
func leanOf(n geom.V3, zero expr.Zero) float64 {
	if zero == expr.Plumb {
		return math.Asin(math.Min(1, math.Abs(n.Z)))
	}
	return math.Acos(math.Min(1, math.Abs(n.Z)))
}

// high is the corners at a height above the floor.
func (f *frame) high(mm float64) []spot {
	var out []spot
	for i, p := range f.placed {
		for k, face := range p.Solid.Faces {
			for _, v := range face.Loops[0] {
				if face.N.Z > 0.5 && math.Abs(v.Z-mm) < 100*near {
					out = append(out, spot{i, k, face.N, v, 1})
				}
			}
		}
	}
	return out
}

// arms is the level upper faces of what the plan calls an arm.
func (f *frame) arms() (watch, bool) {
	w := watch{Value: Value{Name: "arm_level", Title: "the level of the arms", Angle: true}, level: true}
	for i, p := range f.placed {
		words := strings.FieldsFunc(strings.ToLower(p.Part.Key+" "+p.Part.Name), func(r rune) bool { return r == '_' || r == ' ' })
		if len(words) == 0 || words[len(words)-1] != "arm" && words[len(words)-1] != "armrest" {
			continue
		}
		for k, face := range p.Solid.Faces {
			if face.Kind == geom.Flat && face.N.Z > near1 {
				w.spots = append(w.spots, spot{i, k, face.N, face.Loops[0][0], face.Area()})
			}
		}
	}
	return w, len(w.spots) > 0
}

// read returns how much a field changes the value, standing on the ground.
func (w watch) read(d field, g ground) float64 {
	if w.Name == rocking {
		return g.rock
	}
	sum, weight := 0.0, 0.0
	for _, s := range w.spots {
		sum += s.weight * w.change(s, d, g)
		weight += s.weight
	}
	return sum / weight
}

// change is what one face or corner tells: degrees or millimetres.
func (w watch) change(s spot, d field, g ground) float64 {
	t := d.pieces[s.piece]
	if !w.Angle {
		return t.at(s.at).Z - g.under(s.at) + s.n.Z*d.shift(s.piece, s.face, s.at)
	}
	turn := t.turn.Sub(g.turn)
	if w.level {
		return turn.X * 180 / math.Pi
	}
	rise := turn.Cross(s.n).Z
	if s.n.Z < 0 {
		rise = -rise
	}
	now := w.Now * math.Pi / 180
	if w.zero == expr.Plumb {
		return rise / math.Cos(now) * 180 / math.Pi
	}
	if math.Abs(math.Sin(now)) < near {
		return turn.X * 180 / math.Pi
	}
	return -rise / math.Sin(now) * 180 / math.Pi
}

// both reads all values with the error one way and the other and returns the
// greater change of each, with the sign it has for a positive error: feet stand
// on their other corners when they tip the other way.
func (f *frame) both(list []watch, d field) []float64 {
	minus := d.times(-1)
	gp, gm := f.stance.rest(d.lift), f.stance.rest(minus.lift)
	out := make([]float64, len(list))
	for k, w := range list {
		p, m := w.read(d, gp), w.read(minus, gm)
		switch {
		case w.Name == rocking:
			out[k] = math.Max(p, m)
		case math.Abs(m) > math.Abs(p):
			out[k] = -m
		default:
			out[k] = p
		}
	}
	return out
}
