package assembly

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/wood"
)

// letters are the part letters, without I and O, which read as figures.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// layOut works out every name, so that a slip is told even where nothing asks.
func (s *solver) layOut() {
	for _, name := range s.order {
		s.numberValue(name, s.numbers[name].decl.At)
	}
	for _, key := range s.groupNames() {
		s.frame(key, s.groups[key].decl.At)
	}
}

// placeAll shapes every part and puts its pieces into the world.
func (s *solver) placeAll() {
	codes := s.codes()
	for _, p := range s.partList {
		for _, pl := range p.places {
			s.frame(pl.In.Text, pl.In.At)
			s.inGroup(p, pl, pl.At)
		}
		for rank := range p.ranks {
			sh, ok := s.finished(p, rank)
			if !ok {
				continue
			}
			mp := s.partOf(p, sh, rank, codes)
			s.plan.Parts = append(s.plan.Parts, mp)
			s.countUnplaced(p, mp)
		}
	}
	if s.problems.Failed() {
		return
	}
	for _, p := range s.placeOrder() {
		s.standAll(p)
	}
}

// countUnplaced settles how many pieces there are of a part that stands nowhere:
// what the author says, else one, or one of each hand.
func (s *solver) countUnplaced(p *part, mp *model.Part) {
	if len(p.places) > 0 {
		if p.decl.Pieces.Given() {
			s.problems.Errorf(p.decl.Pieces.At, "pieces", "part %q is placed, so its pieces are counted there", p.decl.Key).Fix("take pieces away, or the [[place]]")
		}
		return
	}
	mp.Quantity = 1
	if mp.Hand == model.Pair {
		mp.Quantity = 2
	}
	if !p.decl.Pieces.Given() {
		return
	}
	v, ok := s.main(p.decl.Pieces).eval(s, &scope{s: s})
	if !ok {
		return
	}
	n, bad := v.AsNumber(s.d.Unit)
	if bad != nil {
		bad.Report(s.problems, p.decl.Pieces.At)
		return
	}
	if n != math.Round(n) || n < 1 || n > maxPieces || mp.Hand == model.Pair && math.Mod(n, 2) != 0 {
		s.problems.Errorf(p.decl.Pieces.At, "pieces", "part %q cannot have %g pieces", p.decl.Key, n).Fix("write a whole number from 1 to %d; a pair takes an even one", maxPieces)
		return
	}
	mp.Quantity = int(n)
}

// maxPieces is the most pieces of one part.
const maxPieces = 10000

