package assembly

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/wood"
)

// bolt sizes the bolts of a joint: head on the first part, nut on the second.
func (j *join) bolt() bool {
	g := j.goods
	grip := 0.0
	for _, sp := range j.spots {
		grip = math.Max(grip, sp.held+sp.hold)
	}
	length, sum, ok := wood.BoltLength(g.bought.Size.Text, grip, g.fit())
	if !ok && g.length == 0 {
		j.tooShort(j.d.At, sum)
		return false
	}
	if !j.ownDrill() {
		return false
	}
	if g.length > 0 {
		length = g.length
	}
	j.out.Kind, j.out.Each = "bolted", len(j.d.Holes)
	j.open(length, sum)
	j.out.With = j.s.with(g)
	j.out.Clear = g.bolt.Hole
	for _, sp := range j.spots {
		j.add(sp, sp.at.Sub(sp.dir.Mul(sp.held)), sp.dir, length, sp.held+sp.hold)
		for _, h := range j.out.With {
			h.Quantity++
		}
		j.matchedHole(sp)
	}
	first := j.spots[0]
	nut := first.b.Pose.LocalDir(first.dir)
	j.out.NutSide = first.b.Part.Names.Faces[0]
	if nut.Z > 0 {
		j.out.NutSide = first.b.Part.Names.Faces[1]
	}
	return j.nutSide(first.b.Part)
}

// nutSide holds the author's word on where the nut is against where it comes
// out, since a nut on the wrong face is only seen when the chair stands.
func (j *join) nutSide(b *model.Part) bool {
	if !j.d.Nut.Given() || j.d.Nut.Text == j.out.NutSide {
		return true
	}
	if _, ok := j.s.featureAt(j.s.parts[b.Key], j.d.Nut.Text, j.d.Nut.At); ok {
		j.s.problems.Errorf(j.d.Nut.At, "joint", "the nut of joint %q comes out on the %s of part %q, not on its %s", j.d.Key, j.out.NutSide, b.Key, j.d.Nut.Text).
			Fix("change from and into, or place the parts the other way")
	}
	return false
}

// matchedHole drills the second part through the first where the author did not
// say so already.
func (j *join) matchedHole(sp spot) {
	q := sp.b.Pose.Local(sp.at)
	for i := range sp.b.Part.Holes {
		h := &sp.b.Part.Holes[i]
		if math.Hypot(h.Along-q.X, h.Across-q.Y) < 0.05 {
			h.Joint, h.Hardware, h.Diam, h.Kind = j.out, j.out.Hardware, j.goods.bolt.Hole, model.BoltHole
			j.attach(sp)
			return
		}
	}
	if sp.b.Hand != model.LeftHand {
		sp.b.Part.Holes = append(sp.b.Part.Holes, model.Hole{Name: j.d.Key + "." + sp.hole.Name, Kind: model.BoltHole, Along: q.X, Across: q.Y, Into: "face",
			Diam: j.goods.bolt.Hole, Matched: true, Through: sp.a.Part.Code, Joint: j.out, Hardware: j.out.Hardware, InPart: geom.V3{X: q.X, Y: q.Y}, Dir: geom.V3{Z: 1}})
	}
	j.attach(sp)
}

// attach ties the hole of the first part to the joint.
func (j *join) attach(sp spot) {
	for i := range sp.a.Part.Holes {
		if h := &sp.a.Part.Holes[i]; h.Name == sp.hole.Name {
			h.Joint, h.Hardware = j.out, j.out.Hardware
		}
	}
}

// open opens the hardware line and tells the joint's layers.
func (j *join) open(length float64, sum []wood.Term) {
	j.out.Hardware = j.s.line(j.goods, length, sum)
	first := j.spots[0]
	j.out.Stack = []model.Layer{{Part: first.a.Part, Thick: first.held}, {Part: first.b.Part, Thick: first.hold}}
	pairs := map[[2]int]bool{}
	for _, sp := range j.spots {
		pairs[[2]int{sp.a.Index, sp.b.Index}] = true
	}
	j.out.Places = len(pairs)
}

// add places one fastener.
func (j *join) add(sp spot, head, dir geom.V3, length, grip float64) {
	j.note(sp.a.Part, sp.b.Part)
	j.out.Fasteners = append(j.out.Fasteners, model.Fastener{Hardware: j.out.Hardware, Joint: j.out, Head: head, Dir: dir, Length: length, Grip: grip,
		Pieces: [2]int{sp.a.Index, sp.b.Index}})
	j.out.Hardware.Quantity++
}

