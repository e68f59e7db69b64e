package shop

import (
	"slices"
	"strings"

	"planset/model"
)

// gauges are the tools with which the steps are checked, where their pictures
// show them, in one line.
func gauges(plan *model.Plan) []Tool {
	t := Tool{Group: Laying, For: "checking"}
	names := map[model.ShowKind]string{model.ShowLevel: "spirit level", model.ShowPlumb: "spirit level", model.ShowFlat: "straightedge", model.ShowGap: "spacers"}
	var all, sizes []string
	for _, s := range plan.Steps {
		for _, show := range s.Shows {
			name, takes := names[show.Kind]
			if !takes {
				continue
			}
			t.in(plan, s)
			all = once(all, name)
			if show.Kind == model.ShowGap && show.Text != "" {
				sizes = once(sizes, show.Text)
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	slices.Sort(all)
	t.Name = strings.ToUpper(all[0][:1]) + strings.Join(all, ", ")[1:]
	t.Size = strings.Join(sizes, ", ")
	return []Tool{t}
}

// once adds a word that is not in the list yet.
func once(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// in notes a step, and the parts that it adds.
func (t *Tool) in(plan *model.Plan, s *model.Step) {
	if !slices.Contains(t.Steps, s.Number) {
		t.Steps = append(t.Steps, s.Number)
	}
	for _, i := range s.Add {
		t.Parts = mergeCodes(plan, t.Parts, []*model.Part{plan.Placed[i].Part})
	}
}