// placeOrder is the parts in the order of the file's places.
func (s *solver) placeOrder() []*part {
	var out []*part
	seen := map[*part]bool{}
	for _, pl := range s.d.Places {
		if p := s.parts[pl.Part.Text]; p != nil && !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	return out
}

// codes gives each part its letter: the author's own, else the next free one in
// the order of the file, so that letters stay put when a part is added below.
func (s *solver) codes() map[string]string {
	out, taken := map[string]string{}, map[string]bool{}
	for _, d := range s.d.Parts {
		if !d.Code.Given() {
			continue
		}
		if !codeForm.MatchString(d.Code.Text) {
			s.problems.Errorf(d.Code.At, "code", "%q cannot be a part letter", d.Code.Text).Fix("use one or two capitals; I and O read as figures")
		}
		if taken[d.Code.Text] {
			s.problems.Errorf(d.Code.At, "code", "the letter %q is given to two parts", d.Code.Text).Fix("give one of them another, or leave it out")
		}
		out[d.Key], taken[d.Code.Text] = d.Code.Text, true
	}
	next := 0
	for _, d := range s.d.Parts {
		if out[d.Key] != "" {
			continue
		}
		for {
			code := string(letters[next%len(letters)])
			if next >= len(letters) {
				code = string(letters[next/len(letters)-1]) + code
			}
			next++
			if !taken[code] {
				out[d.Key], taken[code] = code, true
				break
			}
		}
	}
	return out
}

// partOf fills in a part of the plan.
func (s *solver) partOf(p *part, sh *shape, rank int, codes map[string]string) *model.Part {
	d := p.decl
	mp := &model.Part{Key: d.Key, Code: codes[d.Key], Name: d.Name.Text, Rank: rank, Stock: p.stock.Stock, Names: spokenSides(p.names),
		Thick: sh.board.Thick, Board: sh.board, Ends: sh.ends, Edges: sh.edges, Tapers: sh.tapers, Corners: sh.corners, Arrises: sh.arrises,
		Notches: sh.notches, Grooves: sh.grooves, Free: len(d.Outline) > 0, AsBought: d.AsBought, Match: d.Match, Spare: d.Spare, Single: d.HeadToTail.Text == "no",
		TrimLater: d.TrimLater.Text, Note: d.Note.Text, Face: d.Face.Text, Need: d.Need.Text, Found: len(d.Trims) > 0 && !d.Length.Given()}
	if mp.Name == "" {
		mp.Name = model.Spoken(d.Key)
	}
	if d.Hands.Given() {
		mp.Hand = model.Pair
	}
	if p.ranks > 1 {
		mp.Family, mp.Code = mp.Code, fmt.Sprintf("%s%d", mp.Code, rank+1)
	}
	b := sh.board.Outline.Box()
	mp.Length, mp.Width = b.Max.X, sh.width
	if mp.Free {
		mp.Width = b.H()
	}
	s.rough(p, mp, rank)
	mp.Template = needsTemplate(d, mp)
	s.ownHoles(p, mp, rank)
	s.weigh(p, mp)
	return mp
}

// rough works out the blank the part is cut from: what the author says, else
// the part with its ripped edges' clean-up, and a little length to shape an end
// that is not square.
func (s *solver) rough(p *part, mp *model.Part, rank int) {
	if math.Abs(mp.Width-p.stock.Width) < tol && !p.decl.Width.Given() {
		mp.AsBought = true
	}
	width, length := mp.Width, mp.Length
	if !mp.AsBought {
		width = math.Max(width, math.Min(width+2*p.stock.Cleanup, p.stock.Width))
	}
	if mp.Ends[0].Shape != "square" || mp.Ends[1].Shape != "square" {
		length += s.opt.Unit.Round(endRoom, 0)
	}
	c := &scope{s: s, part: p, rank: rank}
	mp.RoughWidth, mp.RoughLength = width, length
	if v, ok := s.lengthOr(p.decl.RoughLength, c, length); ok {
		mp.RoughLength = v
	}
	if v, ok := s.lengthOr(p.decl.RoughWidth, c, width); ok {
		mp.RoughWidth = v
	}
}

// endRoom is the length a blank has over for a shaped end, mm: 1/2 in (common
// practice).
const endRoom = 12.7

// needsTemplate reports whether a part has curves or a free outline that a rule
// and a square cannot lay out.
func needsTemplate(d *reading.Part, mp *model.Part) bool {
	if d.Template.Given() {
		return d.Template.Text == "yes"
	}
	for _, seg := range mp.Board.Outline {
		if seg.Turn != geom.Straight {
			return true
		}
	}
	return mp.Free || mp.Found
}

// weigh works out volume, skin and mass of the finished part.
func (s *solver) weigh(p *part, mp *model.Part) {
	solid, err := mp.Board.Solid(chord)
	if err != nil {
		s.problems.Errorf(p.decl.At, "shape", "part %q cannot be cut so: %s", p.decl.Key, s.inUnit(err))
		return
	}
	s.bodies[mp] = solid
	mp.Volume, mp.Skin = solid.Volume(), solid.Area()
	if w, ok := wood.Species(mp.Stock.Species); ok {
		mp.Mass = w.Mass(mp.Volume, dryMC)
	}
}

// dryMC is the moisture content in percent that masses are given at.
const dryMC = 12

// standAll puts all pieces of a part into the world, left ones mirrored.
func (s *solver) standAll(p *part) {
	for _, pl := range p.places {
		list, ok := s.inGroup(p, pl, pl.At)
		frame, ok2 := s.frame(pl.In.Text, pl.In.At)
		if !ok || !ok2 {
			continue
		}
		copies := max(1, pl.Around)
		if !s.roomFor(p, pl, len(list)*copies) {
			return
		}
		for k := range copies {
			turn := 2 * math.Pi * float64(k) / float64(copies)
			for _, pc := range list {
				s.standOne(p, pc, about(pc.pose.Then(frame), turn))
			}
		}
	}
}

// maxPlaced is how many pieces a plan may stand: rows in rows of places would
// otherwise ask for millions.
const maxPlaced = 1000

// roomFor refuses a place that would stand more pieces than a plan may have.
func (s *solver) roomFor(p *part, pl *reading.Place, n int) bool {
	if p.decl.Hands.Given() {
		n *= 2
	}
	if len(s.plan.Placed)+n <= maxPlaced {
		return true
	}
	s.problems.Errorf(pl.At, "too-many", "this place stands %d pieces of %q; with the others that is more than the %d a plan may have", n, p.decl.Key, maxPlaced).
		Fix("look at the counts of its row, fan or around")
	return false
}

// about turns a pose about the upright line through the world's origin.
func about(p geom.Pose, a float64) geom.Pose {
	if a == 0 {
		return p
	}
	up := geom.V3{Z: 1}
	return geom.Pose{Origin: p.Origin.Spin(up, a), Along: p.Along.Spin(up, a), Across: p.Across.Spin(up, a), Thick: p.Thick.Spin(up, a)}
}

func (s *solver) standOne(p *part, pc piece, world geom.Pose) {
	mp := s.partByRank(p, pc.rank)
	if mp == nil {
		return
	}
	if mp.Hand == model.Pair {
		s.addPlaced(p, mp, model.RightHand, world)
		s.addPlaced(p, mp, model.LeftHand, world.Mirror())
		return
	}
	s.addPlaced(p, mp, model.NoHand, world)
}

func (s *solver) partByRank(p *part, rank int) *model.Part {
	for _, mp := range s.plan.Parts {
		if mp.Key == p.decl.Key && mp.Rank == rank {
			return mp
		}
	}
	return nil
}

func (s *solver) addPlaced(p *part, mp *model.Part, hand model.Hand, pose geom.Pose) {
	solid := s.bodies[mp]
	if solid == nil {
		return // told when it was weighed
	}
	world := solid.Transform(pose)
	i := len(s.plan.Placed)
	s.plan.Placed = append(s.plan.Placed, &model.Placed{Part: mp, Hand: hand, Pose: pose, Solid: world, Index: i, Center: world.Centroid()})
	s.placed[p.decl.Key] = append(s.placed[p.decl.Key], i)
	mp.Quantity++
}