// screw sizes the screws of a joint: one length that suits its tightest place.
func (j *join) screw() bool {
	g := j.goods
	tight := j.spots[0]
	for _, sp := range j.spots {
		if sp.held+sp.hold < tight.held+tight.hold-tol {
			tight = sp
		}
	}
	length, sum, ok := wood.ScrewLength(g.bought.Size.Text, wood.ScrewStack{Held: tight.held, Holding: tight.hold, Sunk: j.sunk()})
	if g.length > 0 {
		length, sum, ok = g.length, []wood.Term{{What: "held part", Length: tight.held}, {What: "bite", Length: g.length + j.sunk() - tight.held}}, true
	}
	if !ok {
		j.s.problems.Errorf(j.d.At, "no-length", "no %s %s holds joint %q: it passes %s of %s and has %s of %s to bite in", g.bought.Size.Text, g.kind, j.d.Key,
			j.s.opt.Unit.Long(tight.held), tight.a.Part.Name, j.s.opt.Unit.Long(tight.hold), tight.b.Part.Name).Fix("take a thinner screw, or drive it from the thinner part into the thicker one")
		return false
	}
	j.out.Kind, j.out.Sink = "screwed", true
	j.open(length, sum)
	if !j.drills(tight, length) {
		return false
	}
	for _, sp := range j.spots {
		j.add(sp, sp.at.Sub(sp.dir.Mul(sp.held)), sp.dir, length, sp.held)
		j.drill(sp.a, sp.at.Sub(sp.dir.Mul(sp.held)), sp.dir, model.Hole{Kind: model.ClearanceHole, Diam: j.out.Clear, Sink: true})
		if j.out.Pilot == 0 {
			continue
		}
		j.drill(sp.b, sp.at, sp.dir, model.Hole{Kind: model.PilotHole, Diam: j.out.Pilot, Depth: length + j.sunk() - sp.held, Matched: true, Through: sp.a.Part.Code})
	}
	return true
}

// sunk is how deep under the face the heads of a joint lie.
func (j *join) sunk() float64 {
	if j.out.Plug {
		return wood.PlugDeep
	}
	return 0
}

// drills settles the drills of a screw joint: as the author says, else by the
// gauge and the wood. A pilot of nothing is none.
func (j *join) drills(tight spot, length float64) bool {
	c := &scope{s: j.s}
	wide, ok := j.s.lengthOr(j.d.Clearance, c, j.goods.screw.Clearance)
	pilot, ok2 := j.s.lengthOr(j.d.Pilot, c, j.pilot(tight))
	if !ok || !ok2 || !j.s.positive(j.d.Clearance.At, wide, "a clearance drill") || !j.s.notLess(j.d.Pilot, pilot, "a pilot drill") {
		return false
	}
	j.out.Clear, j.out.Pilot = wide, pilot
	if pilot > 0 {
		j.out.PilotDeep = length + j.sunk() - tight.held
	}
	return true
}

// ownDrill refuses drills that are given for a bolt or a pocket screw, whose
// holes are those of the part or of the jig.
func (j *join) ownDrill() bool {
	for _, f := range []reading.Formula{j.d.Pilot, j.d.Clearance} {
		if f.Given() {
			j.s.problems.Errorf(f.At, "joint", "joint %q has no drill of its own: only wood screws have a pilot and a clearance", j.d.Key).
				Fix("take it out, or give the part's hole a diameter")
			return false
		}
	}
	return true
}

func (j *join) pilot(sp spot) float64 {
	if w, ok := wood.Species(sp.b.Part.Stock.Species); ok {
		return j.goods.screw.Pilot(w)
	}
	return j.goods.screw.PilotSoft
}

