package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model"
	"planset/model/check"
)

// TestHeldUp: a board across a rail rests while its mass lies 25.4 mm inside the
// rail's edges, less the slack.
func TestHeldUp(t *testing.T) {
	set := func(wide float64, extra string) *model.Plan {
		return scene(t, []plank{{"rail", "xz", p3(0, 0, 0), p3(400, wide, 80)}, {"board", "yx", p3(100, -50, 80), p3(100, wide+100, 20)}},
			joined("top", "board", "rail", screwed)+step("add = \"rail\"")+step("add = \"board\"\nfasten = \"top\"\n"+extra))
	}
	one(t, set(50.1, ""), "held-up", find(check.Warning, "Board B: in step 2 its weight lies 25 mm inside what carries it; it tips over before it is fixed",
		"name a clamp or write people = 2, or let it rest on 0.5 mm more", "B"))
	quiet(t, set(50.3, ""), "held-up")
	quiet(t, set(50.1+2*0.5, ""), "held-up") // half a millimetre more on either side
	quiet(t, set(50.1, "people = 2"), "held-up")
	quiet(t, set(50.1, `do = "Clamp it and drive the screw."`), "held-up")
	assert.Len(t, of(set(50.1, `do = "Drive the rest of the screws, and understand why."`), "held-up"), 1, "words that hold nothing")
	one(t, set(60, `turned = "Upside down from here on."`), "held-up",
		find(check.Warning, "Board B: in step 2 nothing carries it while it is fixed, and the text names neither clamp nor helper", "name a clamp or write people = 2, or let it rest on what stands there already", "B"))
}

// TestFlatFrame: boards that all lie in one plane are put together on the bench,
// however they stand later; a board on edge among them is not.
func TestFlatFrame(t *testing.T) {
	frame := func(runs string) *model.Plan {
		size := p3(500, 40, 80)
		if runs == "xy" {
			size = p3(500, 80, 20)
		}
		return scene(t, []plank{{"post", "zx", p3(0, 0, 0), p3(80, 20, 400)}, {"arm", runs, p3(0, 20, 300), size}},
			joined("hang", "post", "arm", "hardware = \"screw\"")+step("add = \"post\"")+step("add = \"arm\"\nfasten = \"hang\""))
	}
	quiet(t, frame("xz"), "held-up")
	one(t, frame("xy"), "held-up", find(check.Warning, "Arm B: in step 2 nothing carries it while it is fixed, and the text names neither clamp nor helper",
		"name a clamp or write people = 2, or let it rest on what stands there already", "B"))
}

// order is the grate with steps.
func order(t testing.TB, steps string) *model.Plan {
	const last = "holes    = [\"one\"]\n"
	return built(t, nil, last, last+steps)
}

// TestLeftLoose: bolts that stay loose are tightened in a later step.
func TestLeftLoose(t *testing.T) {
	loose := func(tighten string) *model.Plan {
		return order(t, step("fasten = \"slats\"")+step("fasten = \"cheeks\"\nloose = true")+tighten)
	}
	one(t, loose(""), "left-loose", find(check.Warning, "Cheeks: left loose in step 2 and never tightened", "name it in the tighten of a step after 2", "A", "C"))
	one(t, order(t, step("tighten = \"cheeks\"")+step("fasten = \"cheeks\"\nloose = true")), "left-loose",
		find(check.Warning, "Cheeks: left loose in step 2 and never tightened", "name it in the tighten of a step after 2", "A", "C"))
	quiet(t, loose(step("tighten = \"cheeks\"")), "left-loose")
	quiet(t, order(t, step("fasten = \"cheeks\"")), "left-loose")
}

// TestTightSoon: what a later step puts in cannot be tightened yet.
func TestTightSoon(t *testing.T) {
	one(t, order(t, step("tighten = \"cheeks\"")+step("fasten = \"cheeks\"")), "work-order",
		find(check.Warning, "Cheeks: step 1 tightens what step 2 puts in", "tighten it in a step after 2", "A", "C"))
	quiet(t, order(t, step("fasten = \"cheeks\"\ntighten = \"cheeks\"")), "work-order")
	quiet(t, order(t, step("fasten = \"cheeks\"")+step("tighten = \"cheeks\"")), "work-order")
}

