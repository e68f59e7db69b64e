package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/check"
)

// form is a backless bench: two boards over two trestles.
const form = `
unit = "mm"
[plan]
title = "Form"
kind  = "bench"
[size]
long  = 1120
high  = 430
apart = 700
seat_t = 40
[stock.plank]
section = [40, 200]
lengths = ["2.4 m"]
species = "western redcedar"
[hardware.screw]
kind     = "wood screw"
size     = "5"
material = "stainless steel"
[part.seat]
name   = "Seat"
stock  = "plank"
thick  = "seat_t"
length = "long"
width  = 160
arris.front.top = { round = 8 }
[part.leg]
name   = "Leg"
stock  = "plank"
hands  = "pair"
length = "high - seat_t"
ends   = ["foot", "head"]
edges  = ["front", "rear"]
faces  = ["inside", "outside"]
[[place]]
part  = "leg"
lies  = { foot = "down", inside = "in" }
meets = { foot = "floor", inside = "apart/2", front = 0 }
[[place]]
part  = "seat"
lies  = { left = "left", top = "up" }
meets = { bottom = "high - seat_t", front = 20 }
[joint.seat]
from     = "seat"
into     = "leg"
hardware = "screw"
count    = 2
inset    = 30
`

// TestBench: 22 in for each sitter, two when the plan does not say.
func TestBench(t *testing.T) {
	one(t, written(t, form, "long  = 1120", "long  = 1117"), "seat", find(check.Warning, "1117 mm for 2 sitters; each takes 559 mm", "make it 1 mm wider, or write seats = 1"))
	quiet(t, written(t, form), "seat")
	one(t, written(t, form, `kind  = "bench"`, "kind  = \"bench\"\nseats = 3"), "seat", find(check.Warning, "1120 mm for 3 sitters; each takes 559 mm", "make it 556.5 mm wider, or write seats = 2"))
	quiet(t, written(t, form, `kind  = "bench"`, "kind  = \"bench\"\nseats = 3", "long  = 1120", "long  = 1677"), "seat")
}

// TestFrontEdge: 1/4 in of rounding under the knee, made as the finding says.
func TestFrontEdge(t *testing.T) {
	const round = "arris.front.top = { round = 8 }"
	one(t, written(t, form, round, "arris.front.top = { round = 6 }"), "seat", find(check.Warning,
		"Seat A: its front edge is eased by 6 mm; under 6.5 mm it presses into the knee", "round the arris of front and top by 6.5 mm", "A"))
	quiet(t, written(t, form, round, "arris.front.top = { round = 6.5 }"), "seat")
	list := of(written(t, form, round, "arris.rear.top = { round = 8 }"), "seat")
	require.Len(t, list, 1)
	assert.Zero(t, list[0].Value, "the wrong edge")
}

// TestGoesWith holds a stool to the seat beside it and a table to the arm.
func TestGoesWith(t *testing.T) {
	stool := func(words string) *model.Plan {
		return written(t, form, `kind  = "bench"`, "kind  = \"stool\"\n[beside]\n"+words)
	}
	one(t, stool("seat_height = 404"), "goes-with", find(check.Warning,
		"its top is 430 mm high where it meets the chair, the front of the seat 404 mm; legs lie well within 25.5 mm", "lower it by 1 mm"))
	quiet(t, stool("seat_height = 405"), "goes-with")
	quiet(t, stool("seat_height = 455"), "goes-with")
	one(t, stool("seat_height = 456"), "goes-with", find(check.Warning,
		"its top is 430 mm high where it meets the chair, the front of the seat 456 mm; legs lie well within 25.5 mm", "raise it by 1 mm"))
	one(t, stool(`seat_slope = "2.1 deg"`), "goes-with", find(check.Warning,
		"its top falls 0.0° and the seat beside it 2.1°; within 2.0° they make one line", "turn its top by 0.1°"))
	quiet(t, stool(`seat_slope = "2 deg"`), "goes-with")

	table := func(arm string) *model.Plan {
		return written(t, form, `kind  = "bench"`, "kind  = \"table\"\n[beside]\narm_height = "+arm)
	}
	one(t, table("482"), "goes-with", find(check.Warning, "its top is 430 mm high, the arm beside it 482 mm; a glass is reached within 51 mm", "raise it by 1.5 mm"))
	quiet(t, table("480"), "goes-with")
	quiet(t, written(t, form), "goes-with")
}

