package shop

import (
	"cmp"
	"fmt"
	"strings"

	"planset/model"
)

// say is fmt.Sprintf under a short name.
func say(format string, a ...any) string { return fmt.Sprintf(format, a...) }

// work is what a plan asks for, by name, for asking.
type work struct {
	plan *model.Plan
	ops  set
}

func (w work) any(ops ...Operation) bool {
	for _, op := range ops {
		if w.ops[op] {
			return true
		}
	}
	return false
}

// standing returns our own messages that hold for the plan, the one to keep
// longest first. Each is written from general knowledge of the shop; the
// figures in it are named beside their constants or come from the model.
func standing(plan *model.Plan) []message {
	w := work{plan, set{}}
	for _, j := range OperationsOf(plan) {
		w.ops.add(j.Op)
	}
	var all []message
	for _, make := range []func(work) (message, bool){
		kickback, cutter, dust, rags, eyes, sitting, bit, heavy, bolts, inStore,
	} {
		if m, ok := make(w); ok {
			all = append(all, m)
		}
	}
	return all
}

// kickback is the saw's own hazard: one message names those of the three risky
// cuts that the plan has.
func kickback(w work) (message, bool) {
	var what, how []string
	var ops []Operation
	add := func(op Operation, cut, avoid string) {
		if w.any(op) {
			ops = append(ops, op)
			what = append(what, cut)
			how = append(how, avoid)
		}
	}
	add(RipNarrow, "narrow strips", "Guard on, push stick, stand aside.")
	add(Taper, "tapers", "Taper in a clamping jig.")
	add(ShortPiece, "short pieces", "Shape short parts on boards over "+shortest(w.plan)+".")
	if len(ops) == 0 {
		if !w.any(Rip) {
			return message{}, false
		}
		ops, what = []Operation{Rip}, []string{"boards"}
		how = []string{"Keep the guard on, use a push stick and stand out of line with the blade."}
	}
	return message{model.Caution{
		Key:         "kickback",
		Signal:      model.Warn,
		Hazard:      upperFirst(list(what)) + " can kick back",
		Consequence: "and pull a hand in.",
		Avoid:       strings.Join(how, " "),
	}, ops}, true
}

func cutter(w work) (message, bool) {
	return message{model.Caution{
		Key:         "router",
		Signal:      model.Warn,
		Hazard:      "A router fed the way its cutter turns runs off",
		Consequence: "and can cut a hand.",
		Avoid:       "Clamp the work. Feed counterclockwise round an outside edge, both hands on, in two light passes.",
	}, []Operation{Roundover, Chamfer}}, w.any(Roundover, Chamfer)
}

func dust(w work) (message, bool) {
	ops := []Operation{Sand, Crosscut}
	name, kind := worstWood(w.plan)
	switch kind {
	case treatedWood:
		return message{model.Caution{
			Key:         "treated-wood",
			Signal:      model.Warn,
			Hazard:      "Dust and smoke of treated wood are poisonous",
			Consequence: "and can harm lungs and skin.",
			Avoid:       "Cut outdoors with a fitted dust mask, wash your hands before eating, and never burn the offcuts.",
		}, ops}, true
	case sensitiser:
		return message{model.Caution{
			Key:         "wood-dust",
			Signal:      model.Warn,
			Hazard:      "Dust of " + name + " can cause an allergy",
			Consequence: "and lasting asthma.",
			Avoid:       "Wear a fitted dust mask for sawing and sanding, work outdoors or with extraction, and stop if your chest tightens.",
		}, ops}, true
	}
	return message{model.Caution{
		Key:         "wood-dust",
		Signal:      model.Careful,
		Hazard:      "Fine wood dust",
		Consequence: "irritates eyes, skin and lungs.",
		Avoid:       "Wear a fitted dust mask for sawing and sanding, and work outdoors or with extraction.",
	}, ops}, w.any(Sand)
}

func rags(w work) (message, bool) {
	if w.plan.Finish.Oily {
		return message{model.Caution{
			Key:         "oily-rags",
			Signal:      model.Warn,
			Hazard:      "Rags wet with oil finish heat by themselves",
			Consequence: "and start fires.",
			Avoid:       "Dry them outdoors, flat and single, then put them in a lidded metal can of water. Finish away from flames.",
		}, []Operation{Coat}}, true
	}
	return message{}, false
}

