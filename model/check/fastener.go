package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// isScrew reports whether f holds by its thread in wood.
func isScrew(f model.Fastener) bool {
	return f.Hardware.Kind == model.WoodScrew || f.Hardware.Kind == model.PocketScrew
}

// ahead is how much wood lies in front of p along d in a piece: from p to where
// the line leaves it.
func ahead(s *geom.Solid, p, d geom.V3) float64 {
	best := math.Inf(1)
	for _, f := range s.Faces {
		run := d.Dot(f.N)
		if run < 1e-9 {
			continue
		}
		if t := f.Loops[0][0].Sub(p).Dot(f.N) / run; t > -1 && t < best && onFace(f, p.Add(d.Mul(t))) {
			best = t
		}
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

// onFace reports whether a point of a face's plane lies within the face.
func onFace(f geom.Face, p geom.V3) bool {
	turn := 0.0
	for _, loop := range f.Loops {
		for i, a := range loop {
			u, v := a.Sub(p), loop[(i+1)%len(loop)].Sub(p)
			turn += math.Atan2(u.Cross(v).Dot(f.N), u.Dot(v))
		}
	}
	return turn > math.Pi
}

// worst keeps, for each pair of parts, the finding with the smallest margin, so
// that a row of screws makes one finding.
type worst struct {
	order []string
	by    map[string]Finding
}

func (w *worst) add(f Finding) {
	if w.by == nil {
		w.by = map[string]Finding{}
	}
	key := fmt.Sprint(f.Severity, f.Parts)
	old, ok := w.by[key]
	if !ok {
		w.order = append(w.order, key)
	}
	if !ok || f.Value < old.Value {
		w.by[key] = f
	}
}

func (w *worst) list() []Finding {
	var out []Finding
	for _, k := range w.order {
		out = append(out, w.by[k])
	}
	return out
}

// pairOf are the letters of the two parts a fastener joins.
func (s *shop) pairOf(f model.Fastener) []string {
	return []string{s.Placed[f.Pieces[0]].Part.Code, s.Placed[f.Pieces[1]].Part.Code}
}
