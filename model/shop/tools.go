package shop

import (
	"slices"
	"strings"

	"planset/model"
)

// A Tool is one line of the tool list.
type Tool struct {
	Group    string // "Sawing"
	Name     string // "Table saw with guard and push stick"
	For      string // "ripping", what it is needed for in words
	Parts    []string
	Steps    []int
	Size     string // bit, opening, setting; may be empty
	Instead  string // what will do as well; may be empty
	Uncommon bool   // the one tool a beginner may not own
}

// The groups of tools, in the order of the list.
const (
	Laying     = "Measuring and marking"
	Sawing     = "Sawing"
	Shaping    = "Shaping and smoothing"
	Drilling   = "Drilling and driving"
	Holding    = "Clamping and gluing"
	Protection = "Protection"
)

// toolKind is a tool and the operations that ask for it.
type toolKind struct {
	group, name, instead string
	ops                  []Operation
	rare                 bool // may be the uncommon one
}

// chest is every tool we know, in the order of the list. What will do instead
// is common practice of the trade.
func chest() []toolKind {
	return []toolKind{
		{Laying, "Tape, square, pencil, awl", "", []Operation{Measure}, false},
		{Laying, "Bevel gauge", "card cut to the angle", []Operation{Miter, EndBevel, EdgeBevel, Compound}, false},
		{Sawing, "Circular saw and guide", "table saw", []Operation{Rip}, false},
		{Sawing, "Miter saw", "circular saw and square", []Operation{Crosscut, Miter}, false},
		{Sawing, tiltSaw, "hand saw in a guide block", []Operation{Compound, EndBevel}, true},
		{Sawing, tableSaw, "circular saw, strip clamped", []Operation{RipNarrow, EdgeBevel}, true},
		{Sawing, "Taper jig", "jigsaw and plane", []Operation{Taper}, false},
		{Sawing, "Jigsaw, fine blade", "band saw, coping saw", []Operation{Curve, Notch}, false},
		{Shaping, roundBit, "block plane", []Operation{Roundover}, false},
		{Shaping, "Block plane", "chamfer bit", []Operation{Chamfer}, false},
		{Shaping, straightBit, "saw kerfs and a chisel", []Operation{Groove}, true},
		{Shaping, sander, "sanding block", []Operation{Sand}, false},
		{Drilling, drill, "", []Operation{Drill, MatchDrill, DriveScrew}, false},
		{Drilling, "Countersink bit", "larger twist bit by hand", []Operation{Sink}, false},
		{Drilling, "Flat bit for counterbores", "", []Operation{Bore}, false},
		{Drilling, "Plug cutter", "bought plugs", []Operation{Plug}, false},
		{Drilling, pocketJig, "screwed cleat", []Operation{Pocket}, true},
		{Drilling, wrench, "adjustable wrench", []Operation{Bolt}, false},
		{Holding, barClamps, "", []Operation{Clamp}, false},
		{Holding, "Brushes, lint-free rags", "", []Operation{Glue, Coat}, false},
		{Protection, "Safety glasses, ear protection, dust mask", "", []Operation{Crosscut, Sand}, false},
	}
}

// The tools that are asked for by name below.
const (
	tiltSaw     = "Tilting miter saw"
	tableSaw    = "Table saw with guard and push stick"
	roundBit    = "Router, roundover bit"
	straightBit = "Router, straight bit"
	sander      = "Orbital sander"
	pocketJig   = "Pocket-hole jig, bit"
	wrench      = "Socket wrench, mallet"
	barClamps   = "Bar clamps"
)

// Tools returns the tools a plan needs, in groups in the order of the work. No
// more than one is marked uncommon: the first of the rarer ones that is needed.
func Tools(plan *model.Plan) []Tool {
	jobs := OperationsOf(plan)
	var all []Tool
	for _, k := range chest() {
		t := Tool{Group: k.group, Name: k.name, Instead: k.instead}
		var what []string
		for _, j := range jobs {
			if slices.Contains(k.ops, j.Op) {
				what = append(what, string(j.Op))
				t.Parts = mergeCodes(plan, t.Parts, j.Parts)
				t.Steps = append(t.Steps, j.Steps...)
			}
		}
		if len(what) == 0 {
			continue
		}
		slices.Sort(t.Steps)
		t.Steps = slices.Compact(t.Steps)
		t.For = strings.Join(what, ", ")
		t.Size = size(plan, k)
		all = append(all, t)
		if k.name == drill {
			all = append(all, angled(plan)...)
		}
	}
	return flag(slices.Insert(all, shown(all), gauges(plan)...))
}

// shown is where the tools of measuring end.
func shown(all []Tool) int {
	i := slices.IndexFunc(all, func(t Tool) bool { return t.Group != Laying })
	if i < 0 {
		return len(all)
	}
	return i
}

// flag marks the first of the rarer tools, judged from the rarest down.
func flag(all []Tool) []Tool {
	for _, name := range []string{
		pocketJig, straightBit, tiltSaw, tableSaw,
	} {
		if i := slices.IndexFunc(all, func(t Tool) bool { return t.Name == name }); i >= 0 {
			all[i].Uncommon = true
			return all
		}
	}
	return all
}

// mergeCodes returns have with the codes of parts, in the order of the plan,
// a family by its family's code.
func mergeCodes(plan *model.Plan, have []string, parts []*model.Part) []string {
	var out []string
	for _, p := range plan.Parts {
		code := FamilyCode(p)
		if (slices.Contains(have, code) || slices.Contains(parts, p)) && !slices.Contains(out, code) {
			out = append(out, code)
		}
	}
	return out
}

