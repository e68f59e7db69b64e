package sheets

import (
	"strings"

	"planset/model"
	"planset/render/view"
)

// upsideDown in the words of a step's camera shows the work standing on its
// head: "front left high upside down" looks at the front and the left side from
// above what is now the top, its feet.
const upsideDown = "upside down"

// camera reads the words of a step. The error is that of view.Words.
func camera(words string) (view.Camera, error) {
	upright, turned := strings.CutSuffix(strings.TrimSpace(words), upsideDown)
	if !turned {
		return view.Words(words)
	}
	// Seen from above, the work shows what it shows from below when it stands:
	// the picture of that, turned half round.
	switch {
	case strings.Contains(upright, "low"):
		upright = strings.Replace(upright, "low", "high", 1)
	case strings.Contains(upright, "high"):
		upright = strings.Replace(upright, "high", "low", 1)
	case !strings.Contains(upright, "level") && len(strings.Fields(upright)) == 2:
		upright += " low"
	}
	cam, err := view.Words(upright)
	cam.Right, cam.Up = cam.Right.Neg(), cam.Up.Neg()
	return cam, err
}

// lookFrom is the camera of words, or that of the cover when they say nothing
// that is understood.
func lookFrom(words string) view.Camera {
	cam, err := camera(words)
	if err != nil {
		cam, _ = camera(heroView)
	}
	return cam
}

// viewOf is the words of a step's camera, those of the cover when it has none.
func viewOf(st *model.Step) string {
	if _, err := camera(st.View); err != nil {
		return heroView
	}
	return st.View
}

// viewWords says from where a picture looks, and when that has changed since
// the step before.
func (d *desk) viewWords(st *model.Step) string {
	words := viewOf(st)
	s := "Seen from the "
	if before := d.viewBefore(st); before != "" && before != words {
		s = "Now seen from the "
	}
	return s + seenFrom(words)
}

// seenFrom writes a camera's words as one says them: "front right, above".
func seenFrom(words string) string {
	upright, turned := strings.CutSuffix(strings.TrimSpace(words), upsideDown)
	var sides []string
	level := ""
	for _, w := range strings.Fields(upright) {
		switch w {
		case "high":
			level = ", above"
		case "low":
			level = ", below"
		case "level":
		default:
			sides = append(sides, w)
		}
	}
	s := strings.Join(sides, " ") + level
	if turned {
		s += ", the work upside down"
	}
	return s
}
