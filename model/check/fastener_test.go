package check_test

import (
	"fmt"
	"testing"

	"planset/model/check"
)

// bought gives the grate's screws or bolts a length.
func bought(material, length string) []string {
	return []string{`material = "` + material, "length = " + length + "\nmaterial = \"" + material}
}

func screws(length string) []string { return bought("stainless", length) }
func bolts(length string) []string  { return bought("hot-dip", length) }

// gauge gives the grate's screws another size and length.
func gauge(size, length string) []string {
	return append([]string{`size     = "4.5"`, `size     = "` + size + `"`}, screws(length)...)
}

// screwedCheeks holds the cheeks with screws that point at the inside of a rail.
func screwedCheeks(face, length string) []string {
	const faces = "faces  = [\"inside\", \"outside\"]\n\n[part.slat]"
	return append(screws(length), "hardware = \"bolt\"\nholes    = [\"one\"]", "hardware = \"screw\"\ncount = 2\ninset = 15",
		faces, "face = \""+face+"\"\n"+faces)
}

// beams gives the rails another thickness.
func beams(thick float64) []string {
	return []string{"section = [40, 100]", fmt.Sprintf("section = [%g, 100]", thick)}
}

// boards gives the slats and cheeks another thickness.
func boards(thick float64) []string {
	return []string{"section = [20, 100]", fmt.Sprintf("section = [%g, 100]", thick)}
}

// twoBolts holds each cheek with a second bolt, so far behind the first.
func twoBolts(apart float64) []string {
	const one = `hole.one = { at = ["bolt_x", "bolt_y"], for = "bolt" }`
	return []string{one, one + fmt.Sprintf("\nhole.two = { at = [\"bolt_x + %g\", \"bolt_y\"], for = \"bolt\" }", apart), `["one"]`, `["one", "two"]`}
}

// railHole bores a rail so far behind its bolt, at a height.
func railHole(off, up float64) []string {
	const faces = "faces  = [\"inside\", \"outside\"]\n\n[part.slat]"
	return []string{faces, fmt.Sprintf("hole.cord = { at = [%g, %g], diameter = 10 }\n", 200+off, up) + faces}
}

// An edit is what is changed in the grate.
type edit struct {
	sizes sizes
	text  []string
}

func with(sz sizes, text ...string) edit { return edit{sz, text} }

// A limit is a rule that trips just beyond its limit and is quiet just inside, and
// the fix it gives, carried out to the letter.
type limit struct {
	rule             string
	bad, good, mends edit
	want             check.Finding
}

func (c limit) check(t *testing.T) {
	one(t, built(t, c.bad.sizes, c.bad.text...), c.rule, c.want)
	quiet(t, built(t, c.good.sizes, c.good.text...), c.rule)
	quiet(t, built(t, c.mends.sizes, c.mends.text...), c.rule)
}

