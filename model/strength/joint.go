package strength

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// A Joint is what the most loaded fastener of a joint carries.
type Joint struct {
	Joint    *model.Joint
	Case     string  // which load
	Shear    float64 // N across the fastener
	Pull     float64 // N along it
	Z        float64 // N it may carry across, all factors in
	W        float64 // N it may carry along; 0 where a nut holds it
	Mode     string  // the yield mode that governs Z
	Used     float64 // Shear/Z + Pull/W
	EndGrain bool    // it holds in end grain, where no screw should be pulled
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
			c.Case, c.Shear, c.Pull = what, s.Len(), t
			c.Used = c.Shear / c.Z
			if c.W > 0 {
				c.Used += c.Pull / c.W
			}
			if worst.Joint == nil || c.Used > worst.Used {
				worst = c
			}
		}
		if worst.Joint != nil {
			out = append(out, worst)
		}
	}
	return out
}
