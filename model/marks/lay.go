package marks

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// enough is how many single errors are followed one by one. In a plan with more,
// all pieces of a part err alike only.
const enough = 600

// layMarks finds every mark: holes, sawn faces, and where parts are set.
func (f *frame) layMarks() {
	for _, key := range f.keys() {
		pieces := f.piecesOf(key)
		f.holeMarks(pieces)
		f.faceMarks(pieces)
	}
	f.setMarks()
	n := 0
	for _, r := range f.rows {
		n += len(r.slips)
	}
	if n > enough {
		f.alikeOnly()
	}
}

// alikeOnly makes one slip of all slips of a row.
func (f *frame) alikeOnly() {
	var all []slip
	for i := range f.rows {
		var one slip
		for _, s := range f.rows[i].slips {
			one = append(one, f.slips[s]...)
		}
		f.rows[i].slips = []int{len(all)}
		all = append(all, one)
	}
	f.slips = all
}

// keys is the placed parts in the order of the plan, a family once.
func (f *frame) keys() []string {
	var out []string
	seen := map[string]bool{}
	for _, p := range f.placed {
		seen[p.Part.Key] = false
	}
	for _, p := range f.plan.Parts {
		if done, placed := seen[p.Key]; placed && !done {
			seen[p.Key] = true
			out = append(out, p.Key)
		}
	}
	return out
}

func (f *frame) piecesOf(key string) []int {
	var out []int
	for i, p := range f.placed {
		if p.Part.Key == key {
			out = append(out, i)
		}
	}
	return out
}

// codes is the letters of the parts of some pieces, each once.
func (f *frame) codes(pieces []int) []string {
	var out []string
	seen := map[string]bool{}
	for _, i := range pieces {
		c := f.placed[i].Part.Code
		if !seen[c] {
			seen[c] = true
			out = append(out, c)
		}
	}
	return out
}

// row enters a mark with one slip for each piece; those that do nothing to any
// tie or foot are left to come out as harmless. What it is called goes to people:
// the names an author gives holes and sides lose their underscores here.
func (f *frame) row(r Row, offs []off) {
	r.What = model.Spoken(r.What)
	for _, o := range offs {
		r.slips = append(r.slips, len(f.slips))
		f.slips = append(f.slips, slip{o})
	}
	if len(offs) > 0 {
		f.rows = append(f.rows, r)
	}
}

// holeMarks are the bolt holes that are laid out, each along and across.
func (f *frame) holeMarks(pieces []int) {
	for _, name := range f.boltHoles(pieces) {
		for k, way := range []string{"along", "across"} {
			r := Row{Part: f.placed[pieces[0]].Part, Parts: f.codes(pieces), Hole: name, What: name + " bolt hole, " + way}
			var offs []off
			for _, i := range pieces {
				p := f.placed[i]
				h, ok := holeNamed(p.Part, name)
				if !ok {
					continue
				}
				dir := [2]geom.V3{p.Pose.Along, p.Pose.Across}[k]
				for _, o := range f.through(i, h) {
					o.dir = dir
					offs = append(offs, o)
					if code, ok := f.drilledThrough(i, h, o); ok {
						r.Matched = true
						r.Harmless = "part " + code + " is drilled through it, so that only where " + code + " is set counts"
					}
				}
			}
			f.row(r, offs)
		}
	}
}

// boltHoles is the names of the laid-out bolt holes of some pieces.
func (f *frame) boltHoles(pieces []int) []string {
	var out []string
	seen := map[string]bool{}
	for _, i := range pieces {
		for _, h := range f.placed[i].Part.Holes {
			if h.Kind == model.BoltHole && !h.Matched && h.Into == "face" && !seen[h.Name] {
				seen[h.Name] = true
				out = append(out, h.Name)
			}
		}
	}
	return out
}

func holeNamed(p *model.Part, name string) (model.Hole, bool) {
	for _, h := range p.Holes {
		if h.Name == name && h.Kind == model.BoltHole {
			return h, true
		}
	}
	return model.Hole{}, false
}

// coaxial is how far a fastener may be off the axis of its hole, mm.
const coaxial = 0.5

// through finds the fasteners through a hole of a piece, gathered by joint.
func (f *frame) through(piece int, h model.Hole) []off {
	p := f.placed[piece].Pose
	mouth, axis := p.Point(h.InPart), p.Dir(h.Dir)
	var out []off
	for k, j := range f.plan.Joints {
		fast := map[int]int{}
		for i, s := range j.Fasteners {
			if (s.Pieces[0] == piece || s.Pieces[1] == piece) && s.Head.Sub(mouth).Cross(axis).Len() < coaxial {
				fast[i] = i
			}
		}
		if len(fast) > 0 {
			out = append(out, off{kind: holeSlip, piece: piece, joint: k, fast: fast})
		}
	}
	return out
}

// drilledThrough returns the part whose hole is drilled through this one.
func (f *frame) drilledThrough(piece int, h model.Hole, o off) (code string, ok bool) {
	mouth, axis := f.placed[piece].Pose.Point(h.InPart), f.placed[piece].Pose.Dir(h.Dir)
	for i, s := range f.plan.Joints[o.joint].Fasteners {
		if _, in := o.fast[i]; !in {
			continue
		}
		other := f.placed[s.Pieces[0]+s.Pieces[1]-piece]
		for _, g := range other.Part.Holes {
			if g.Matched && other.Pose.Point(g.InPart).Sub(mouth).Cross(axis).Len() < coaxial {
				return other.Part.Code, true
			}
		}
	}
	return "", false
}

// near1 is the cosine above which a face is square to a direction.
const near1 = 1 - 1e-6

// squareTo returns which direction of its board a face is square to: 0 along, 1
// across, 2 thick; -1 when it was cut at an angle; and on which side it is.
func squareTo(n geom.V3) (axis, side int) {
	for k, c := range [3]float64{n.X, n.Y, n.Z} {
		if math.Abs(c) > near1 {
			if c > 0 {
				side = 1
			}
			return k, side
		}
	}
	return -1, 0
}
