package shoptest

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// makeParts makes every part with its board.
func (b *bench) makeParts() {
	s := b.s
	b.part("A", "stringer", "Stringer", b.frame, 39.5, 5.5, model.Pair, func(p *model.Part) {
		p.AsBought, p.Need, p.Found = true, "clear", true
		p.Names = model.Names{Ends: [2]string{"front", "heel"}, Edges: [2]string{"top", "bottom"}}
		p.Corners = []model.Corner{{End: 0, Edge: 0, Radius: 1.5 * inch}}
		p.Ends[1] = model.EndCut{Shape: "cut", Miter: slope, By: "floor", Flat: 3.5 * inch, Then: math.Pi/2 - slope}
		p.Template = true
		p.Critical = []string{"recline"}
	})
	b.part("B", "leg", "Leg", b.frame, s.Arm, 5.5, model.Pair, func(p *model.Part) {
		p.AsBought, p.Need = true, "clear"
		p.Names = model.Names{Ends: [2]string{"foot", "top"}, Edges: [2]string{"front", "rear"}}
	})
	b.part("C", "arm", "Arm", b.wide, 28, 6.5, model.Pair, func(p *model.Part) {
		p.Face, p.Need = "top", "clear"
		p.Names = model.Names{Ends: [2]string{"front", "rear"}, Edges: [2]string{"inside", "outside"}}
		p.Corners = []model.Corner{{End: 0, Edge: 0, Radius: 1.5 * inch}, {End: 0, Edge: 1, Radius: 1.5 * inch}}
		p.Tapers = []model.Taper{{Edge: 1, FromAlong: 16 * inch, FromWidth: 6.5 * inch, ToAlong: 28 * inch, ToWidth: 3.5 * inch, Angle: math.Atan(0.25)}}
		p.Template = true
	})
	for rank := range 3 {
		b.slat(rank)
	}
	b.part("E", "rail", "Back rail", b.frame, s.SeatW+4, 3.5, model.NoHand, func(p *model.Part) {
		p.Names.Edges = [2]string{"bottom", "top"}
		p.Edges[1] = model.EdgeCut{Bevel: lean}
	})
	b.part("F", "front", "Front slat", b.thin, s.SeatW-0.125, 3.5, model.NoHand, func(p *model.Part) {
		p.AsBought, p.Face, p.Need = true, "top", "clear"
		p.Arrises = []model.Arris{{Side: "front", Face: "top", Size: 0.375 * inch}}
	})
	b.part("G", "seat", "Seat slat", b.thin, s.SeatW-0.125, 2.5, model.NoHand, func(p *model.Part) {
		p.Quantity, p.Face, p.Need = 5, "top", "clear"
	})
	b.part("H", "batten", "Batten", b.frame, s.SeatW-2, 3.5, model.NoHand, func(p *model.Part) { p.Need = "hidden" })
	b.part("J", "cap", "Arm cap", b.frame, 3.5, 3.5, model.Pair, func(p *model.Part) {
		p.Free, p.Template = true, true
		p.Names.Ends = [2]string{"leg", "tip"}
		p.Ends[1] = model.EndCut{Shape: "round", Radius: 3.5 * inch}
	})
}

// slat makes the back slats of one rank, each rank a step shorter.
func (b *bench) slat(rank int) {
	code := [...]string{"D1", "D2", "D3"}[rank]
	b.part(code, code, "Back slat", b.thin, b.s.SlatLong-1.75*float64(rank), b.s.Top, model.NoHand, func(p *model.Part) {
		p.Quantity, p.Family, p.Rank = 2, "D", rank
		p.RoughLength, p.TrimLater = b.s.SlatLong*inch, "foot"
		p.Face, p.Need, p.Template = "front", "clear", true
		p.Names.Ends = [2]string{"foot", "top"}
		p.Ends[1] = model.EndCut{Shape: "half round", Radius: b.s.Top / 2 * inch}
		p.Tapers = []model.Taper{{Edge: 2, FromWidth: b.s.FootAt * inch, ToAlong: p.Length - b.s.Top/2*inch, ToWidth: b.s.Top * inch, Angle: fan / 2}}
	})
}

// part makes a rectangle; more shapes it.
func (b *bench) part(code, key, name string, st *model.Stock, long, wide float64, hand model.Hand, more func(*model.Part)) {
	p := &model.Part{Key: key, Code: code, Name: name, Hand: hand, Quantity: 1, Stock: st,
		Thick: st.Thick, Width: wide * inch, Length: long * inch, RoughLength: long*inch + 12}
	if hand == model.Pair {
		p.Quantity = 2
	}
	more(p)
	p.RoughWidth = p.Width + inch/16
	if p.AsBought {
		p.RoughWidth = p.Width
	}
	w := p.Width
	if len(p.Tapers) > 0 && p.Tapers[0].Edge == 2 {
		foot, top := p.Tapers[0].FromWidth, p.Tapers[0].ToWidth
		p.Board.Outline = geom.Polygon(geom.Pt{Y: (top - foot) / 2}, geom.Pt{X: p.Length - w/2}, geom.Pt{X: p.Length, Y: w * 0.3},
			geom.Pt{X: p.Length, Y: w * 0.7}, geom.Pt{X: p.Length - w/2, Y: w}, geom.Pt{Y: (top + foot) / 2})
	} else {
		p.Board.Outline = geom.Rect(p.Length, w)
	}
	p.Board.Thick = p.Thick
	p.Volume = p.Length * w * p.Thick
	p.Mass = p.Volume * 1e-9 * 359 // western redcedar at 12 %: 62.4 × 0.32 × 1.12 lb a cubic foot
	b.plan.Parts = append(b.plan.Parts, p)
	b.parts[key] = p
}

// put stands one piece in the world.
func (b *bench) put(key string, hand model.Hand, pose geom.Pose, cuts ...geom.Plane) {
	p := b.parts[key]
	board := p.Board
	board.Cuts = cuts
	solid, err := board.Solid(0.3)
	if err != nil {
		panic(err) // the fixture is wrong, not a user
	}
	for i := range solid.Faces {
		f := &solid.Faces[i]
		f.N = pose.Dir(f.N)
		for _, loop := range f.Loops {
			for j := range loop {
				loop[j] = pose.Point(loop[j])
			}
		}
	}
	if pose.Mirrored() {
		for i := range solid.Faces {
			for _, loop := range solid.Faces[i].Loops {
				for a, z := 0, len(loop)-1; a < z; a, z = a+1, z-1 {
					loop[a], loop[z] = loop[z], loop[a]
				}
			}
		}
	}
	b.plan.Placed = append(b.plan.Placed, &model.Placed{Part: p, Hand: hand, Pose: pose, Solid: solid, Index: len(b.plan.Placed)})
}

// pair stands the right piece and its mirror.
func (b *bench) pair(key string, pose geom.Pose, cuts ...geom.Plane) {
	b.put(key, model.RightHand, pose, cuts...)
	b.put(key, model.LeftHand, pose.Mirror(), cuts...)
}