// TestScrewRules: a rail of 90 under a slat of 20 leaves 110 mm for a slat's
// screw, one of 40 leaves 60.
func TestScrewRules(t *testing.T) {
	low := func(text ...string) edit { return with(sizes{"rail_w": 40, "bolt_y": 20}, text...) }
	thin := func(text ...string) edit {
		return with(sizes{"rail_w": 21, "bolt_y": 15, "cheek_up": 0}, text...)
	}
	for _, c := range []limit{
		{"screw-tip", low(screws("57")...), low(screws("56.8")...), low(screws("50")...), // 3.2 mm are left
			find(check.Error, "Slat to rail: the 57 mm screw leaves 3 mm of wood in front of its point; 3.2 mm is needed", "take one of 50 mm", "A", "B")},
		{"screw-tip", low(screws("65")...), low(screws("50")...), low(screws("50")...),
			find(check.Error, "Slat to rail: the point of the 65 mm screw comes out by 5 mm", "take one of 50 mm", "A", "B")},
		{"screw-tip", with(nil, screwedCheeks("inside", "56")...), with(nil, screwedCheeks("outside", "56")...), with(nil, screwedCheeks("inside", "50")...), // more under a good face
			find(check.Error, "Cheeks: the 56 mm screw leaves 4 mm of wood in front of its point; 5 mm is needed", `take one of 50 mm, or write length = "auto", which finds one for each joint`, "A", "C")},
		{"screw-tip", low(append(screws("50.6"), `inset    = "inset"`, "inset = \"inset\"\nplug = true")...), low(append(screws("50.4"), `inset    = "inset"`, "inset = \"inset\"\nplug = true")...), // 60 - 6.35 - 3.2
			low(append(screws("50"), `inset    = "inset"`, "inset = \"inset\"\nplug = true")...),
			find(check.Error, "Slat to rail: the 50.5 mm screw leaves 3.1 mm of wood in front of its point; 3.2 mm is needed", "take one of 50 mm", "A", "B")},
		{"screw-end", with(sizes{"slat_l": 360.7}), with(sizes{"slat_l": 360.9}), with(sizes{"slat_l": 368.7}), // 15.2 mm is the middle of a rail of 40, where an edge's room does
			find(check.Warning, `Slat B: a screw of "Slat to rail" sits 15 mm from the end; 19 mm keeps the wood from splitting`, "move it in by 4 mm", "B")},
		{"screw-end", with(sizes{"slat_at": 3.2}), with(sizes{"slat_at": 3.3}), with(sizes{"slat_at": 4.2}), // 19.05 less 1/32 in
			find(check.Warning, `Rail A: a screw of "Slat to rail" sits 18 mm from the end; 19 mm keeps the wood from splitting`, "move it in by 1 mm", "A")},
		{"screw-end", with(sizes{"slat_at": 0, "inset": 13.1}), with(sizes{"slat_at": 6, "inset": 13.1}), with(sizes{"slat_at": 6, "inset": 13.1}), // 3 diameters, less the slack
			find(check.Error, `Rail A: a screw of "Slat to rail" sits 13 mm from the end; 19 mm keeps the wood from splitting`, "move it in by 6 mm", "A")},
		{"screw-end", with(sizes{"slat_at": 0, "inset": 13.3}), with(sizes{"slat_at": 6, "inset": 13.3}), with(sizes{"slat_at": 6, "inset": 13.3}),
			find(check.Warning, `Rail A: a screw of "Slat to rail" sits 13.5 mm from the end; 19 mm keeps the wood from splitting`, "move it in by 6 mm", "A")},
		{"screw-edge", with(sizes{"inset": 10.2}), with(sizes{"inset": 10.3}), with(sizes{"inset": 11.3}), // 2.5 diameters of 4.5 are 11.25, 0.94 of it less the slack
			find(check.Warning, `Slat B: a screw of "Slat to rail" sits 10 mm from the edge; 11.5 mm keeps the wood from splitting`, "move it in by 1.5 mm", "B")},
		{"screw-edge", with(sizes{"inset": 6.7}), with(sizes{"inset": 11.3}), with(sizes{"inset": 11.7}), // 1.5 diameters
			find(check.Error, `Slat B: a screw of "Slat to rail" sits 6.5 mm from the edge; 11.5 mm keeps the wood from splitting`, "move it in by 5 mm", "B")},
		{"screw-edge", with(sizes{"inset": 6.8}), with(sizes{"inset": 11.3}), with(sizes{"inset": 11.3}),
			find(check.Warning, `Slat B: a screw of "Slat to rail" sits 7 mm from the edge; 11.5 mm keeps the wood from splitting`, "move it in by 4.5 mm", "B")},
		{"screw-edge", with(nil, beams(17)...), with(nil, beams(17.6)...), with(nil, append(beams(17), `size     = "4.5"`, `size     = "4"`)...), // in the middle of an edge 2 diameters of 4.5, less the slack
			find(check.Warning, `Rail A: a screw of "Slat to rail" sits 8.5 mm from the face; 9 mm keeps the wood from splitting`, "it is in the middle: take a screw no thicker than 4.3 mm", "A")},
		{"screw-bite", with(nil, screws("46.5")...), with(nil, screws("46.8")...), with(nil, screws("50")...),
			find(check.Warning, "Slat to rail: the screw bites 26.5 mm, 5.9 times its diameter; 6 hold well", "there is wood for one of 50 mm", "A", "B")},
		{"screw-bite", with(nil, screws("37.5")...), with(sizes{"rail_w": 27, "bolt_y": 15}), with(nil, screws("50")...), // 20 mm are all that thin wood lets in
			find(check.Error, "Slat to rail: the screw bites 17.5 mm, 3.9 times its diameter; under 4 it does not hold", "there is wood for one of 50 mm", "A", "B")},
		{"screw-bite", thin(screws("37")...), thin(screws("37.9")...), thin(gauge("3.5", "35")...),
			find(check.Error, "Slat to rail: the screw bites 17 mm, 3.8 times its diameter; under 4 it does not hold", "take a screw of size 3.5, 35 mm long", "A", "B")},
		{"screw-bite", with(nil, append(boards(34), screws("67.5")...)...), with(nil, append(boards(34), screws("67.8")...)...), with(nil, append(boards(34), screws("70")...)...), // as much as is held
			find(check.Warning, "Slat to rail: the screw bites 33.5 mm, 7.4 times its diameter; as much as the 34 mm it holds is good", "there is wood for one of 70 mm", "A", "B")},
		{"length-sold", with(nil, screws("52")...), with(nil, screws("50")...), with(nil, screws("50")...),
			find(check.Warning, "the 4.5 wood screw is hardly sold in 52 mm", "the nearest that is sold is 50 mm")},
	} {
		t.Run(c.rule+" "+string(c.want.Severity), c.check)
	}
}

