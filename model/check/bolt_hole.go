package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/wood"
)

// A bolt's hole is 1/32 to 1/16 in wider than the bolt (NDS chapter 12); metric
// drills go by half millimetres, so it is 0.5 to 1 mm there. A drill cuts no
// truer than drillTol.
const (
	holeTight       = 0.79375
	holeLoose       = 1.5875
	holeTightMetric = 0.5
	holeLooseMetric = 1
	drillTol        = 0.06
)

// boltPlay is how much wider than the bolt its hole should be, and the drill
// that does it.
type boltPlay struct{ least, most, drill float64 }

func (s *shop) playOf(h *model.Hardware) boltPlay {
	out := boltPlay{holeTight, holeLoose, h.Diam + holeLoose}
	size, known := wood.Bolt(h.Size)
	if known && size.Metric || !known && s.Unit == expr.MM {
		out = boltPlay{holeTightMetric, holeLooseMetric, h.Diam + holeLooseMetric}
	}
	if known {
		out.drill = size.Hole
	}
	return out
}

// boltHole finds bolt holes that are too tight to push the bolt in, or so wide
// that the joint turns in them.
func boltHole(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if j.Hardware == nil || len(j.Fasteners) == 0 || !isBolt(j.Fasteners[0]) {
			continue
		}
		want := s.playOf(j.Hardware)
		for _, p := range partsOf(j) {
			for _, h := range holesOf(p, j) {
				s.boltFit(&t, p, h, want)
			}
		}
	}
	return t.list()
}

func (s *shop) boltFit(t *tally, p *model.Part, h model.Hole, want boltPlay) {
	j, d := h.Joint, h.Joint.Hardware.Diam
	play := h.Diam - d
	f := Finding{Severity: Warning, Value: play, Limit: want.least, Unit: "mm",
		Text: fmt.Sprintf("%s: a hole of %s for a bolt of %s", jointName(j), s.drill(h.Diam), s.drill(d)), Fix: "drill " + s.drill(want.drill)}
	switch {
	case play < want.least-drillTol:
		if play < 0 {
			f.Severity = Error
		}
		f.Text += "; it does not push in"
		t.add(j.Key+p.Key+"tight", -play, f, p)
	case play > want.most+drillTol:
		f.Limit = want.most
		f.Text += turns(holesOf(p, j), play)
		t.add(j.Key+p.Key+"loose", play, f, p)
	}
}

// turns tells how far the joint can turn in its holes: twice the play over the
// way between the bolts.
func turns(holes []model.Hole, play float64) string {
	most := 0.0
	for _, a := range holes {
		for _, b := range holes {
			most = math.Max(most, a.InPart.Sub(b.InPart).Len())
		}
	}
	if most < 1 {
		return ": one bolt alone lets it turn"
	}
	return fmt.Sprintf(": until the bolts bite, the joint turns by %s", degrees(2*play/most*180/math.Pi))
}
