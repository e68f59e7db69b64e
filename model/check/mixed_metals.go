package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model"
	"planset/model/wood"
)

// A metal and how noble it is: its anodic index in volts, the greater the less
// noble (the usual table of the trade, from memory). Metals that touch in the rain
// should lie no farther apart than metalsApart (from memory; 0.25 V does indoors);
// the less noble one is eaten.
type metal struct {
	name  string
	index float64
	words []string // by which a material is known, in small letters
}

const (
	metalsApart = 0.15
	metalTouch  = 0.5 // mm
)

func metals() []metal {
	return []metal{
		{"stainless steel", 0.50, []string{"stainless"}},
		{"brass", 0.45, []string{"brass"}},
		{"bronze", 0.40, []string{"bronze"}},
		{"copper", 0.35, []string{"copper"}},
		{"aluminum", 0.90, []string{"aluminum", "aluminium"}},
		{"zinc-coated steel", 1.20, []string{"hot-dip", "hot dip", "zinc", "galvanized", "galvanised"}},
	}
}

// plainSteel is what hardware is of whose material names steel and no other metal.
func plainSteel() metal { return metal{"plain steel", 0.85, nil} }

// metalsOf are the metals a material names: "stainless steel or hot-dip
// galvanized" leaves the buyer two. Under another coat than zinc none is bare.
func metalsOf(material string) []metal {
	m := strings.ToLower(material)
	var out []metal
	for _, k := range metals() {
		if slices.ContainsFunc(k.words, func(w string) bool { return strings.Contains(m, w) }) || k.name == "stainless steel" && isStainless(m) {
			out = append(out, k)
		}
	}
	if len(out) == 0 && rusty(material) {
		out = append(out, plainSteel())
	}
	return out
}

// mixedMetals finds different metals that touch: a bolt and its washer or nut,
// or fasteners that lie on each other.
func mixedMetals(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		for _, w := range j.With {
			s.metalPair(&t, metalsMeet{j.Hardware, w, j, j}, partsOf(j)...)
		}
	}
	all := s.fasteners()
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.Hardware.Material != b.Hardware.Material && s.metalsTouch(a, b) {
				s.metalPair(&t, metalsMeet{a.Hardware, b.Hardware, a.Joint, b.Joint},
					s.Placed[a.Pieces[0]].Part, s.Placed[a.Pieces[1]].Part, s.Placed[b.Pieces[0]].Part, s.Placed[b.Pieces[1]].Part)
			}
		}
	}
	return t.list()
}

// metalsMeet is two pieces of hardware that touch, and the joints they are in.
type metalsMeet struct {
	a, b   *model.Hardware
	ja, jb *model.Joint
}

func (s *shop) metalPair(t *tally, m metalsMeet, parts ...*model.Part) {
	// Where both leave the same choice, the buyer takes one for both.
	if m.a == nil || m.a.Material == m.b.Material {
		return
	}
	var worst [2]metal
	most, least := 0.0, math.Inf(1)
	for _, a := range metalsOf(m.a.Material) {
		for _, b := range metalsOf(m.b.Material) {
			v := math.Abs(a.index - b.index)
			if least = math.Min(least, v); v > most {
				worst, most = [2]metal{a, b}, v
			}
		}
	}
	if most <= metalsApart+1e-9 {
		return
	}
	level := Error
	if least <= metalsApart+1e-9 { // the buyer may choose two that agree
		level = Warning
	}
	noble := worst[0]
	if worst[1].index < noble.index {
		noble = worst[1]
	}
	where := jointName(m.ja)
	if m.ja != m.jb {
		where += " and " + jointName(m.jb)
	}
	// Washer and nut of one bolt are one finding.
	t.add(m.ja.Key+"\x00"+m.jb.Key+"\x00"+worst[0].name+"\x00"+worst[1].name, most, Finding{Severity: level, Value: most, Limit: metalsApart, Unit: "V",
		Text: fmt.Sprintf("%s: a %s of %s touches a %s of %s; they lie %.2f V apart, and %.2f V is the most in the rain", where, m.a.Name, worst[0].name, m.b.Name, worst[1].name, most, metalsApart),
		Fix:  fmt.Sprintf("take both of %s", noble.name)}, parts...)
}

// metalsTouch reports whether two fasteners lie on each other: their shanks, or
// head, washer and nut where these stand on one face.
func (s *shop) metalsTouch(a, b model.Fastener) bool {
	if a.Head.Sub(b.Head).Len() > a.Length+b.Length+60 {
		return false
	}
	if shaft(a).to(shaft(b)).Len() < (a.Hardware.Diam+b.Hardware.Diam)/2+metalTouch {
		return true
	}
	for _, d := range discsOf(a) {
		for _, e := range discsOf(b) {
			way := e.P.Sub(d.P)
			rise := math.Abs(way.Dot(a.Dir))
			if math.Abs(a.Dir.Dot(b.Dir)) > 0.99 && rise < discThick && math.Sqrt(math.Max(0, way.Dot(way)-rise*rise)) < d.r+e.r+metalTouch {
				return true
			}
		}
	}
	return false
}

// discThick is how thick heads and washers lie on the wood, mm.
const discThick = 3

// discsOf are a fastener's head and, of a bolt, its washer or nut, as discs on
// the wood.
func discsOf(f model.Fastener) []rod {
	if sc, ok := wood.Screw(f.Hardware.Size); ok && isScrew(f) {
		return []rod{{segment{P: f.Head}, sc.Head / 2}}
	}
	size, ok := wood.Bolt(f.Hardware.Size)
	if !ok || !isBolt(f) {
		return nil
	}
	return []rod{{segment{P: f.Head}, size.Head.Max / 2}, {segment{P: f.Head.Add(f.Dir.Mul(f.Grip))}, washerRadius(f, size)}}
}