// TestTall: three times as high as deep, or a bookcase of 24 in, is anchored.
func TestTall(t *testing.T) {
	shelf := func(kind, high, apart string, more ...string) *model.Plan {
		return written(t, form, append([]string{`kind  = "bench"`, kind, "high  = 430", "high  = " + high}, more...)...)
	}
	const anchor = "[[step]]\ndo = \"Screw a wall anchor to its top.\"\n[part.leg]"
	// 200 deep: the legs.
	one(t, shelf(`kind = "bookcase"`, "601", ""), "tall", find(check.Warning,
		"it is 601 mm high and 200 mm deep, 3.0 times; over 3 times it is tied to a wall, or a child that climbs it brings it down", "let the last step tie its top to the wall with a wall anchor"))
	quiet(t, shelf(`kind = "bookcase"`, "599", ""), "tall")
	wide := []string{"section = [40, 200]", "section = [40, 300]"}
	one(t, shelf(`kind = "bookcase"`, "611", "", wide...), "tall", find(check.Warning,
		"it is 611 mm high and 300 mm deep; over 609.5 mm it is tied to a wall, or a child that climbs it brings it down", "let the last step tie its top to the wall with a wall anchor"))
	quiet(t, shelf(`kind = "bookcase"`, "609", "", wide...), "tall")
	quiet(t, shelf(`kind = "bookcase"`, "700", "", "[part.leg]", anchor), "tall")
	assert.Len(t, of(shelf("", "615", ""), "tall"), 1, "slim and high without a kind")
	quiet(t, shelf("", "605", ""), "tall")
	quiet(t, shelf(`kind = "table"`, "700", ""), "tall")
}

// rack is two boards on edge, one over the other, between posts.
const rack = `
unit = "mm"
[plan]
title = "Rack"
children = true
[size]
open = 100
[stock.plank]
section = [20, 100]
lengths = ["2.4 m"]
[part.rail]
name   = "Rail"
stock  = "plank"
length = 600
edges  = ["low", "high"]
faces  = ["near", "far"]
[[place]]
part  = "rail"
lies  = { low = "down", near = "front" }
meets = { low = "floor", near = 0 }
row   = { toward = "up", count = 2, gap = "open" }
`

// TestHeadCaught: from 3 1/2 to 9 in, and only where children are.
func TestHeadCaught(t *testing.T) {
	at := func(gap float64) *model.Plan { return written(t, rack, "open = 100", fmt.Sprintf("open = %g", gap)) }
	one(t, at(90), "head-caught", find(check.Warning, "the opening between two pieces of Rail A is 90 mm; from 89 mm to 228.5 mm a child's head is caught", "close it by 1.5 mm, or open it by 139 mm", "A"))
	quiet(t, at(88.5), "head-caught")
	assert.Len(t, of(at(228), "head-caught"), 1)
	quiet(t, at(229), "head-caught")
	quiet(t, written(t, rack, "children = true", ""), "head-caught")
}

// TestBends: a seat that is a third of the way to breaking, with knots, and half
// of it clear; as thick as the finding says it is let be.
func TestBends(t *testing.T) {
	sat := func(apart, thick, need string) []check.Finding {
		p := written(t, form, "apart = 700", "apart = "+apart, "long  = 1120", "long  = 1300", `kind  = "bench"`, "kind  = \"bench\"\nseats = 1", "seat_t = 40", "seat_t = "+thick, "width  = 160", "width  = 160"+need)
		return of(p, "bends")
	}
	// 1300 N on a pad in the middle of L = 840 mm: M = P/4·(L - 8r/3π) over w·t²/6.
	list := sat("800", "22", "")
	require.Len(t, list, 1)
	assert.Equal(t, check.Warning, list[0].Severity)
	assert.Contains(t, list[0].Text, "Seat A: sitting bends it to")
	assert.Contains(t, list[0].Text, "33 % is the most with knots")
	used := 1300.0 / 4 * (840 - 85) / (160 * 22 * 22 / 6.0) / 51.7
	assert.InEpsilon(t, used*100, list[0].Value, 0.06)
	var thick, apart float64
	_, err := fmt.Sscanf(list[0].Fix, "make it %g mm thick, or put its supports %g mm apart", &thick, &apart)
	require.NoError(t, err)
	assert.Empty(t, sat("800", fmt.Sprint(thick), ""))
	assert.NotEmpty(t, sat("800", fmt.Sprint(thick-0.7), ""), "no more than it takes")
	assert.Empty(t, sat("800", "19.5", "\nneed = \"clear\""))
	assert.NotEmpty(t, sat("800", "18.5", "\nneed = \"clear\""))
	list = sat("800", "13", "")
	require.Len(t, list, 1)
	assert.Equal(t, check.Error, list[0].Severity, "it breaks")
}
