package check

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// A text that speaks of parts by letter: "part K", "parts C, D1 and E". I and O
// are no part letters.
var (
	byLetter  = regexp.MustCompile(`\b[Pp]arts? ([A-HJ-NP-Z]{1,2}\d*(?:(?:, | and |, and | or )[A-HJ-NP-Z]{1,2}\d*)*)\b`)
	oneLetter = regexp.MustCompile(`[A-HJ-NP-Z]{1,2}\d*`)
)

// letters finds texts that name a part by a letter that no part has.
func letters(s *shop) []Finding {
	var known []string
	for _, p := range s.Parts {
		known = append(known, p.Code, p.Family)
	}
	var out []Finding
	for _, text := range s.texts() {
		for _, m := range byLetter.FindAllStringSubmatch(text.words, -1) {
			for _, code := range oneLetter.FindAllString(m[1], -1) {
				if !slices.Contains(known, code) {
					out = append(out, Finding{Severity: Warning, Text: fmt.Sprintf("%s speaks of part %s, and no part has that letter", text.where, code),
						Fix: "name the part in braces, as {code leg}, so that its letter follows"})
				}
			}
		}
	}
	return out
}

// said is a text of the buyer's and where it stands.
type said struct{ where, words string }

// texts are all that the author wrote for the buyer.
func (s *shop) texts() []said {
	out := []said{{"the intro", s.Intro}, {"a note", strings.Join(s.Notes, " ")}, {"the finish", strings.Join(append(s.Finish.Text, s.Finish.EndGrain), " ")}, {"the care", strings.Join(s.Care, " ")}}
	for _, st := range s.Steps {
		out = append(out, said{fmt.Sprintf("step %d", st.Number), strings.Join(append([]string{st.Title, st.Do, st.Test, st.Watch, st.Mistake, st.Turned}, st.Notes...), " ")})
	}
	for _, p := range s.Parts {
		out = append(out, said{"the note of " + called(p), p.Note})
	}
	for _, j := range s.Joints {
		out = append(out, said{"the note of " + jointName(j), j.Note})
	}
	return slices.DeleteFunc(out, func(t said) bool { return t.words == "" })
}
