package marks

import (
	"fmt"

	"planset/model"
)

// Note writes the critical marks onto the parts and holes of a plan, numbered,
// for the drawings to show. It is the last thing done to a plan before sheets
// are made of it.
func Note(p *model.Plan) {
	for i, m := range Critical(p) {
		m.Part.Critical = append(m.Part.Critical, fmt.Sprintf("%d: %s: %s.", i+1, m.What, m.Text))
		for k := range m.Part.Holes {
			if m.Hole != "" && m.Part.Holes[k].Name == m.Hole {
				m.Part.Holes[k].Critical = i + 1
			}
		}
	}
}
