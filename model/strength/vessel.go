package strength

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// A Vessel is a space in a piece that is open above, closed round about and has a
// floor: what a planter is filled in.
type Vessel struct {
	Floor  []int     // indices of the pieces that are its floor
	Center geom.V3   // the middle of what fills it to the rim
	Ring   []geom.V3 // its walls just above the floor, anticlockwise seen from above
	Deep   float64   // floor to rim, mm
	Volume float64   // mm³, to the rim
	Long   float64   // the longer way of its floor, mm
}

// WetSoil is the mass of a litre of potting soil that can take no more water, kg;
// from memory.
const WetSoil = 1.6

// Mass is what it holds when it is full of wet soil, kg.
func (v Vessel) Mass() float64 { return v.Volume / 1e6 * WetSoil }

const (
	looks      = 360  // rays round a point
	floorFall  = 0.94 // the cosine of 20 degrees: a floor
	overFloor  = 5.0  // mm above a floor from where walls are looked for
	shallowest = 20.0 // mm: less is a dish in a top
	levels     = 8    // heights at which the space is measured
)

// Vessels finds the spaces of a plan that hold what is put in, the first floor
// piece of each telling it.
func Vessels(p *model.Plan) []Vessel {
	var out []Vessel
	taken := map[int]bool{}
	for i, q := range p.Placed {
		for _, f := range q.Solid.Faces {
			if taken[i] || f.N.Z < floorFall || f.Kind == geom.Hollow || f.Kind == geom.End {
				continue
			}
			if v, ok := vessel(p, f); ok {
				out = append(out, v)
				for _, k := range v.Floor {
					taken[k] = true
				}
			}
		}
	}
	return out
}

// vessel looks round and up from the middle of a face.
func vessel(p *model.Plan, f geom.Face) (v Vessel, ok bool) {
	mid := geom.V3{}
	for _, c := range f.Loops[0] {
		mid = mid.Add(c.Mul(1 / float64(len(f.Loops[0]))))
	}
	at := mid.Add(geom.V3{Z: overFloor})
	// From just under the face: what lies on it covers it too.
	if _, covered := strikes(p, mid.Sub(geom.V3{Z: touching}), geom.V3{Z: 1}); covered {
		return v, false
	}
	ring, closed := walls(p, at)
	if !closed {
		return v, false
	}
	v.Ring, v.Deep = ring, rim(p, at, ring)+overFloor
	if v.Deep < shallowest {
		return v, false
	}
	v.fill(p, mid)
	v.findFloor(p, mid.Z)
	return v, true
}

// highest is the highest rim that is looked for, mm.
const highest = 2000.0

// rim is how far above a point the walls still close.
func rim(p *model.Plan, at geom.V3, ring []geom.V3) float64 {
	low := highest
	for k := range looks / 8 {
		w := ring[k*8].Sub(at)
		closed := func(up float64) bool {
			t, hit := strikes(p, at.Add(geom.V3{Z: up}), w.Unit())
			return hit && t < 2*w.Len()+up
		}
		if closed(low - rimTol) {
			continue
		}
		from, to := 0.0, low
		for to-from > rimTol {
			if m := (from + to) / 2; closed(m) {
				from = m
			} else {
				to = m
			}
		}
		low = to
	}
	return low
}

// rimTol is how nearly the height of a rim is found, mm.
const rimTol = 0.1

// fill measures the space from its floor to its rim, level by level.
func (v *Vessel) fill(p *model.Plan, mid geom.V3) {
	step := v.Deep / levels
	var sum geom.V3
	for k := range levels {
		at := mid.Add(geom.V3{Z: (float64(k) + 0.5) * step})
		ring, closed := walls(p, at)
		if !closed {
			continue
		}
		area, c := 0.0, geom.V3{}
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			part := a.Sub(at).Cross(b.Sub(at)).Z / 2
			area += part
			c = c.Add(at.Add(a).Add(b).Mul(part / 3))
		}
		v.Volume += area * step
		sum = sum.Add(c.Mul(step))
	}
	if v.Volume > 0 {
		v.Center = sum.Mul(1 / v.Volume)
	}
}

// findFloor finds the pieces that look up inside the walls at a height, and how
// long the floor is along the first of them or across it.
func (v *Vessel) findFloor(p *model.Plan, z float64) {
	for i, q := range p.Placed {
		for _, f := range q.Solid.Faces {
			mid := geom.V3{}
			for _, c := range f.Loops[0] {
				mid = mid.Add(c.Mul(1 / float64(len(f.Loops[0]))))
			}
			level := math.Abs(mid.Z-z) < 3*shallowest && f.N.Z >= floorFall && f.Kind != geom.Hollow
			if level && v.Has(mid) {
				v.Floor = appendOnce(v.Floor, i)
			}
		}
	}
	if len(v.Floor) == 0 {
		return
	}
	pose := p.Placed[v.Floor[0]].Pose
	for _, dir := range []geom.V3{pose.Along, pose.Across, pose.Thick} {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range v.Ring {
			lo, hi = math.Min(lo, c.Dot(dir)), math.Max(hi, c.Dot(dir))
		}
		v.Long = math.Max(v.Long, hi-lo)
	}
}

// appendOnce adds an index that is not the last already.
func appendOnce(list []int, i int) []int {
	if len(list) > 0 && list[len(list)-1] == i {
		return list
	}
	return append(list, i)
}

// Has reports whether a point lies inside the walls, seen from above.
func (v Vessel) Has(at geom.V3) bool {
	turn := 0.0
	for i, a := range v.Ring {
		b := v.Ring[(i+1)%len(v.Ring)]
		p, q := geom.Pt{X: a.X - at.X, Y: a.Y - at.Y}, geom.Pt{X: b.X - at.X, Y: b.Y - at.Y}
		turn += math.Atan2(p.Cross(q), p.Dot(q))
	}
	return turn > math.Pi
}

// walls is where level rays round a point strike wood; not closed when one
// escapes.
func walls(p *model.Plan, at geom.V3) (ring []geom.V3, closed bool) {
	for k := range looks {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / looks)
		dir := geom.V3{X: cos, Y: sin}
		t, hit := strikes(p, at, dir)
		if !hit {
			return nil, false
		}
		ring = append(ring, at.Add(dir.Mul(t)))
	}
	return ring, true
}

// strikes is how far a ray goes until it enters wood.
func strikes(p *model.Plan, at, dir geom.V3) (least float64, hit bool) {
	least = math.Inf(1)
	for _, q := range p.Placed {
		for _, f := range q.Solid.Faces {
			run := dir.Dot(f.N)
			if run > -1e-9 {
				continue
			}
			t := f.Loops[0][0].Sub(at).Dot(f.N) / run
			if t > 0 && t < least && covers(f, at.Add(dir.Mul(t))) {
				least, hit = t, true
			}
		}
	}
	return least, hit
}

// covers reports whether a point of a face's plane lies in the face.
func covers(f geom.Face, at geom.V3) bool {
	turn := 0.0
	for _, loop := range f.Loops {
		for i, a := range loop {
			u, v := a.Sub(at), loop[(i+1)%len(loop)].Sub(at)
			turn += math.Atan2(u.Cross(v).Dot(f.N), u.Dot(v))
		}
	}
	return turn > math.Pi
}