// FamilyCode returns the code of p's family, or its own when it stands alone.
func FamilyCode(p *model.Part) string {
	if p.Family != "" {
		return p.Family
	}
	return p.Code
}

// size says what size of the tool the plan needs.
func size(plan *model.Plan, k toolKind) string {
	switch k.name {
	case barClamps:
		n, opening := Clamps(plan)
		if n == 0 {
			return ""
		}
		return say("%d, opening %s", n, plan.Unit.Long(opening))
	case roundBit:
		return radii(plan)
	case pocketJig:
		return pocketSetting(plan)
	case sander:
		return "80, 120, 150 grit"
	case wrench:
		return boltSizes(plan)
	case drill:
		return longBit(plan)
	}
	return ""
}

// radii lists the radii of the roundovers.
func radii(plan *model.Plan) string {
	var out []string
	for _, p := range plan.Parts {
		for _, a := range p.Arrises {
			if s := plan.Unit.Long(a.Size); !a.Chamfer && !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "radius " + list(out)
}

// pocketSetting says to which thickness the jig is set.
func pocketSetting(plan *model.Plan) string {
	var out []string
	for _, p := range plan.Parts {
		if s := plan.Unit.Long(p.Thick); len(p.Pockets) > 0 && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "wood " + list(out) + " thick"
}

// boltSizes lists the sizes of the bolts whose nuts are turned.
func boltSizes(plan *model.Plan) string {
	var out []string
	for _, h := range plan.Hardware {
		if isBolt(h.Kind) && !slices.Contains(out, h.Size) {
			out = append(out, h.Size)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return list(out) + " nuts"
}

func isBolt(k model.HardwareKind) bool { return k == model.CarriageBolt || k == model.HexBolt }

// Clamps returns how many bar clamps a plan needs at once and how wide they
// must open, in mm; both are 0 when nothing is clamped. A pair drilled together
// takes two; a glued place takes two, and the largest glue-up of one step counts.
func Clamps(plan *model.Plan) (count int, opening float64) {
	for _, j := range plan.Joints {
		held := j.Glue || j.Bond || matched(j)
		if !held {
			continue
		}
		count = max(count, 2)
		opening = max(opening, Held(j))
	}
	for _, s := range plan.Steps {
		places := 0
		for _, j := range s.Fasten {
			if j.Bond || j.Glue && j.Hardware == nil {
				places += max(1, j.Places)
			}
		}
		count = max(count, 2*places)
	}
	return count, opening
}

// Held returns how much wood is clamped where j is made, in mm: the sum of its
// layers or, without them, of its thickest parts.
func Held(j *model.Joint) float64 {
	sum := 0.0
	for _, l := range j.Stack {
		sum += l.Thick
	}
	if sum > 0 {
		return sum
	}
	return thickest(j.First) + thickest(j.Second)
}

func thickest(parts []*model.Part) float64 {
	t := 0.0
	for _, p := range parts {
		t = max(t, p.Thick)
	}
	return t
}

// A Bit is one drill of the drill list.
type Bit struct {
	Diam  float64 // mm, on the grid drills are sold in
	Size  string  // as the reader buys it
	What  string  // "bolt holes", "pilot holes"
	Depth float64 // mm from the mouth, for the stop; 0 right through
	For   []string
}

// Bits returns the drills a plan needs, thickest first: one line for each size,
// use and depth.
func Bits(plan *model.Plan) []Bit {
	var all []Bit
	add := func(diam, depth float64, what, code string) {
		if diam <= 0 {
			return
		}
		b := Bit{Diam: drillGrid(plan, diam), What: what, Depth: depth}
		b.Size = drillSize(plan, b.Diam)
		same := func(o Bit) bool { return o.Size == b.Size && o.What == what && near(o.Depth, depth) }
		i := slices.IndexFunc(all, same)
		if i < 0 {
			i = len(all)
			all = append(all, b)
		}
		if !slices.Contains(all[i].For, code) {
			all[i].For = append(all[i].For, code)
		}
	}
	for _, p := range plan.Parts {
		for _, h := range p.Holes {
			add(h.BoreDiam, h.BoreDepth, "counterbores", FamilyCode(p))
			add(h.Diam, h.Depth, holeWords(h), FamilyCode(p))
		}
	}
	slices.SortStableFunc(all, func(a, b Bit) int {
		return cmpFloat(b.Diam, a.Diam, b.Depth, a.Depth)
	})
	return all
}

func holeWords(h model.Hole) string {
	switch h.Kind {
	case model.BoltHole:
		return "bolt holes"
	case model.ClearanceHole:
		return "clearance holes"
	case model.PilotHole:
		return "pilot holes"
	}
	return "holes"
}

func near(a, b float64) bool { return a-b < slack && b-a < slack }

// cmpFloat compares a with b and, when they are near, c with d.
func cmpFloat(a, b, c, d float64) int {
	switch {
	case near(a, b) && near(c, d):
		return 0
	case near(a, b) && c < d, !near(a, b) && a < b:
		return -1
	}
	return 1
}

// Numbers writes step numbers with runs drawn together, as "1, 3-5".
func Numbers(n []int) string {
	var out []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		switch {
		case j == i:
			out = append(out, say("%d", n[i]))
		case j == i+1:
			out = append(out, say("%d", n[i]), say("%d", n[j]))
		default:
			out = append(out, say("%d–%d", n[i], n[j]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}
