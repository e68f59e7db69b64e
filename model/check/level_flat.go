package check

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/geom"
)

// A level board 3 in wide and more cups and holds water: it gets a fall of 1
// degree, or its bark side up, so that it crowns (common practice).
const (
	flatWide = 76.2
	flatFall = 1 // degrees
)

// crowned are the words that choose the side that goes up.
var crowned = []string{"bark side up", "crown up", "heart side down"}

// crowned reports whether the note of a part, a note for all of them or a step
// that makes it says which side goes up.
func (s *shop) crowned(p *model.Part) bool {
	return hasWord(p.Note, crowned...) || hasWord(strings.Join(s.Notes, " "), crowned...) || s.madeWith(p, crowned...)
}

// levelFlat points out wide level boards under the sky.
func levelFlat(s *shop) []Finding {
	var t tally
	for i, p := range s.Placed {
		for k, f := range p.Solid.Faces {
			fall := math.Acos(math.Max(-1, math.Min(1, f.N.Z))) * 180 / math.Pi
			if f.Kind != geom.Flat || f.Smooth != 0 || fall >= flatFall-angleTol || p.Part.Width < flatWide-slack {
				continue
			}
			if s.coveredArea(i, k) > f.Area()/2 || s.crowned(p.Part) {
				continue
			}
			t.add("level", p.Part.Width, Finding{Severity: Note, Value: p.Part.Width, Limit: flatWide, Unit: "mm",
				Text: fmt.Sprintf("level and up to %s wide; a board that cups holds water", s.long(p.Part.Width)),
				Fix:  fmt.Sprintf(`let a note say "Bark side up", or give it a fall of %s over its width`, s.more(p.Part.Width*math.Tan(1.5*math.Pi/180)))}, p.Part)
		}
	}
	return t.named()
}
