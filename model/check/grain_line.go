package check

import (
	"fmt"
	"math"

	"planset/model"
)

// Two screws in one line of the grain split the wood between them: 3/4 in and 4
// diameters keep it whole in drilled holes (common practice; the spacing in a row
// for full value of NDS chapter 12). The 10 diameters that its commentary is said
// to ask of screws are remembered with doubt and not held against a plan. Set off
// by 3 diameters across the grain they are in two lines.
const (
	lineDiams = 4
	lineLeast = 19.05
	lineApart = 3
)

// grainLine finds screws too near each other along one line of the grain.
func grainLine(s *shop) []Finding {
	in := make([][]bore, len(s.Placed))
	s.eachScrew(func(b bore) { in[b.piece.Index] = append(in[b.piece.Index], b) })
	var t tally
	for _, list := range in {
		for i, a := range list {
			for _, b := range list[i+1:] {
				s.oneLine(&t, a, b)
			}
		}
	}
	return t.named()
}

func (s *shop) oneLine(t *tally, a, b bore) {
	pose := a.piece.Pose
	// Screws that do not run side by side are no row.
	if math.Abs(a.Dir.Dot(b.Dir)) < 0.9 || math.Abs(a.Dir.Dot(pose.Along)) > 0.7 {
		return
	}
	d := math.Max(a.Hardware.Diam, b.Hardware.Diam)
	way := b.mouth.Sub(a.mouth)
	way = way.Sub(a.Dir.Mul(way.Dot(a.Dir)))
	along := math.Abs(way.Dot(pose.Along))
	across := math.Sqrt(math.Max(0, way.Dot(way)-along*along))
	least := math.Max(lineLeast, lineDiams*d)
	// Screws that stand side by side share no line of the grain.
	if across >= lineApart*d-slack || along >= least-endMarked || along < across {
		return
	}
	has, wants := s.against(along, least)
	t.add(a.joint("line")+b.Joint.Key, least-along, Finding{Severity: Warning, Value: along, Limit: least, Unit: "mm",
		Text: fmt.Sprintf("two screws%s sit %s apart in one line of the grain; %s keeps the wood whole", ofJoints(a.Joint, b.Joint), has, wants),
		Fix:  fmt.Sprintf("move one %s along the grain, or %s across it", s.more(least-along), s.more(lineApart*d-across))}, a.piece.Part)
}

// holesOf are the holes of a part for a joint.
func holesOf(p *model.Part, j *model.Joint) []model.Hole {
	var out []model.Hole
	for _, h := range p.Holes {
		if h.Joint == j {
			out = append(out, h)
		}
	}
	return out
}
