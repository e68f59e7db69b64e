package strength

import (
	"cmp"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// A Joint is what the most loaded fastener of a joint carries.
type Joint struct {
	Joint    *model.Joint
	Case     string         // which load
	Shear    float64        // N across the fastener
	Pull     float64        // N along it
	Z        float64        // N it may carry across, all factors in
	W        float64        // N it may carry along; 0 where a nut holds it
	Mode     string         // the yield mode that governs Z
	Used     float64        // the force on it over what it may carry that way
	EndGrain bool           // it holds in end grain, where no screw should be pulled
	Together int            // how many hold the same two pieces
	Even     float64        // N across each of those, if they shared the force evenly: the rest of Shear turns the pieces against each other
	Spread   float64        // mm between the two of them that are farthest apart
	Worst    model.Fastener // the one all this is of
	shear    geom.V3
}

// use fills in how much of a fastener a force takes.
func (j *Joint) use(shear geom.V3, pull float64) {
	j.shear, j.Shear, j.Pull = shear, shear.Len(), pull
	if j.W == 0 || j.Pull <= 0 {
		j.Used = j.Shear / j.Z
		return
	}
	j.Used = math.Hypot(j.Shear, j.Pull) / Combined(j.Z, j.W, math.Atan2(j.Pull, j.Shear))
}

// Turns reports whether most of the force comes of turning the two pieces against
// each other: then it matters how far apart the fasteners stand.
func (j *Joint) Turns() bool { return j.Together > 1 && j.Shear > 1.5*j.Even }

// Stouter returns the thinnest size of the same kind that would carry the force in
// the same place, "" when none does.
func (j *Joint) Stouter(p *model.Plan, l Loads) string {
	for _, size := range sizesAbove(j.Worst.Hardware) {
		f, h := j.Worst, *j.Worst.Hardware
		h.Size, h.Diam = size.name, size.diam
		f.Hardware = &h
		c := capacity(p, j.Joint, f, j.shear, l)
		c.use(j.shear, j.Pull)
		if c.Used <= 1 {
			return size.name
		}
	}
	return ""
}

// gauge is a size of hardware and its diameter, mm.
type gauge struct {
	name string
	diam float64
}

// sizesAbove are the sizes of the same system thicker than a hardware's own,
// rising.
func sizesAbove(h *model.Hardware) []gauge {
	var out []gauge
	if own, ok := wood.Bolt(h.Size); ok && (h.Kind == model.CarriageBolt || h.Kind == model.HexBolt) {
		for _, b := range wood.Bolts() {
			if b.Metric == own.Metric && b.Diameter > own.Diameter {
				out = append(out, gauge{b.Size, b.Diameter})
			}
		}
	}
	if own, ok := wood.Screw(h.Size); ok && h.Kind == model.WoodScrew {
		for _, s := range wood.Screws() {
			if s.Metric == own.Metric && s.Diameter > own.Diameter {
				out = append(out, gauge{s.Size, s.Diameter})
			}
		}
	}
	slices.SortFunc(out, func(a, b gauge) int { return cmp.Compare(a.diam, b.diam) })
	return out
}

// mates fills in how the fasteners that hold the same two pieces share a force.
func (j *Joint) mates(f model.Fastener, shear func(i int) geom.V3) {
	var sum geom.V3
	var at []geom.V3
	for i, g := range j.Joint.Fasteners {
		if g.Pieces == f.Pieces {
			sum, at = sum.Add(shear(i)), append(at, g.Head)
		}
	}
	j.Together, j.Even = len(at), sum.Len()/float64(len(at))
	for i, p := range at {
		for _, q := range at[i+1:] {
			j.Spread = math.Max(j.Spread, p.Sub(q).Len())
		}
	}
}

// capacity fills in what a fastener may carry under a shear in a direction.
func capacity(p *model.Plan, j *model.Joint, f model.Fastener, shear geom.V3, l Loads) Joint {
	out := Joint{Joint: j}
	a, b := p.Placed[f.Pieces[0]], p.Placed[f.Pieces[1]]
	wa, wb := species(a.Part), species(b.Part)
	dir := f.Dir.Unit()
	out.EndGrain = math.Abs(dir.Dot(b.Pose.Along)) > 0.9
	d, thread := dowelOf(j, f)
	ta, tb := toGrain(shear, a), toGrain(shear, b)
	if out.EndGrain {
		tb = math.Pi / 2
	}
	d.FeSide, d.FeMain = Bearing(wa.DesignGravity(), d.Diam, ta), Bearing(wb.DesignGravity(), d.Diam, tb)
	d.Theta = math.Max(ta, tb)
	mode, z := d.Least()
	factor := l.Duration
	if l.Wet {
		factor *= wetService
	}
	out.Mode, out.Z = ModeName(mode), z*factor
	if out.EndGrain {
		out.Z *= endGrain
	}
	if thread > 0 {
		out.W = ScrewWithdrawal(wb.DesignGravity(), f.Hardware.Diam) * thread * factor
	}
	return out
}

// dowelOf is a fastener as a dowel, and how much of its thread holds in the
// second part; none where a nut does.
func dowelOf(j *model.Joint, f model.Fastener) (d Dowel, thread float64) {
	held := f.Grip
	if len(j.Stack) > 0 && f.Hardware.Kind != model.PocketScrew {
		held = j.Stack[0].Thick
	}
	held = math.Min(math.Max(held, 1), f.Length-1)
	if f.Hardware.Kind == model.CarriageBolt || f.Hardware.Kind == model.HexBolt {
		return Dowel{Diam: f.Hardware.Diam, Side: held, Main: math.Max(1, f.Grip-held), Fyb: boltFyb}, 0
	}
	d = Dowel{Diam: f.Hardware.Diam * 2 / 3, Side: held, Main: f.Length - held, Fyb: otherFyb}
	if s, ok := wood.Screw(f.Hardware.Size); ok {
		d.Diam = s.Root
	}
	if root, fyb, ok := screwSteel(f.Hardware.Size); ok {
		d.Diam, d.Fyb = root, fyb
	}
	return d, math.Min(d.Main, f.Length*2/3)
}

// toGrain is the angle of a force to a board's grain, up to a right angle.
func toGrain(force geom.V3, p *model.Placed) float64 {
	return math.Acos(math.Min(1, math.Abs(force.Unit().Dot(p.Pose.Along))))
}

// joints reads the worst fastener of each joint from a loaded network.
func (n *network) joints(p *model.Plan, l Loads, what string) []Joint {
	type key struct{ joint, fast int }
	shear, pull := map[key]geom.V3{}, map[key]float64{}
	for i, s := range n.springs {
		k := key{s.joint, s.fast}
		switch s.kind {
		case across:
			shear[k] = shear[k].Add(s.dir.Mul(n.force[i]))
		case axial:
			pull[k] = n.force[i]
		}
	}
	var out []Joint
	for k, j := range p.Joints {
		var worst Joint
		for i, f := range j.Fasteners {
			s, t := shear[key{k, i}], pull[key{k, i}]
			c := capacity(p, j, f, s, l)
			c.Case, c.Worst = what, f
			c.use(s, t)
			if worst.Joint == nil || c.Used > worst.Used {
				c.mates(f, func(m int) geom.V3 { return shear[key{k, m}] })
				worst = c
			}
		}
		if worst.Joint != nil {
			out = append(out, worst)
		}
	}
	return out
}
