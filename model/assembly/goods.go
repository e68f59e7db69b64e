package assembly

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/reading"
	"planset/model/wood"
)

// goods is a hardware as declared, in the reader's unit system.
type goods struct {
	decl   *reading.Hardware
	bought reading.Bought
	kind   model.HardwareKind
	bolt   wood.BoltSize
	screw  wood.ScrewSize
	length float64 // given; 0 when it is found
}

// addGoods enters a hardware and finds its size in the tables.
func (s *solver) addGoods(d *reading.Hardware) {
	b := d.Base
	if own, ok := d.Systems[s.opt.Unit]; ok {
		b = *own
		if !b.Size.Given() {
			b.Size = d.Base.Size
		}
		if !b.Length.Given() && !b.Auto {
			b.Length, b.Auto, b.Unit = d.Base.Length, d.Base.Auto, d.Base.Unit
		}
		if b.Box == 0 {
			b.Box = d.Base.Box
		}
	}
	g := &goods{decl: d, bought: b, kind: model.HardwareKind(d.Kind.Text)}
	ok := true
	switch g.kind {
	case model.CarriageBolt, model.HexBolt:
		g.bolt, ok = wood.Bolt(b.Size.Text)
	case model.WoodScrew, model.PocketScrew:
		g.screw, ok = wood.Screw(b.Size.Text)
	case "":
		s.problems.Errorf(d.At, "hardware", "hardware %q does not say its kind", d.Key).Fix(`write kind = "carriage bolt", "hex bolt", "wood screw", "pocket screw" or "other"`)
		return
	}
	if !ok {
		s.problems.Errorf(orAt(b.Size.At, d.At), "hardware", "there is no %s of size %q in the tables", g.kind, b.Size.Text).Suggest(b.Size.Text, sizesOf(g.kind))
		return
	}
	if b.Length.Given() {
		if g.length, ok = s.length(formulaAt{b.Length, b.Unit}, &scope{s: s}); !ok {
			return
		}
	}
	s.goods[d.Key] = g
}

func sizesOf(k model.HardwareKind) []string {
	var out []string
	if k == model.CarriageBolt || k == model.HexBolt {
		for _, b := range wood.Bolts() {
			out = append(out, b.Size)
		}
		return out
	}
	for _, sc := range wood.Screws() {
		out = append(out, sc.Size)
	}
	return out
}

// goodsNames are the hardware of the file in its order.
func (s *solver) goodsNames() []string {
	var out []string
	for _, d := range s.d.Hardware {
		out = append(out, d.Key)
	}
	return out
}

// isBolt reports whether g is held by a nut.
func (g *goods) isBolt() bool { return g.kind == model.CarriageBolt || g.kind == model.HexBolt }

// diam is the shank's diameter.
func (g *goods) diam() float64 {
	if g.isBolt() {
		return g.bolt.Diameter
	}
	return g.screw.Diameter
}

// line finds or opens the line of the hardware list for one length.
func (s *solver) line(g *goods, length float64, sum []wood.Term) *model.Hardware {
	for _, h := range s.plan.Hardware {
		if h.Key == g.decl.Key && math.Abs(h.Length-length) < tol {
			return h
		}
	}
	h := &model.Hardware{Key: g.decl.Key, Name: g.decl.Name.Text, Kind: g.kind, Size: g.bought.Size.Text, Diam: g.diam(), Length: length, Material: g.decl.Material, Box: g.bought.Box}
	if h.Name == "" {
		h.Name = string(g.kind)
	}
	for _, t := range sum {
		h.Sum = append(h.Sum, model.Term2{What: t.What, MM: t.Length})
	}
	return s.enter(h)
}

func (s *solver) enter(h *model.Hardware) *model.Hardware {
	s.plan.Hardware = append(s.plan.Hardware, h)
	h.Code = fmt.Sprintf("h%d", len(s.plan.Hardware))
	return h
}

// with opens the lines of the washers and nuts that go with a bolt.
func (s *solver) with(g *goods) []*model.Hardware {
	var out []*model.Hardware
	for _, w := range g.decl.With {
		kind := model.HardwareKind(w.Text)
		if kind != model.Washer && kind != model.Nut {
			s.problems.Errorf(w.At, "hardware", "%q does not go with a bolt", w.Text).Fix(`write with = ["washer", "nut"]`)
			continue
		}
		out = append(out, s.companion(g, kind))
	}
	return out
}

func (s *solver) companion(g *goods, kind model.HardwareKind) *model.Hardware {
	key := g.decl.Key + " " + string(kind)
	for _, h := range s.plan.Hardware {
		if h.Key == key {
			return h
		}
	}
	h := &model.Hardware{Key: key, Name: string(kind), Kind: kind, Size: g.bought.Size.Text, Diam: g.bolt.Diameter, Material: g.decl.Material, Part: true}
	if g.decl.WithOf != "" {
		h.Material = g.decl.WithOf
	}
	return s.enter(h)
}

// fit is the washer a bolt stacks up with.
func (g *goods) fit() wood.Fit {
	for _, w := range g.decl.With {
		if w.Text == "washer" {
			return wood.WideWasher
		}
	}
	return wood.NoWasher
}

// countGoods fills in how many are needed and how many to buy.
func (s *solver) countGoods() {
	for _, h := range s.plan.Hardware {
		h.Buy = h.Quantity
		if h.Box > 0 {
			h.Buy = (h.Quantity + h.Box - 1) / h.Box * h.Box
		}
	}
}
