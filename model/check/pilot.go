package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/wood"
)

// A pilot hole is so wide a share of a screw's root in soft wood and in dense
// wood: what published pilot-hole charts span (they disagree by a sixty-fourth
// or two; 70 % and 90 % of the root are the figures of the Wood Handbook, ch. 8).
// A pilot that takes more than half of the thread's depth holds nothing.
const (
	pilotSoftLeast = 0.62
	pilotSoftMost  = 0.85
	pilotHardLeast = 0.83
	pilotHardMost  = 1.12
	pilotDense     = 0.5 // specific gravity at 12 %
)

// A pilot must be drilled this near an end, in wood this thin and in dense wood
// (common practice); elsewhere soft wood takes a screw without (NDS, from memory).
const (
	pilotNearEnd = 50.8
	pilotThin    = 19.05
)

// The hole in the part under the head lets the shank turn freely, and is no
// more than 1/32 in wider than it (common practice). Number drills differ from
// sixty-fourths by clearTight.
const (
	clearTight = 0.1
	clearLoose = 0.79375
)

// pilot finds screws that are driven without the pilot hole they must have, and
// pilot and clearance holes that do not suit the screw and the wood.
func pilot(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if j.Hardware == nil || j.Hardware.Kind != model.WoodScrew {
			continue
		}
		size, known := wood.Screw(j.Hardware.Size)
		if !known {
			continue
		}
		s.clearance(&t, j, size)
		for _, f := range j.Fasteners {
			s.pilotOf(&t, s.bores(f)[1], size)
		}
	}
	return t.list()
}

// pilotFit is what a pilot in some wood should be.
type pilotFit struct{ least, most, right float64 }

func fitOf(size wood.ScrewSize, w wood.Wood) pilotFit {
	if w.SG12 >= pilotDense {
		return pilotFit{pilotHardLeast * size.Root, pilotHardMost * size.Root, size.Pilot(w)}
	}
	return pilotFit{pilotSoftLeast * size.Root, pilotSoftMost * size.Root, size.Pilot(w)}
}

func (s *shop) pilotOf(t *tally, b bore, size wood.ScrewSize) {
	j, p := b.Joint, b.piece.Part
	w, _ := wood.Species(p.Stock.Species)
	fit, why := fitOf(size, w), s.pilotWhy(b, w)
	f := Finding{Severity: Warning, Value: j.Pilot, Limit: fit.least, Unit: "mm", Fix: fmt.Sprintf("make the pilot %s, or leave the key out", s.drill(fit.right))}
	switch {
	case j.Pilot >= fit.least-drillTol && j.Pilot <= fit.most+drillTol:
		return
	case j.Pilot < fit.least:
		if j.Pilot == 0 && why == "" {
			return
		}
		if why != "" {
			f.Severity = Error
		}
		f.Text = fmt.Sprintf("%s: a pilot of %s for a screw of %s in %s splits it%s", jointName(j), s.drill(j.Pilot), size.Size, called(p), why)
		if j.Pilot == 0 {
			f.Text = fmt.Sprintf("%s: no pilot for a screw of %s in %s: it splits%s", jointName(j), size.Size, called(p), why)
		}
	default:
		f.Limit = fit.most
		if j.Pilot > (size.Root+size.Diameter)/2 {
			f.Severity = Error
		}
		f.Text = fmt.Sprintf("%s: a pilot of %s leaves a screw of %s too little wood to bite in %s; %s is the most", jointName(j), s.drill(j.Pilot), size.Size, called(p), s.drill(fit.most))
	}
	// An error stands for the warnings of the same joint.
	t.add(j.Key+"\x00"+p.Key, float64(-rank(f.Severity)), f, p)
}

// pilotWhy says why a screw must have a pilot, "" when soft wood takes it
// without.
func (s *shop) pilotWhy(b bore, w wood.Wood) string {
	thick := b.piece.Part.Thick
	end, ok := b.beside(b.piece.Pose.Along)
	switch {
	case w.Hardwood || w.SG12 >= pilotDense:
		return ", " + w.Name + " is hard"
	case thick <= pilotThin+slack:
		return fmt.Sprintf(", it is only %s thick", s.long(thick))
	case ok && end < pilotNearEnd-slack:
		return fmt.Sprintf(", %s from its end", s.long(end))
	}
	return ""
}

func (s *shop) clearance(t *tally, j *model.Joint, size wood.ScrewSize) {
	d := size.Diameter
	f := Finding{Severity: Error, Value: j.Clear, Limit: d, Unit: "mm", Fix: fmt.Sprintf("make the clearance %s, or leave the key out", s.drill(size.Clearance))}
	switch {
	case j.Clear < d-clearTight:
		f.Text = fmt.Sprintf("%s: a clearance of %s for a shank of %s: the thread holds both parts apart", jointName(j), s.drill(j.Clear), s.drill(d))
	case j.Clear > d+clearLoose+drillTol:
		f.Severity, f.Limit = Warning, d+clearLoose
		f.Text = fmt.Sprintf("%s: a clearance of %s for a shank of %s; %s is the most", jointName(j), s.drill(j.Clear), s.drill(d), s.drill(d+clearLoose))
	default:
		return
	}
	t.add(j.Key+"\x00clearance", math.Abs(j.Clear-d), f, j.First...)
}
