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
		n, more, less := count[p], "right", "left"
		if n < 0 {
			n, more, less = -n, "left", "right"
		}
		if n != 0 {
			out = append(out, Finding{Severity: Error, Parts: []string{p.Code}, Value: float64(n), Text: fmt.Sprintf("%s: %d more %s than %s", called(p), n, more, less),
				Fix: fmt.Sprintf("place %d more of the %s hand", n, less)})
		}
	}
	return out
}
