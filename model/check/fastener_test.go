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

// TestFastenerRules trips each rule about screws and bolts just beyond its limit
// and keeps it quiet just inside. A rail of 40 on slats of 20 leaves 60 mm for a
// slat's screw; a cheek of 20 and a rail of 40 grip 60 mm of a bolt.
func TestFastenerRules(t *testing.T) {
	low := sizes{"rail_w": 40, "bolt_y": 20}
	thin := sizes{"rail_w": 21, "bolt_y": 15, "cheek_up": 0}
	cases := []struct {
		rule         string
		bad, good    sizes
		change, mend []string
		want         check.Finding
	}{
		{"screw-tip", low, low, screws("57"), screws("56.8"), // 3.2 mm are left
			find(check.Error, "Slat to rail: the 57 mm screw leaves 3 mm of wood in front of its point; 3.2 mm is needed", "take one of 50 mm", "A", "B")},
		{"screw-tip", low, low, screws("65"), screws("50"),
			find(check.Error, "Slat to rail: the point of the 65 mm screw comes out by 5 mm", "take one of 50 mm", "A", "B")},
		{"screw-tip", nil, nil, screwedCheeks("inside", "56"), screwedCheeks("outside", "56"), // more under a good face
			find(check.Error, "Cheeks: the 56 mm screw leaves 4 mm of wood in front of its point; 5 mm is needed", "take one of 50 mm", "A", "C")},
		{"screw-end", sizes{"slat_l": 356}, sizes{"slat_l": 372}, nil, nil, // 14 mm, off the middle of the rail's share; 18 mm
			find(check.Warning, "Slat B: a screw sits 14 mm from the end; 19 mm keeps the wood from splitting", "move it in by 5.5 mm", "B")},
		{"screw-end", sizes{"slat_at": 2.4}, sizes{"slat_at": 2.5}, nil, nil, // a sixteenth short of 19.05 is let be
			find(check.Warning, "Rail A: a screw sits 17.5 mm from the end; 19 mm keeps the wood from splitting", "move it in by 2 mm", "A")},
		{"screw-end", sizes{"slat_at": 0, "inset": 11.5}, sizes{"slat_at": 6, "inset": 11.5}, nil, nil, // a thread a sixteenth under 3 diameters
			find(check.Error, "Rail A: a screw sits 11.5 mm from the end; 19 mm keeps the wood from splitting", "move it in by 8 mm", "A")},
		{"screw-edge", sizes{"inset": 10.9}, sizes{"inset": 11}, nil, nil, // 2.5 diameters of 4.5
			find(check.Warning, "Slat B: a screw sits 11 mm from the edge; 11.5 mm keeps the wood from splitting", "move it in by 0.5 mm", "B")},
		{"screw-edge", sizes{"inset": 6.7}, sizes{"inset": 11.3}, nil, nil, // 1.5 diameters
			find(check.Error, "Slat B: a screw sits 6.5 mm from the edge; 11.5 mm keeps the wood from splitting", "move it in by 5 mm", "B")},
		{"screw-edge", nil, nil, beams(17), beams(17.6), // in the middle of an edge 2 diameters of 4.5, less the slack
			find(check.Warning, "Rail A: a screw sits 8.5 mm from the face; 9 mm keeps the wood from splitting", "it is in the middle: take a screw no thicker than 4.3 mm", "A")},
		{"screw-bite", nil, nil, screws("46.5"), screws("46.8"),
			find(check.Warning, "Slat to rail: the screw bites 26.5 mm, 5.9 times its diameter; 6 hold well", "there is wood for one of 50 mm", "A", "B")},
		{"screw-bite", nil, sizes{"rail_w": 27, "bolt_y": 15}, screws("37.5"), nil, // 20 mm are all that thin wood lets in
			find(check.Error, "Slat to rail: the screw bites 17.5 mm, 3.9 times its diameter; under 4 it does not hold", "there is wood for one of 50 mm", "A", "B")},
		{"screw-bite", thin, thin, screws("37"), screws("37.9"),
			find(check.Error, "Slat to rail: the screw bites 17 mm, 3.8 times its diameter; under 4 it does not hold", "take a screw of size 3.5, 35 mm long", "A", "B")},
		{"bolt-length", nil, nil, bolts("70"), bolts("72"), // 60 + 2 + 6.8 + 2 threads of 1.25 = 71.3
			find(check.Error, "Cheeks: a bolt of 70 mm is too short; wood, washer, nut and two threads take 71.5 mm", "take one of 80 mm", "A", "C")},
		{"bolt-length", nil, nil, bolts("82"), bolts("80"), // 71.3 + 9.5
			find(check.Warning, "Cheeks: a bolt of 82 mm sticks out 10.5 mm beyond its nut", "take one of 80 mm", "A", "C")},
		{"bolt-length", nil, nil, bolts("85"), bolts("80"), // 22 of thread: 85 - 22 - 2 is more than 60
			find(check.Error, "Cheeks: the nut stops on the bare shank of the bolt; it needs 61 mm of wood and has 60 mm", "take one of 80 mm", "A", "C")},
		{"length-sold", nil, nil, bolts("72"), bolts("80"), find(check.Warning, "the M8 carriage bolt is hardly sold in 72 mm", "the nearest that is sold is 70 mm")},
		{"length-sold", nil, nil, screws("52"), screws("50"), find(check.Warning, "the 4.5 wood screw is hardly sold in 52 mm", "the nearest that is sold is 50 mm")},
		{"bolt-edge", sizes{"bolt_y": 11.6}, sizes{"bolt_y": 11.8}, nil, nil, // 1.5 diameters of 8
			find(check.Warning, "Cheek C: a bolt sits 11.5 mm from the edge; 12 mm is the least", "move it in by 0.5 mm", "C")},
		{"bolt-edge", sizes{"bolt_y": 5.9, "cheek_up": 9}, sizes{"bolt_y": 12, "cheek_up": 9}, nil, nil,
			find(check.Error, "Cheek C: a bolt sits 6 mm from the edge; 12 mm is the least", "move it in by 6.5 mm", "C")},
		{"bolt-edge", sizes{"bolt_x": 31.5}, sizes{"bolt_x": 31.8}, nil, nil, // 4 diameters
			find(check.Warning, "Cheek C: a bolt sits 31.5 mm from the end; 32 mm is the least", "move it in by 0.5 mm", "C")},
		{"bolt-edge", sizes{"bolt_y": 49}, sizes{"bolt_y": 48}, nil, nil, // the cheek hangs: its top edge is pressed
			find(check.Note, "Cheek C: the load pushes a bolt toward an edge 31 mm away; 32 mm is the rule there", "move it in by 1 mm", "C")},
		{"bolt-edge", sizes{"bolt_y": 49}, sizes{"bolt_y": 49, "cheek_up": 0}, nil, nil, // it stands: nothing presses
			find(check.Note, "Cheek C: the load pushes a bolt toward an edge 31 mm away; 32 mm is the rule there", "move it in by 1 mm", "C")},
		{"washer-seat", sizes{"cheek_up": 0, "bolt_y": 13.2}, sizes{"cheek_up": 0, "bolt_y": 13.4}, nil, nil, // 24/2 + 1.6
			find(check.Error, "Cheeks: the washer reaches 12 mm from the bolt and the wood ends at 13 mm", "move the bolt in by 0.5 mm", "A")},
		{"washer-seat", sizes{"rail_in": 0.9}, sizes{"rail_in": 1.1}, nil, nil, // 2 mm of room between the rails
			find(check.Error, "Cheeks: Rail A lies over the nut of a bolt", "keep it 12 mm from the bolt's center, or sink the nut", "A")},
		{"fastener-clash", sizes{"bolt_x": 119, "bolt_y": 36}, sizes{"bolt_x": 119, "bolt_y": 35.5}, nil, nil, // 50 - 41 - 2.25 - 4
			find(check.Error, `fasteners of "Slat to rail" and "Cheeks" pass 2.8 mm apart; 3.2 mm of wood is needed between them`, "move one by 0.5 mm", "A", "B", "C")},
		{"fastener-clash", sizes{"bolt_x": 119, "bolt_y": 44}, sizes{"bolt_x": 105, "bolt_y": 44}, nil, nil,
			find(check.Error, `fasteners of "Slat to rail" and "Cheeks" run into each other`, "move one by 8.5 mm", "A", "B", "C")},
	}
	for _, c := range cases {
		t.Run(c.rule+" "+string(c.want.Severity), func(t *testing.T) {
			one(t, built(t, c.bad, c.change...), c.rule, c.want)
			quiet(t, built(t, c.good, c.mend...), c.rule)
		})
	}
}

// TestSteel: plain steel blackens cedar, zinc rusts in any wood.
func TestSteel(t *testing.T) {
	plain := built(t, nil, `material = "stainless steel"`, "")
	one(t, plain, "steel-in-tannin", find(check.Error, "Slat B and Rail A: plain steel wood screw in western redcedar rusts and leaves black streaks",
		`write material = "stainless steel" or "hot-dip galvanized steel"`, "A", "B"))
	fir := []string{"western redcedar", "white fir", "western redcedar", "white fir"}
	zinc := built(t, nil, append(fir, `material = "stainless steel"`, `material = "zinc-plated steel"`)...)
	one(t, zinc, "steel-in-tannin", find(check.Warning, "Slat B and Rail A: zinc-plated steel wood screw rusts outdoors",
		`write material = "stainless steel" or "hot-dip galvanized steel"`, "A", "B"))
	quiet(t, built(t, nil, fir...), "steel-in-tannin")
}
