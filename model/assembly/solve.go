// Package assembly solves a draft: it works out the numbers, shapes the parts,
// places them by what meets what, and finds what the author did not type: heels
// cut by the floor, match-drilled holes, bearing bevels, clearances, tilts.
//
// Values are worked out when they are asked for, so the order of the file does
// not matter and a circle is told by the names along it. It knows no page.
package assembly

import (
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// tol is the distance in mm below which two faces, points or positions are one.
// Poses come from sines and cosines, so exact comparison would be a lottery; the
// printed precision is 500 times coarser.
const tol = 1e-3

// Options choose what of a draft is solved.
type Options struct {
	Variant string // "" or "standard" is the plain size
	Unit    expr.Unit
	Sizes   map[string]float64 // replaces sizes, mm or radians or plain; used to search and to try
	Quick   bool               // stop after placing: no joints, lists or texts
}

// Solve works out the draft for one variant in one unit system. When problems
// has errors the plan is nil or incomplete and must not be published.
func Solve(d *reading.Draft, opt Options, problems *source.List) *model.Plan {
	// A list of its own: what went wrong elsewhere must not stop this solve.
	var own source.List
	defer func() { problems.Append(&own) }()
	return solve(d, opt, &own)
}

func solve(d *reading.Draft, opt Options, problems *source.List) *model.Plan {
	sizes, ok := reachGoals(d, opt, problems)
	if !ok {
		return nil
	}
	opt.Sizes = sizes
	s := newSolver(d, opt, problems)
	if s == nil {
		return nil
	}
	s.layOut()
	s.placeAll()
	if opt.Quick {
		s.measure()
		return s.plan
	}
	s.joinAll()
	s.measure()
	s.prove()
	s.write()
	if problems.Failed() {
		return nil
	}
	return s.plan
}

// solver holds what is known so far. Everything in it is filled once.
type solver struct {
	d        *reading.Draft
	opt      Options
	problems *source.List
	plan     *model.Plan
	numbers  map[string]*number
	order    []string // of numbers, as in the file
	stocks   map[string]*stock
	parts    map[string]*part
	partList []*part
	groups   map[string]*group
	goods    map[string]*goods
	joints   map[string]*reading.Joint
	asked    map[string]*answer
	sizes    map[string]float64
	shapes   map[string]*shape
	frames   map[string]geom.Pose
	pieces   map[string][]piece
	stack    []asking
	placed   map[string][]int // part key -> indices into plan.Placed
	measured map[string]expr.Value
	looks    int // pairs of pieces looked at for touching
	bodies   map[*model.Part]*geom.Solid
}

// stock is a stock with its declaration.
type stock struct {
	*model.Stock
	decl *reading.Stock
}

// part is a part being solved.
type part struct {
	decl    *reading.Part
	stock   *stock
	names   model.Names
	place   *reading.Place // the first, which settles the names of the faces
	places  []*reading.Place
	family  bool
	ranks   int
	flipped bool // its faces changed names so that its frame is right-handed
}

// group is a frame being solved.
type group struct{ decl *reading.Group }

func newSolver(d *reading.Draft, opt Options, problems *source.List) *solver {
	s := &solver{d: d, opt: opt, problems: problems, plan: &model.Plan{Unit: opt.Unit},
		numbers: map[string]*number{}, stocks: map[string]*stock{}, parts: map[string]*part{}, groups: map[string]*group{},
		goods: map[string]*goods{}, joints: map[string]*reading.Joint{}, asked: map[string]*answer{},
		sizes: map[string]float64{}, shapes: map[string]*shape{}, frames: map[string]geom.Pose{}, pieces: map[string][]piece{}, bodies: map[*model.Part]*geom.Solid{}, placed: map[string][]int{}, measured: map[string]expr.Value{}}
	v := s.variant()
	if v == nil && opt.Variant != "" && opt.Variant != "standard" {
		return nil
	}
	s.readNumbers(v)
	s.names(v)
	return s
}

// variant finds the declaration of the variant asked for.
func (s *solver) variant() *reading.Variant {
	s.plan.Variants = []model.Variant{{Key: "standard", Title: "Standard"}}
	s.plan.Variant = s.plan.Variants[0]
	var found *reading.Variant
	known := []string{"standard"}
	for i := range s.d.Variants {
		v := &s.d.Variants[i]
		// A variant's name goes into file names.
		if !variantForm.MatchString(v.Key) || v.Key == "all" {
			s.problems.Errorf(v.At, "name", "%q cannot be the name of a variant", v.Key).Fix("use letters, digits, - and _; all stands for every size")
		}
		mv := model.Variant{Key: v.Key, Title: v.Title.Text, Note: v.Note.Text}
		if mv.Title == "" {
			mv.Title = model.Spoken(v.Key)
		}
		if v.Key == "standard" {
			s.plan.Variants[0] = mv
		} else {
			s.plan.Variants = append(s.plan.Variants, mv)
		}
		known = append(known, v.Key)
		if v.Key == s.opt.Variant || v.Key == "standard" && s.opt.Variant == "" {
			found, s.plan.Variant = v, mv
		}
	}
	if found == nil && s.opt.Variant != "" && s.opt.Variant != "standard" {
		s.problems.Errorf(s.top(), "unknown-variant", "the plan has no variant %q", s.opt.Variant).Suggest(s.opt.Variant, known)
	}
	return found
}

// top is the first place of the plan file, for problems of the whole plan.
func (s *solver) top() source.Span {
	if len(s.d.Files) == 0 {
		return source.Span{}
	}
	return source.Span{File: s.d.Files[0]}
}
