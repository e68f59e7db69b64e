package assembly

import (
	"encoding/hex"
	"regexp"
	"slices"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
)

// write fills in the words of the plan: who made it, steps, finish, editions.
func (s *solver) write() {
	in, p := s.d.Info, s.plan
	if !in.Title.Given() {
		s.problems.Errorf(s.top(), "title", "the plan has no title").Fix(`write title = "..." in [plan]`)
	}
	p.Title, p.Slug, p.Purpose, p.Intro = in.Title.Text, in.Slug.Text, s.text(in.Purpose), s.text(in.Intro)
	p.Revision, p.Date, p.Skill, p.Hours = in.Revision.Text, in.Date.Text, in.Skill.Text, in.Hours.Text
	for _, n := range in.Notes {
		p.Notes = append(p.Notes, s.text(n))
	}
	p.Brand = model.Brand{Maker: in.Maker.Text, Contact: in.Contact.Text, Licence: in.Licence.Text, Accent: s.accent(in.Accent)}
	s.slug(in.Slug)
	s.date(in.Date)
	for _, c := range in.Changes {
		s.date(c.Date)
		p.Changes = append(p.Changes, model.Change{Revision: c.Revision.Text, Date: c.Date.Text, Text: s.text(c.Text), Parts: s.madeIn(c.Parts), Recut: c.Recut})
	}
	p.Kerf, p.EndTrim = s.sawdust()
	p.Kind, p.Seats, p.Children = model.Kind(in.Kind.Text), in.Seats, in.Children
	s.beside()
	s.words()
	s.steps()
	s.drawings()
	s.editions()
}

// sawdust is the kerf and the end trim, by the unit system's usual saw when the
// file is silent (common practice).
func (s *solver) sawdust() (kerf, trim float64) {
	kerf, trim = 3.2, 12.7
	if s.opt.Unit == expr.MM {
		trim = 12
	}
	c := &scope{s: s}
	kerf, _ = s.lengthOr(s.d.Kerf, c, kerf)
	trim, _ = s.lengthOr(s.d.EndTrim, c, trim)
	return kerf, trim
}

var (
	slugForm    = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	dateForm    = regexp.MustCompile(`^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$`)
	variantForm = regexp.MustCompile(`^[a-zA-Z0-9][a-zA-Z0-9_-]*$`)
	codeForm    = regexp.MustCompile(`^[A-HJ-NP-Z]{1,2}$`)
	accentForm  = regexp.MustCompile(`^#[0-9a-fA-F]{6}$`)
	figure      = regexp.MustCompile(`\d`)
	decimals    = regexp.MustCompile(`-?\d+\.\d{3}\b`)
	notSlug     = regexp.MustCompile(`[^a-z0-9]+`)
)

// slug checks the name that files begin with, or makes one from the title.
func (s *solver) slug(w reading.Word) {
	if !w.Given() {
		s.plan.Slug = strings.Trim(notSlug.ReplaceAllString(strings.ToLower(s.plan.Title), "-"), "-")
		if s.plan.Slug == "" {
			s.plan.Slug = "plan"
		}
		return
	}
	if !slugForm.MatchString(w.Text) {
		s.problems.Errorf(w.At, "slug", "%q cannot begin a file name", w.Text).Fix("use small letters, figures and single hyphens, as petrel-chair")
	}
}

func (s *solver) date(w reading.Word) {
	if w.Given() && !dateForm.MatchString(w.Text) {
		s.problems.Errorf(w.At, "date", "%q is not a date", w.Text).Fix("write it as 2026-10-30")
	}
}

func (s *solver) accent(w reading.Word) [3]uint8 {
	if !w.Given() {
		return [3]uint8{40, 40, 40}
	}
	if !accentForm.MatchString(w.Text) {
		s.problems.Errorf(w.At, "accent", "%q is not a color", w.Text).Fix("write it as #1F5B6B")
		return [3]uint8{}
	}
	b, err := hex.DecodeString(w.Text[1:])
	if err != nil {
		return [3]uint8{}
	}
	return [3]uint8(b)
}

// words copies what is said about finish, care, terms and waivers.
func (s *solver) words() {
	f, p := s.d.Finish, s.plan
	area := p.Finish.Area
	p.Finish = model.Finish{Name: f.Name.Text, Coats: f.Coats, Cover: f.Cover, Oily: f.Oily, Cure: f.Cure.Text, Text: f.Text, EndGrain: f.Ends.Text, Hidden: f.Inner.Text, Area: area}
	if p.Finish.Hidden != "" {
		p.Finish.Text = append([]string{p.Finish.Hidden}, f.Text...)
	}
	p.Care = s.d.Care
	for _, t := range s.d.Terms {
		p.Terms = append(p.Terms, model.Term{Word: t.Word, Text: t.Text})
	}
	for _, w := range s.d.Waivers {
		if !w.Reason.Given() || strings.TrimSpace(w.Reason.Text) == "" {
			s.problems.Errorf(w.At, "waive", "this waiver has no reason").Fix("say why the finding may stand")
		}
		p.Waivers = append(p.Waivers, model.Waiver{Rule: w.Rule.Text, Parts: w.Parts, Reason: w.Reason.Text, Value: w.Value})
	}
}

// editions lists the PDFs the file asks for; none asked for is the plain size in
// the file's own unit.
func (s *solver) editions() {
	for _, e := range s.d.Editions {
		ed := model.Edition{Variant: e.Variant.Text, Unit: e.Unit, Paper: e.Paper.Text}
		if ed.Variant == "" {
			ed.Variant = "standard"
		}
		if ed.Paper == "" {
			ed.Paper = plainPaper(e.Unit)
		}
		known := slices.ContainsFunc(s.plan.Variants, func(v model.Variant) bool { return v.Key == ed.Variant })
		if !known {
			s.problems.Errorf(e.At, "unknown-variant", "this edition asks for a variant %q that the plan does not have", ed.Variant)
			continue
		}
		s.plan.Editions = append(s.plan.Editions, ed)
	}
	if len(s.plan.Editions) == 0 {
		s.plan.Editions = []model.Edition{{Variant: "standard", Unit: s.d.Unit, Paper: plainPaper(s.d.Unit)}}
	}
}

func plainPaper(u expr.Unit) string {
	if u == expr.MM {
		return "a4"
	}
	return "letter"
}