// TestBoltRules: a cheek of 20 and a rail of 40 grip 60 mm of a bolt.
func TestBoltRules(t *testing.T) {
	flush := func(y float64) edit { return with(sizes{"cheek_up": 0, "bolt_y": y}) }
	for _, c := range []limit{
		{"bolt-length", with(nil, bolts("70")...), with(nil, bolts("72")...), with(nil, bolts("80")...), // 60 + 2 + 6.8 + 2 threads of 1.25 = 71.3
			find(check.Error, "Cheeks: a bolt of 70 mm is too short; wood, washer, nut and two threads take 71.5 mm", "take one of 80 mm", "A", "C")},
		{"bolt-length", with(nil, bolts("82")...), with(nil, bolts("80")...), with(nil, bolts("80")...), // 71.3 + 9.5
			find(check.Warning, "Cheeks: a bolt of 82 mm sticks out 10.5 mm beyond its nut", "take one of 80 mm", "A", "C")},
		{"bolt-length", with(nil, bolts("85")...), with(nil, bolts("80")...), with(nil, bolts("80")...), // 22 of thread: 85 - 22 - 2 is more than 60
			find(check.Error, "Cheeks: the nut stops on the bare shank of the bolt; it needs 61 mm of wood and has 60 mm", "take one of 80 mm", "A", "C")},
		{"length-sold", with(nil, bolts("72")...), with(nil, bolts("80")...), with(nil, bolts("80")...), // 70 is nearer and too short
			find(check.Warning, "the M8 carriage bolt is hardly sold in 72 mm", "the nearest that is sold is 80 mm")},
		{"length-sold", with(nil, bolts("82")...), with(nil, bolts("70")...), with(nil, bolts("80")...), // one too short is sold all the same
			find(check.Warning, "the M8 carriage bolt is hardly sold in 82 mm", "the nearest that is sold is 80 mm")},
		{"bolt-edge", with(sizes{"bolt_y": 11.1}), with(sizes{"bolt_y": 11.3}), with(sizes{"bolt_y": 12.1}), // 1.5 diameters of 8, less 1/32 in
			find(check.Warning, `Cheek C: a bolt of "Cheeks" sits 11 mm from the edge; 12 mm is the least`, "move it in by 1 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_y": 5.9, "cheek_up": 9}), with(sizes{"bolt_y": 12, "cheek_up": 9}), with(sizes{"bolt_y": 12.4, "cheek_up": 9}),
			find(check.Error, `Cheek C: a bolt of "Cheeks" sits 6 mm from the edge; 12 mm is the least`, "move it in by 6.5 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_x": 31.1}), with(sizes{"bolt_x": 31.3}), with(sizes{"bolt_x": 32.1}), // 4 diameters
			find(check.Warning, `Cheek C: a bolt of "Cheeks" sits 31 mm from the end; 32 mm is the least`, "move it in by 1 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_x": 15.9}), with(sizes{"bolt_x": 31.8}), with(sizes{"bolt_x": 32.4}),
			find(check.Error, `Cheek C: a bolt of "Cheeks" sits 16 mm from the end; 32 mm is the least`, "move it in by 16.5 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_y": 48.9}), with(sizes{"bolt_y": 48.7}), with(sizes{"bolt_y": 47.9}), // the cheek hangs: its top edge is pressed
			find(check.Warning, `Cheek C: a bolt of "Cheeks" sits 31 mm from the edge that the load pushes it to; 32 mm is the least`, "move it in by 1 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_y": 64.2}), with(sizes{"bolt_y": 48}), with(sizes{"bolt_y": 47.7}),
			find(check.Error, `Cheek C: a bolt of "Cheeks" sits 16 mm from the edge that the load pushes it to; 32 mm is the least`, "move it in by 16.5 mm", "C")},
		{"bolt-edge", with(sizes{"bolt_y": 49}), with(sizes{"bolt_y": 49, "cheek_up": 0}), with(sizes{"bolt_y": 48}), // it stands: nothing presses
			find(check.Warning, `Cheek C: a bolt of "Cheeks" sits 31 mm from the edge that the load pushes it to; 32 mm is the least`, "move it in by 1 mm", "C")},
		{"bolt-edge", with(nil, twoBolts(31.6)...), with(nil, twoBolts(31.8)...), with(nil, twoBolts(32.1)...), // 4 diameters
			find(check.Warning, `Cheek C and Rail A: two bolts of "Cheeks" sit 31.5 mm apart; 32 mm is the least`, "move one 0.5 mm away from the other", "A", "C")},
		{"washer-seat", flush(13.2), flush(13.4), flush(13.7), // 24/2 + 1.6
			find(check.Error, "Cheeks: the washer reaches 12 mm from the bolt and the wood ends at 13 mm", "move the bolt in by 0.5 mm", "A")},
		{"washer-seat", with(sizes{"bolt_y": 11.5, "cheek_up": 20}), with(sizes{"bolt_y": 11.7, "cheek_up": 20}), with(sizes{"bolt_y": 12, "cheek_up": 20}), // 20.65/2 + 1.6
			find(check.Error, "Cheeks: the head reaches 10.5 mm from the bolt and the wood ends at 11.5 mm", "move the bolt in by 0.5 mm", "C")},
		{"washer-seat", with(nil, railHole(18.2, 45)...), with(nil, railHole(18.4, 45)...), with(nil, railHole(18.7, 45)...), // 12 + 1.6 and half of 10
			find(check.Error, "Cheeks: the washer reaches 12 mm from the bolt and a hole opens at 13 mm", "move the bolt away from it by 0.5 mm", "A")},
		{"washer-seat", with(sizes{"rail_in": 9.8}), with(sizes{"rail_in": 9.9}), with(sizes{"rail_in": 9.8 + 0.5/2}), // 80 less 60 between the rails
			find(check.Error, "Cheeks: Rail A lies 19.5 mm over the seat of the nut of a bolt, which rises 20 mm", "keep it 12 mm from the bolt's center, or 0.5 mm more off", "A")},
		// The first slat's second screw sits 85 mm along the rail: 5 and 2.25 off a cord's hole it wants 3.2 mm.
		{"fastener-clash", with(nil, railHole(-104.8, 70)...), with(nil, railHole(-104.6, 70)...), with(nil, railHole(-104.3, 70)...),
			find(check.Error, `a fastener of "Slat to rail" passes 3 mm from a hole in Rail A; 3.2 mm of wood is needed between them`, "move one 0.5 mm straight away from the other", "A", "B")},
		{"fastener-clash", with(sizes{"bolt_x": 119, "bolt_y": 36}), with(sizes{"bolt_x": 119, "bolt_y": 35.5}), with(sizes{"bolt_x": 119, "bolt_y": 35.5}), // 50 - 41 - 2.25 - 4
			find(check.Error, `two fasteners of "Slat to rail" and "Cheeks" pass 2.8 mm apart; 3.2 mm of wood is needed between them`, "move one 0.5 mm straight away from the other", "A", "B", "C")},
		{"fastener-clash", with(sizes{"bolt_x": 119, "bolt_y": 44}), with(sizes{"bolt_x": 105, "bolt_y": 44}), with(sizes{"bolt_x": 119, "bolt_y": 35.5}),
			find(check.Error, `two fasteners of "Slat to rail" and "Cheeks" run into each other`, "move one 8.5 mm straight away from the other", "A", "B", "C")},
	} {
		t.Run(c.rule+" "+string(c.want.Severity), c.check)
	}
}

