package strength

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// A Swell is how much a part's width changes between the dry and the damp season.
type Swell struct {
	Part    *model.Part
	Width   float64
	Change  float64 // mm, of a flat-sawn board: the greatest it can be
	Quarter float64 // mm, of a quarter-sawn one
}

// change returns how much a width in mm grows from the dry to the damp climate
// for a coefficient and the shrinkage it came from.
func change(width, c, shrinkage float64, l Loads) float64 {
	dry, damp := l.Dry.EMC(), l.Damp.EMC()
	// Eq. 13-2 is made for 6 to 14 %, Eq. 13-3 goes beyond.
	if damp > 14 || dry < 6 {
		return wood.WideMovement(width, shrinkage, dry, damp)
	}
	return wood.Movement(width, c, dry, damp)
}

// Swells returns the seasonal movement of every part's width.
func Swells(p *model.Plan, l Loads) []Swell {
	var out []Swell
	for _, q := range p.Parts {
		w := species(q)
		out = append(out, Swell{Part: q, Width: q.Width, Change: change(q.Width, w.CT, w.Tangential, l), Quarter: change(q.Width, w.CR, w.Radial, l)})
	}
	return out
}

// A Gap is the least gap between two neighbours of one part, made to the plan
// and after both have swollen.
type Gap struct {
	Parts []string // codes of both
	Made  float64  // mm
	Left  float64  // mm when a board made dry is damp; negative when they push
}

// neighbours is how wide a gap may be and still be one between neighbours, mm.
const neighbours = 60

// Gaps returns the gap between each two boards of one part that lie side by side
// in a plane, the least gap of each two codes.
func Gaps(p *model.Plan, l Loads) []Gap {
	var out []Gap
	at := map[[2]string]int{}
	for i, a := range p.Placed {
		for _, b := range p.Placed[:i] {
			made, ok := between(a, b)
			if !ok {
				continue
			}
			left := made - swell(a, l)/2 - swell(b, l)/2
			key := [2]string{min(a.Part.Code, b.Part.Code), max(a.Part.Code, b.Part.Code)}
			k, seen := at[key]
			if !seen {
				at[key] = len(out)
				out = append(out, Gap{Parts: key[:], Made: made, Left: left})
			} else if left < out[k].Left {
				out[k].Made, out[k].Left = made, left
			}
		}
	}
	return out
}

func swell(p *model.Placed, l Loads) float64 {
	w := species(p.Part)
	return change(p.Part.Width, w.CT, w.Tangential, l)
}

// between returns the least distance between two boards of one key lying side by
// side: faces in one plane, neither beyond the other's end.
func between(a, b *model.Placed) (float64, bool) {
	if a.Part.Key != b.Part.Key || math.Abs(a.Pose.Thick.Dot(b.Pose.Thick)) < 1-1e-6 || math.Abs(a.Pose.Along.Dot(b.Pose.Along)) < 0.7 {
		return 0, false
	}
	way := a.Pose.LocalDir(b.Center.Sub(a.Center))
	reach := (a.Part.Width+b.Part.Width)/2 + neighbours
	if math.Abs(way.Z) > a.Part.Thick/2 || math.Abs(way.Y) < 1 || math.Abs(way.Y) > reach || math.Abs(way.X) > a.Part.Length/2 {
		return 0, false
	}
	pa, pb := flat(a, a.Pose), flat(b, a.Pose)
	least := math.Min(nearest(pa, pb), nearest(pb, pa))
	return least, least < neighbours
}

// chord is how finely outlines are followed where gaps are measured, mm.
const chord = 0.2

// flat is a piece's outline in the plane of a pose.
func flat(p *model.Placed, pose geom.Pose) []geom.Pt {
	var out []geom.Pt
	for _, v := range p.Part.Board.Outline.Flatten(chord) {
		q := pose.Local(p.Pose.Point(geom.V3{X: v.X, Y: v.Y}))
		out = append(out, geom.Pt{X: q.X, Y: q.Y})
	}
	return out
}

// nearest is the least distance from a corner of one outline to a side of the other.
func nearest(corners, sides []geom.Pt) float64 {
	least := math.Inf(1)
	for _, p := range corners {
		for i, a := range sides {
			d := sides[(i+1)%len(sides)].Sub(a)
			t := 0.0
			if dd := d.Dot(d); dd > 0 {
				t = math.Max(0, math.Min(1, p.Sub(a).Dot(d)/dd))
			}
			least = math.Min(least, p.Sub(a.Add(d.Mul(t))).Len())
		}
	}
	return least
}

// A Restraint is a board held across its grain by fasteners that do not move
// with it: Change is what the wood wants to move between them.
type Restraint struct {
	Part, On *model.Part
	Joint    *model.Joint
	Apart    float64 // mm between the outermost fasteners, across the grain
	Change   float64 // mm
}

// Restraints returns, for each joint and pair of parts, the widest place where a
// board is held across the grain.
func Restraints(p *model.Plan, l Loads) []Restraint {
	var out []Restraint
	at := map[[2]*model.Part]int{}
	for _, j := range p.Joints {
		clear(at)
		for _, pair := range pairsOf(j) {
			for _, side := range [2][2]int{{pair[0], pair[1]}, {pair[1], pair[0]}} {
				r := restrained(j, p.Placed[side[0]], p.Placed[side[1]], l)
				if r.Change < nothing {
					continue
				}
				key := [2]*model.Part{r.Part, r.On}
				k, seen := at[key]
				if !seen {
					at[key] = len(out)
					out = append(out, r)
				} else if r.Change > out[k].Change {
					out[k] = r
				}
			}
		}
	}
	return out
}

// nothing is less than wood is ever seen to move, mm.
const nothing = 0.05

// pairsOf is the pairs of pieces a joint holds, each once, in order.
func pairsOf(j *model.Joint) [][2]int {
	var out [][2]int
	seen := map[[2]int]bool{}
	for _, f := range j.Fasteners {
		if !seen[f.Pieces] {
			seen[f.Pieces] = true
			out = append(out, f.Pieces)
		}
	}
	return out
}

// restrained measures how much a moves against b between their fasteners.
func restrained(j *model.Joint, a, b *model.Placed, l Loads) Restraint {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range j.Fasteners {
		if f.Pieces != [2]int{a.Index, b.Index} && f.Pieces != [2]int{b.Index, a.Index} {
			continue
		}
		y := a.Pose.Local(f.Head).Y
		lo, hi = math.Min(lo, y), math.Max(hi, y)
	}
	r := Restraint{Part: a.Part, On: b.Part, Joint: j, Apart: hi - lo}
	wa, wb := species(a.Part), species(b.Part)
	across, thick := a.Pose.Across.Dot(b.Pose.Across), a.Pose.Across.Dot(b.Pose.Thick)
	own := change(r.Apart, wa.CT, wa.Tangential, l)
	other := change(r.Apart, wb.CT, wb.Tangential, l)*across*across + change(r.Apart, wb.CR, wb.Radial, l)*thick*thick
	r.Change = own - other
	return r
}
