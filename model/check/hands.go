package check

import (
	"fmt"

	"planset/model"
)

// hands finds handed parts with more of one hand than of the other.
func hands(s *shop) []Finding {
	count := map[*model.Part]int{}
	for _, p := range s.Placed {
		switch p.Hand {
		case model.LeftHand:
			count[p.Part]--
		case model.RightHand:
			count[p.Part]++
		}
	}
	var out []Finding
	for _, p := range s.Parts {
		if n := count[p]; n != 0 {
			out = append(out, Finding{Severity: Error, Parts: []string{p.Code}, Value: float64(n), Text: fmt.Sprintf("%s: %d more right than left", called(p), n), Fix: "place as many of one hand as of the other"})
		}
	}
	return out
}