// pocket sets slanted screws from a pocket in the mouth's face through the end
// of the first part, leaving it in the middle of its thickness.
func (j *join) pocket() bool {
	g := j.goods
	first := j.spots[0]
	p := j.s.parts[first.a.Part.Key]
	face, ok := feature{2, 0}, true
	if j.d.Mouth.Given() {
		face, ok = j.s.featureAt(p, j.d.Mouth.Text, j.d.Mouth.At)
	}
	row, ok2 := wood.PocketScrew(first.a.Part.Thick, g.screw.Metric)
	switch {
	case !ok || !j.ownDrill():
		return false
	case face.axis != 2:
		j.s.problems.Errorf(j.d.Mouth.At, "unknown-side", "pockets are bored in a face, and %q is no face of part %q", j.d.Mouth.Text, p.decl.Key).
			Fix("write mouth = %q or %q", p.names.Faces[0], p.names.Faces[1])
		return false
	case !ok2:
		j.s.problems.Errorf(j.d.At, "joint", "pocket screws need stock from 1/2 to 1 1/2 in (12 to 38 mm) thick, but %s is %s", first.a.Part.Name, j.s.opt.Unit.Long(first.a.Part.Thick)).
			Fix("take a wood screw, or a bolt")
		return false
	}
	length := row.Length
	if g.length > 0 {
		length = g.length
	}
	bite := math.Min(length/2, first.hold-3)
	j.out.Kind, j.out.Angle, j.out.Mouth, j.out.Clear = "pocket screwed", wood.PocketAngle*math.Pi/180, p.names.Faces[face.side], wood.PocketDrill
	j.open(length, []wood.Term{{What: "in the first part", Length: length - bite}, {What: "bite", Length: bite}})
	for _, sp := range j.spots {
		in := sp.a.Pose.Thick
		if face.side == 1 {
			in = in.Neg()
		}
		// The touching faces meet over the whole end: take the middle of the thickness.
		local := sp.a.Pose.Local(sp.at)
		local.Z = sp.a.Part.Thick / 2
		at := sp.a.Pose.Point(local)
		dir := sp.dir.Mul(math.Cos(j.out.Angle)).Add(in.Mul(math.Sin(j.out.Angle)))
		j.add(sp, at.Sub(dir.Mul(length-bite)), dir, length, length-bite)
		j.addPocket(sp, local, dir, face.side)
	}
	return true
}

func (j *join) addPocket(sp spot, local, dir geom.V3, face int) {
	end := 0
	if local.X > sp.a.Part.Length/2 {
		end = 1
	}
	back := sp.a.Part.Thick / 2 / math.Tan(j.out.Angle)
	along := local.X + back
	if end == 1 {
		along = local.X - back
	}
	for _, k := range sp.a.Part.Pockets {
		if math.Hypot(k.Along-along, k.Across-local.Y) < 0.5 {
			return
		}
	}
	sp.a.Part.Pockets = append(sp.a.Part.Pockets, model.Pocket{Along: along, Across: local.Y, End: end, Face: face, Joint: j.out})
}

// drill enters a screw hole in a part, once for all its pieces.
func (j *join) drill(pl *model.Placed, mouth, dir geom.V3, h model.Hole) {
	if pl.Hand == model.LeftHand {
		return
	}
	q, d := pl.Pose.Local(mouth), pl.Pose.LocalDir(dir)
	h.InPart, h.Dir, h.Joint, h.Hardware = q, d, j.out, j.out.Hardware
	h.Along, h.Across, h.Thick = q.X, q.Y, q.Z
	switch {
	case math.Abs(d.Z) > 0.7:
		h.Into, h.From = "face", side(d.Z)
	case math.Abs(d.Y) > 0.7:
		h.Into, h.From = "edge", side(d.Y)
	default:
		h.Into, h.From = "end", side(d.X)
	}
	for _, old := range pl.Part.Holes {
		if old.Into == h.Into && old.From == h.From && old.Kind == h.Kind && old.InPart.Sub(q).Len() < 0.2 {
			return
		}
	}
	pl.Part.Holes = append(pl.Part.Holes, h)
}

// side is the face a drill going this way enters by.
func side(d float64) int {
	if d < 0 {
		return 1
	}
	return 0
}

// sortHoles puts a part's holes in reading order and names those of joints.
func (s *solver) sortHoles() {
	for _, p := range s.plan.Parts {
		slices.SortStableFunc(p.Holes, func(a, b model.Hole) int {
			if (a.Name == "") != (b.Name == "") {
				if a.Name != "" {
					return -1
				}
				return 1
			}
			if a.Joint != b.Joint && a.Joint != nil && b.Joint != nil && a.Joint.Key != b.Joint.Key {
				if a.Joint.Key < b.Joint.Key {
					return -1
				}
				return 1
			}
			if d := a.Along - b.Along; math.Abs(d) > 0.01 {
				return sign(d)
			}
			return sign(a.Across - b.Across)
		})
		count := map[string]int{}
		for i := range p.Holes {
			h := &p.Holes[i]
			if h.Name == "" && h.Joint != nil {
				count[h.Joint.Key]++
				h.Name = fmt.Sprintf("%s.%d", h.Joint.Key, count[h.Joint.Key])
			}
		}
	}
}

func sign(d float64) int {
	switch {
	case d < 0:
		return -1
	case d > 0:
		return 1
	}
	return 0
}