func eyes(w work) (message, bool) {
	ops := []Operation{Crosscut, Rip, Curve, Roundover, Drill}
	return message{model.Caution{
		Key:         "eyes-ears",
		Signal:      model.Warn,
		Hazard:      "Chips and noise from power tools",
		Consequence: "can blind an eye and deafen.",
		Avoid:       "Wear safety glasses rated for impact and hearing protection whenever one runs; tie back hair and sleeves.",
	}, ops}, w.any(ops...)
}

// sitting is about the finished piece: what it is not for, and where a chair
// that leans back tips and pinches.
func sitting(w work) (message, bool) {
	if !w.any(Use) {
		return message{}, false
	}
	m := message{model.Caution{Key: "use", Signal: model.Warn}, []Operation{Use}}
	if SatIn(w.plan) && hasMeasure(w.plan, "recline") {
		m.Hazard = "The " + seatWord(w.plan) + " tips if you stand on it, rock it, or sit on an arm,"
		m.Consequence = "and you can fall."
		m.Avoid = "Level ground, away from fire. No climbing, no child unattended; keep fingers out of the gaps."
		return m, true
	}
	m.Hazard = "The piece can tip if you stand or climb on it or lean on one edge,"
	m.Consequence = "and you can fall."
	m.Avoid = "Stand it on firm, level ground, away from open fire, and do not let children climb it."
	return m, true
}

// SatIn reports whether somebody sits in the piece, leaning back: its author says
// so, or says nothing and it has a back that leans.
func SatIn(p *model.Plan) bool {
	switch p.Kind {
	case model.Chair, model.Bench:
		return true
	case "":
		return hasMeasure(p, "recline")
	}
	return false
}

// seatWord is what a piece that is sat on is called.
func seatWord(p *model.Plan) string { return cmp.Or(string(p.Kind), string(model.Chair)) }

func bit(w work) (message, bool) {
	m := message{model.Caution{Key: "drilling", Signal: model.Careful}, []Operation{Drill, Bore, Pocket, MatchDrill}}
	m.Hazard = "A bit breaking through can spin the work"
	m.Consequence = "and wrench a hand."
	m.Avoid = "Clamp every part over a backing board, ease off at the end"
	if !w.any(Clamp) {
		m.Avoid += ", and never hold small parts by hand."
		return m, w.any(Drill, Bore, Pocket)
	}
	m.Avoid += ", and keep fingers from between parts as clamps close."
	m.ops = append(m.ops, Clamp)
	return m, true
}

func heavy(w work) (message, bool) {
	return message{model.Caution{
		Key:         "lifting",
		Signal:      model.Careful,
		Hazard:      "The finished piece weighs about " + Mass(w.plan.Unit, Weight(w.plan)) + ";",
		Consequence: "lifting or turning it alone can strain your back or crush fingers.",
		Avoid:       "Two people lift, by the frame, with gloves.",
	}, []Operation{Lift}}, w.any(Lift)
}

func bolts(w work) (message, bool) {
	fold := "a loose frame can fold."
	if SatIn(w.plan) {
		fold = "a loose frame can fold under a sitter."
	}
	return message{model.Caution{
		Key:         "bolts",
		Signal:      model.Careful,
		Hazard:      "Wood shrinks and bolts come loose;",
		Consequence: fold,
		Avoid:       "Tighten every bolt one month after building and again each spring; stop using it if a joint moves.",
	}, []Operation{Bolt}}, w.any(Bolt)
}

// inStore is damage to things only, so it carries no triangle.
func inStore(w work) (message, bool) {
	return message{model.Caution{
		Key:         "end-grain",
		Signal:      model.NoticeOf,
		Hazard:      "Unsealed end grain drinks water from the ground",
		Consequence: "and rots the feet first.",
		Avoid:       "Coat every sawn end, feet twice, before the piece stands outdoors, and keep feet off soil.",
	}, []Operation{Coat}}, w.any(Coat) && len(w.plan.Placed) > 0
}

// hasMeasure reports whether the plan names a value so.
func hasMeasure(plan *model.Plan, name string) bool {
	for _, m := range plan.Measures {
		if m.Name == name {
			return true
		}
	}
	return false
}

// shortest is ShortEnd as the reader measures it.
func shortest(plan *model.Plan) string {
	if metric(plan) {
		return "300 mm"
	}
	return "12 in"
}

// list joins words with commas and an "and".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
