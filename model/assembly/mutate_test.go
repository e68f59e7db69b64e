package assembly_test

import (
	"math/rand"
	"regexp"
	"strings"
	"testing"
)

// nasty are values that no furniture has, next to some that it might.
var nasty = []string{
	`0`, `-1`, `1`, `2`, `500`, `1000`, `1e9`, `-1e9`, `1e-9`, `""`, `"0"`, `"-3"`, `"1e300"`, `"length"`, `"width/2"`, `"thick"`, `"rank"`, `"rank*3"`, `"floor"`,
	`"leg"`, `"rail"`, `"slat"`, `"both"`, `"left"`, `"right"`, `"front"`, `"rear"`, `"up"`, `"down"`, `"in"`, `"out"`, `"top"`, `"bottom"`, `"inside"`, `"outside"`, `"foot"`,
	`"leg.top"`, `"leg.foot"`, `"leg.top.up"`, `"rail.left.right"`, `"slat.last.rear"`, `"slat.gap"`, `"leg.hole.lower"`, `"leg.hole.lower.along"`, `"rail.top.bevel"`, `"seat.fall"`, `"back.lean"`,
	`"0 deg"`, `"14 deg"`, `"45 deg"`, `"60 deg"`, `"90 deg"`, `"-14 deg"`, `"180 deg"`, `"720 deg"`, `"slope"`, `"recline"`, `"90 deg - slope"`,
	`[0, 0]`, `[1, 1]`, `[-1, 3]`, `[1000, 0]`, `["length", "width"]`, `[0, "width"]`, `[]`, `{}`, `true`, `false`,
	`"half round"`, `"round"`, `"square"`, `"plumb"`, `"pair"`, `"auto"`, `"screw"`, `"bolt"`, `"pocket"`, `"lower"`, `"across"`, `"along"`, `"frame"`, `"seat"`, `"back"`, `"group.up"`, `"seat.rear"`,
	`"{leg.length}"`, `"{count leg}"`, `"{fine }"`, `"{"`, `"}{"`,
}

// value matches a value of TOML on one line: a string, a number, a word.
var value = regexp.MustCompile(`"[^"\n]*"|-?\d+(\.\d+)?|true|false`)

// mutated changes a plan here and there: a value for another, a line twice,
// away or from another plan, a table under another name.
func mutated(text string, others []string, chance *rand.Rand) string {
	lines := strings.Split(text, "\n")
	for range 1 + chance.Intn(4) {
		i := chance.Intn(len(lines))
		switch chance.Intn(8) {
		case 0:
			lines[i] = ""
		case 1:
			other := strings.Split(others[chance.Intn(len(others))], "\n")
			lines[i] = other[chance.Intn(len(other))]
		case 2:
			j := chance.Intn(len(lines))
			lines[i], lines[j] = lines[j], lines[i]
		default:
			spots := value.FindAllStringIndex(lines[i], -1)
			if len(spots) == 0 {
				continue
			}
			s := spots[chance.Intn(len(spots))]
			with := nasty[chance.Intn(len(nasty))]
			if words := value.FindAllString(text, -1); len(words) > 0 && chance.Intn(3) == 0 {
				with = words[chance.Intn(len(words))]
			}
			lines[i] = lines[i][:s[0]] + with + lines[i][s[1]:]
		}
	}
	return strings.Join(lines, "\n")
}

// grown lays a second plan's tables under the first, which gives parts with many
// kinds of cut, and joints of parts that never met.
func grown(text string, others []string, chance *rand.Rand) string {
	if chance.Intn(2) == 0 {
		return text
	}
	other := others[chance.Intn(len(others))]
	if i := strings.Index(other, "\n["); i >= 0 {
		other = other[i:]
	}
	return text + "\n" + other
}

// FuzzMutated solves plans that were good once: what the words mean is changed
// rather than their letters, which gets far deeper than FuzzSolve.
func FuzzMutated(f *testing.F) {
	seeds := seedTexts(f)
	for i := range uint16(300) {
		f.Add(i, int64(i))
	}
	f.Fuzz(func(t *testing.T, which uint16, seed int64) {
		chance := rand.New(rand.NewSource(seed))
		if which%2 == 0 {
			which %= 6 // the examples come first and go deepest
		}
		text := mutated(grown(seeds[int(which)%len(seeds)], seeds, chance), seeds, chance)
		defer func() {
			if r := recover(); r != nil {
				t.Fatalf("panic: %v\n%s", r, text)
			}
		}()
		checkSolve(t, text)
	})
}
