package check

import (
	"fmt"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

// A bookcase of more than three times its depth, or of more than 24 in, is tied
// to a wall; so is anything else that is both and is not sat on (common practice).
const (
	tallTimes = 3.0
	tallHigh  = 609.6
)

// tall finds tall things that no step ties to a wall.
func tall(s *shop) []Finding {
	if len(s.Placed) == 0 || s.anchored() {
		return nil
	}
	box := geom.NoBox3()
	for _, b := range s.boxes {
		box = box.Union(b)
	}
	high, deep := box.Max.Z, min(box.Size().X, box.Size().Y)
	slim := high > tallTimes*deep
	_, sat := people.SitOf(s.Plan)
	named := s.Kind == model.Bookcase && (slim || high > tallHigh+slack)
	if !named && (s.Kind != "" || sat || !slim || high <= tallHigh+slack) {
		return nil
	}
	f := Finding{Severity: Warning, Value: high, Limit: tallHigh, Unit: "mm",
		Text: fmt.Sprintf("it is %s high and %s deep; over %s it is tied to a wall, or a child that climbs it brings it down", s.long(high), s.long(deep), s.long(tallHigh)),
		Fix:  "let the last step tie its top to the wall with a wall anchor"}
	if slim {
		f.Value, f.Limit, f.Unit = high/deep, tallTimes, ""
		f.Text = fmt.Sprintf("it is %s high and %s deep, %.1f times; over %.0f times it is tied to a wall, or a child that climbs it brings it down", s.long(high), s.long(deep), high/deep, tallTimes)
	}
	return []Finding{f}
}

// anchored reports whether a step fixes an anchor: it goes into the wall, so no
// joint of the piece can say so.
func (s *shop) anchored() bool {
	return slices.ContainsFunc(s.Steps, func(st *model.Step) bool { return says(st, "wall anchor") })
}