// TestBoltHole: an M8 bolt wants a hole of 8.5 to 9 mm, and a drill is true to
// 0.06. Two of them 100 mm apart turn by 2·1.2/100 in one of 9.2, which are 1.4
// degrees.
func TestBoltHole(t *testing.T) {
	const one = `hole.one = { at = ["bolt_x", "bolt_y"], for = "bolt" }`
	bored := func(diam float64) edit {
		return with(nil, one, fmt.Sprintf(`hole.one = { at = ["bolt_x", "bolt_y"], diameter = %g }`, diam))
	}
	pair := func(diam float64) edit {
		return with(sizes{"bolt_x": 50}, one, fmt.Sprintf("hole.one = { at = [50, \"bolt_y\"], diameter = %g }\nhole.two = { at = [150, \"bolt_y\"], diameter = %g }", diam, diam), `["one"]`, `["one", "two"]`)
	}
	for _, c := range []limit{
		{"bolt-hole", bored(8.43), bored(8.45), bored(9), find(check.Warning, "Cheeks: a hole of 8.4 mm for a bolt of 8 mm; it does not push in", "drill 9 mm", "C")},
		{"bolt-hole", bored(7.9), bored(8.5), bored(9), find(check.Error, "Cheeks: a hole of 7.9 mm for a bolt of 8 mm; it does not push in", "drill 9 mm", "C")},
		{"bolt-hole", bored(9.07), bored(9.05), bored(9), find(check.Warning, "Cheeks: a hole of 9.1 mm for a bolt of 8 mm: one bolt alone lets it turn", "drill 9 mm", "C")},
		{"bolt-hole", pair(9.2), pair(9), pair(9), find(check.Warning, "Cheeks: a hole of 9.2 mm for a bolt of 8 mm: until the bolts bite, the joint turns by 1.4°", "drill 9 mm", "C")},
	} {
		t.Run(c.want.Text, c.check)
	}
}