// TestDryTry: three glued places at once are tried dry, two go together untried.
// The key counts, not the words.
func TestDryTry(t *testing.T) {
	ring := func(n int, steps string) *model.Plan {
		list, into := []plank{{"base", "xy", p3(0, 0, 0), p3(400, 400, 20)}}, ""
		for i := range n {
			name := fmt.Sprintf("post%d", i)
			list, into = append(list, plank{name, "zx", p3(float64(i)*50, 0, 20), p3(20, 20, 100)}), into+fmt.Sprintf(", %q", name)
		}
		return scene(t, list, joined("posts", "base", "X", glued)+steps, `into = "X"`, "into = ["+into[2:]+"]")
	}
	at := func(extra string) string {
		return step("fasten = \"posts\"\nglue = \"posts\"\ndo = \"Try it dry, then spread glue.\"\n" + extra)
	}
	one(t, ring(3, at("")), "work-order", find(check.Warning, "Posts: step 1 glues 3 places at once and nothing was tried dry",
		"write dry = true in step 1, or in one before it that puts them together", "A", "B", "C", "D"))
	quiet(t, ring(2, at("")), "work-order")
	quiet(t, ring(3, at("dry = true")), "work-order")
	quiet(t, ring(3, step("dry = true")+at("")), "work-order")
	assert.Len(t, of(ring(3, at("")+step("dry = true")), "work-order"), 1, "too late")
}

// TestCoats: faces that lie on each other are coated before they close, and what
// is glued later is left bare by every coat before.
func TestCoats(t *testing.T) {
	const join, coat = "fasten = [\"slats\", \"cheeks\"]", "finish = true"
	one(t, order(t, step(join)+step(coat)), "work-order", find(check.Warning, "the first coat goes on in step 2, after the last joint: faces that lie on each other stay bare",
		"write in the finish, as hidden, what they get before step 1"))
	quiet(t, order(t, step(join)+step(coat)+"\n[finish]\nhidden = \"Coat them first.\"\n"), "work-order")
	assert.Len(t, of(order(t, step(join)+step(coat)+"\n[finish]\ntext = [\"Coat the faces before the parts are joined.\"]\n"), "work-order"), 1, "words do not count")
	quiet(t, order(t, step(coat)+step(join)), "work-order")
	quiet(t, order(t, step(join+"\n"+coat)), "work-order")
	quiet(t, order(t, step(join)), "work-order") // no coat at all

	const glue = "\n[joint.glued]\nname = \"Glue\"\nfrom = \"cheek\"\ninto = \"rail\"\nglue = true\n"
	glued := func(coats ...string) *model.Plan {
		text := glue
		for _, c := range coats {
			text += step(coat + "\n" + c)
		}
		return order(t, text+step("fasten = [\"slats\", \"cheeks\", \"glued\"]\nglue = \"glued\""))
	}
	one(t, glued(""), "work-order", find(check.Warning, "Glue: step 2 glues wood that step 1 has coated; glue does not hold on finish", "name it in the bare of step 1, or glue before it", "A", "C"))
	quiet(t, glued(`bare = "glued"`), "work-order")
	one(t, glued(`bare = "glued"`, ""), "work-order", find(check.Warning, "Glue: step 3 glues wood that step 2 has coated; glue does not hold on finish", "name it in the bare of step 2, or glue before it", "A", "C"))
	quiet(t, glued(`bare = ["glued"]`, `bare = ["glued"]`), "work-order")
}

// TestHiddenIsTold: what hidden faces get stands first in the finish.
func TestHiddenIsTold(t *testing.T) {
	p := built(t, nil, "holes    = [\"one\"]\n", "holes    = [\"one\"]\n[finish]\nhidden = \"Coat hidden faces.\"\ntext = [\"Sand.\", \"Oil.\"]\n")
	assert.Equal(t, []string{"Coat hidden faces.", "Sand.", "Oil."}, p.Finish.Text)
}
