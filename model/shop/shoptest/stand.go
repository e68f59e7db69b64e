package shoptest

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

func v(x, y, z float64) geom.V3 { return geom.V3{X: x * inch, Y: y * inch, Z: z * inch} }

// place stands every piece where it goes.
func (b *bench) place() {
	half := b.s.SeatW / 2
	down, back := math.Sin(slope), math.Cos(slope)
	rear, normal := geom.V3{Y: back, Z: -down}, geom.V3{Y: down, Z: back}
	front := v(0, -0.75, b.s.SeatH+0.19)
	floor := geom.V3{X: down, Y: back} // downward, in the stringer's own frame
	b.pair("stringer", geom.Pose{Origin: front.Add(v(half-1, 0, 0)), Along: rear, Across: normal.Neg(), Thick: geom.V3{X: 1}},
		geom.Plane{P: floor.Mul(front.Z), N: floor})
	b.pair("leg", geom.Pose{Origin: v(half, 0, 0), Along: geom.V3{Z: 1}, Across: geom.V3{Y: 1}, Thick: geom.V3{X: 1}})
	across := -b.s.SeatW / 2
	slat := func(key string, at float64) {
		b.put(key, model.NoHand, geom.Pose{Origin: front.Add(v(across+0.06, 0, 0)).Add(rear.Mul(at * inch)), Along: geom.V3{X: 1}, Across: rear, Thick: normal})
	}
	slat("front", 0)
	for i := range 5 {
		slat("seat", 3.875+2.875*float64(i))
	}
	b.backrest(front.Add(rear.Mul(18 * inch)).Add(normal.Mul(0.75 * inch)))
	b.pair("arm", geom.Pose{Origin: v(half-1.5, -2, b.s.Arm), Along: geom.V3{Y: 1}, Across: geom.V3{X: 1}, Thick: geom.V3{Z: 1}})
	b.pair("cap", geom.Pose{Origin: v(half+1, 0, b.s.Arm-3.5), Along: geom.V3{X: 1}, Across: geom.V3{Z: 1}, Thick: geom.V3{Y: 1}})
}

// backrest stands the fan of slats, the batten and the rail about the foot of
// the back, given where its face meets the seat.
func (b *bench) backrest(foot geom.V3) {
	up := geom.V3{Y: math.Sin(lean), Z: math.Cos(lean)}
	right := geom.V3{X: 1}
	behind := up.Cross(right).Neg()
	for _, rank := range []int{0, 1, 2} {
		key := [...]string{"D1", "D2", "D3"}[rank]
		n := float64(rank) + 0.5
		for _, side := range []float64{1, -1} {
			turn := side * fan * n
			along := up.Mul(math.Cos(turn)).Add(right.Mul(math.Sin(turn)))
			acr := right.Mul(math.Cos(turn)).Sub(up.Mul(math.Sin(turn)))
			middle := foot.Add(up.Mul(-4.5 * inch)).Add(right.Mul(side * n * (b.s.FootAt + 0.375) * inch))
			b.put(key, model.NoHand, geom.Pose{Origin: middle.Sub(acr.Mul(b.s.Top / 2 * inch)), Along: along, Across: acr, Thick: behind})
		}
	}
	put := func(key string, width, at float64) {
		b.put(key, model.NoHand, geom.Pose{Origin: foot.Add(right.Mul(-width / 2 * inch)).Add(up.Mul(at * inch)).Add(behind.Mul(0.75 * inch)), Along: right, Across: up, Thick: behind})
	}
	put("batten", b.s.SeatW-2, -6.5)
	put("rail", b.s.SeatW+4, 9)
}

// join makes the hardware and the joints.
func (b *bench) join() {
	bolt := b.hardware("h1", "carriage bolt", model.CarriageBolt, "3/8", 2.75, 4, 4)
	washer := b.hardware("h2", "washer", model.Washer, "3/8", 0, 4, 4)
	nut := b.hardware("h3", "nut", model.Nut, "3/8", 0, 4, 4)
	washer.Part, nut.Part = true, true
	screw := b.hardware("h4", "wood screw", model.WoodScrew, "#8", 1.5, 56, 100)
	pocket := b.hardware("h5", "pocket screw", model.PocketScrew, "#8", 1.5, 4, 50)
	p := b.parts
	frame := b.joint("Legs to stringers", "bolted", bolt, 2, 2, []*model.Part{p["leg"]}, p["stringer"])
	frame.With = []*model.Hardware{washer, nut}
	slats := []*model.Part{p["D1"], p["D2"], p["D3"]}
	b.joint("Seat slats to stringers", "screwed", screw, 2, 12, []*model.Part{p["front"], p["seat"]}, p["stringer"])
	b.joint("Batten to stringers", "pocket screwed", pocket, 2, 2, []*model.Part{p["batten"]}, p["stringer"])
	b.joint("Back slats to batten", "screwed", screw, 2, 6, slats, p["batten"])
	b.joint("Back slats to back rail", "screwed", screw, 2, 6, slats, p["rail"])
	cap := b.joint("Arm caps to legs", "screwed", screw, 2, 2, []*model.Part{p["leg"]}, p["cap"])
	cap.Glue = true
	b.joint("Arms to arm caps", "screwed", screw, 1, 2, []*model.Part{p["arm"]}, p["cap"])
	b.joint("Arms to back rail", "screwed", screw, 1, 2, []*model.Part{p["arm"]}, p["rail"])
	for _, at := range [][2]float64{{9.6, 1.75}, {12.1, 3.75}} {
		hole := model.Hole{Kind: model.BoltHole, Along: at[0] * inch, Across: at[1] * inch, Into: "face", Diam: 13.0 / 32 * inch, Hardware: bolt, Joint: frame}
		p["leg"].Holes = append(p["leg"].Holes, hole)
		hole.Matched, hole.Through = true, "B"
		p["stringer"].Holes = append(p["stringer"].Holes, hole)
	}
	for _, key := range []string{"front", "seat", "D1", "D2", "D3"} {
		p[key].Holes = append(p[key].Holes, model.Hole{Kind: model.ClearanceHole, Into: "face", Along: inch / 2, Across: inch, Diam: 11.0 / 64 * inch, Sink: true})
	}
	p["stringer"].Holes = append(p["stringer"].Holes, model.Hole{Kind: model.PilotHole, Into: "edge", Along: inch, Diam: 3.0 / 32 * inch, Depth: inch})
	p["batten"].Pockets = []model.Pocket{{Along: 38, Across: 25}, {Along: 38, Across: 64}}
}

func (b *bench) hardware(code, name string, kind model.HardwareKind, size string, long float64, n, buy int) *model.Hardware {
	h := &model.Hardware{Key: code, Code: code, Name: name, Kind: kind, Size: size, Length: long * inch, Material: "stainless steel", Quantity: n, Buy: buy}
	if kind != model.CarriageBolt && long > 0 {
		h.Box = buy
	}
	b.plan.Hardware = append(b.plan.Hardware, h)
	return h
}

func (b *bench) joint(name, kind string, h *model.Hardware, each, places int, first []*model.Part, second *model.Part) *model.Joint {
	j := &model.Joint{Name: name, Kind: kind, Hardware: h, Each: each, Places: places, First: first, Second: []*model.Part{second},
		Pilot: 3.0 / 32 * inch, PilotDeep: inch, Clear: 11.0 / 64 * inch, Sink: kind == "screwed",
		Stack: []model.Layer{{Part: first[0], Thick: first[0].Thick}, {Part: second, Thick: second.Thick}}}
	b.plan.Joints = append(b.plan.Joints, j)
	return j
}