// TestPilotRules: a 4.5 screw has a core of 2.8 mm: in cedar a pilot is 0.62 to
// 0.85 of it, 1.74 to 2.38 mm, in oak 0.83 to 1.12, 2.32 to 3.14 mm. Slats of 60
// that begin 50 mm from the end of the rails keep their screws 65 mm from it.
func TestPilotRules(t *testing.T) {
	far := sizes{"slat_w": 60, "slat_at": 50}
	drill := func(key string, mm float64, more ...string) edit {
		return with(far, append(more, `inset    = "inset"`, fmt.Sprintf("inset = \"inset\"\n%s = %g", key, mm))...)
	}
	at := func(mm float64) edit {
		e := drill("pilot", 0)
		e.sizes = sizes{"slat_w": 60, "slat_at": mm}
		return e
	}
	oak := []string{"section = [40, 100]\nlengths = [\"2.4 m\"]\nspecies = \"western redcedar\"", "section = [40, 100]\nlengths = [\"2.4 m\"]\nspecies = \"white oak\""}
	for _, c := range []limit{
		{"pilot", drill("pilot", 1.67), drill("pilot", 1.69), drill("pilot", 2),
			find(check.Warning, "Slat to rail: a pilot of 1.7 mm for a screw of 4.5 in Rail A splits it", "make the pilot 2 mm, or leave the key out", "A")},
		{"pilot", drill("pilot", 2.45), drill("pilot", 2.43), drill("pilot", 2),
			find(check.Warning, "Slat to rail: a pilot of 2.5 mm leaves a screw of 4.5 too little wood to bite in Rail A; 2.4 mm is the most", "make the pilot 2 mm, or leave the key out", "A")},
		{"pilot", drill("pilot", 3.66), drill("pilot", 2.4), drill("pilot", 2), // past half the thread, (2.8 + 4.5)/2
			find(check.Error, "Slat to rail: a pilot of 3.7 mm leaves a screw of 4.5 too little wood to bite in Rail A; 2.4 mm is the most", "make the pilot 2 mm, or leave the key out", "A")},
		{"pilot", drill("pilot", 2, oak...), drill("pilot", 2.3, oak...), drill("pilot", 2.5, oak...),
			find(check.Error, "Slat to rail: a pilot of 2 mm for a screw of 4.5 in Rail A splits it, white oak is hard", "make the pilot 2.5 mm, or leave the key out", "A")},
		{"pilot", drill("pilot", 0, oak...), drill("pilot", 0), drill("pilot", 2.5, oak...),
			find(check.Error, "Slat to rail: no pilot for a screw of 4.5 in Rail A: it splits, white oak is hard", "make the pilot 2.5 mm, or leave the key out", "A")},
		{"pilot", at(35.4), at(35.6), with(sizes{"slat_w": 60, "slat_at": 35.4}), // 50.8, less the slack
			find(check.Error, "Slat to rail: no pilot for a screw of 4.5 in Rail A: it splits, 50.5 mm from its end", "make the pilot 2 mm, or leave the key out", "A")},
		{"pilot", drill("pilot", 0, beams(19.3)...), drill("pilot", 0, beams(19.4)...), drill("pilot", 2, beams(19.3)...), // 19.05 and the slack
			find(check.Error, "Slat to rail: no pilot for a screw of 4.5 in Rail A: it splits, it is only 19.5 mm thick", "make the pilot 2 mm, or leave the key out", "A")},
		{"pilot", drill("clearance", 4.39), drill("clearance", 4.41), drill("clearance", 5),
			find(check.Error, "Slat to rail: a clearance of 4.4 mm for a shank of 4.5 mm: the thread holds both parts apart", "make the clearance 5 mm, or leave the key out", "B")},
		{"pilot", drill("clearance", 5.36), drill("clearance", 5.35), drill("clearance", 5), // 1/32 in more than the shank
			find(check.Warning, "Slat to rail: a clearance of 5.4 mm for a shank of 4.5 mm; 5.3 mm is the most", "make the clearance 5 mm, or leave the key out", "B")},
		// Without a pilot the end must be 15 diameters away.
		{"screw-end", at(51.6), at(51.8), at(52.6), find(check.Warning, `Rail A: a screw of "Slat to rail" sits 66.5 mm from the end; 67.5 mm keeps the wood from splitting`, "move it in by 1 mm", "A")},
	} {
		t.Run(c.want.Text, c.check)
	}
}
