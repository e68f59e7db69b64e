package source

import (
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

var bench = &File{Name: "bench.toml", Text: "[size]\r\nw = 3 # é ok\n\n  d = \"x\"\n"}

func at(f *File, text string) Span {
	i := strings.Index(f.Text, text)
	return Span{File: f, Start: i, End: i + len(text)}
}

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		offset, line, col int
	}{
		{0, 1, 1}, {5, 1, 6}, {8, 2, 1}, {strings.Index(bench.Text, "ok"), 2, 11}, // é is one character of two bytes
		{strings.Index(bench.Text, "\n\n") + 1, 3, 1}, {len(bench.Text), 5, 1}, {-4, 1, 1}, {1000, 5, 1},
	} {
		line, col := bench.Place(c.offset)
		assert.Equal(t, [2]int{c.line, c.col}, [2]int{line, col}, "offset %d", c.offset)
	}
}

func TestSpan(t *testing.T) {
	s := at(bench, `"x"`)
	assert.True(t, s.Valid())
	assert.Equal(t, "bench.toml:4:7", s.String())
	assert.Equal(t, `"x"`, s.Text())
	assert.Equal(t, "", Span{}.String())
	assert.False(t, Span{}.Valid())
	for _, off := range []Span{{bench, -1, 0}, {bench, 3, 2}, {bench, 0, 999}} {
		assert.False(t, off.Valid())
		assert.Equal(t, "bench.toml", off.String())
		assert.Empty(t, off.Text())
	}
}

func TestListSortsAndDropsRepeats(t *testing.T) {
	other := &File{Name: "a.toml", Text: "x = 1"}
	fill := func(order []int) []Problem {
		var l List
		add := []func(){
			func() { l.Warnf(at(bench, "w"), "b", "warn") },
			func() { l.Errorf(at(bench, "w"), "b", "err") },
			func() { l.Errorf(at(bench, "w"), "a", "err") },
			func() { l.Errorf(at(bench, "w"), "a", "err") },
			func() { l.Errorf(at(bench, "size"), "z", "first") },
			func() { l.Add(Problem{Rule: "o", At: at(other, "x"), Text: "other file"}) },
			func() { l.Errorf(Span{}, "n", "nowhere") },
		}
		for _, i := range order {
			add[i]()
		}
		assert.Equal(t, len(order), l.Len())
		return l.All()
	}
	want := fill([]int{0, 1, 2, 3, 4, 5, 6})
	var rules []string
	for _, p := range want {
		rules = append(rules, p.Rule+" "+p.Text)
	}
	assert.Equal(t, []string{"n nowhere", "o other file", "z first", "a err", "b err", "b warn"}, rules)
	chance := rand.New(rand.NewSource(1))
	for range 20 {
		assert.Equal(t, want, fill(chance.Perm(7)))
	}
}

func TestFailed(t *testing.T) {
	var l, other List
	assert.False(t, l.Failed())
	assert.NotNil(t, l.All())
	l.Warnf(Span{}, "w", "careful")
	assert.False(t, l.Failed())
	other.Errorf(Span{}, "e", "broken")
	l.Append(nil)
	l.Append(&other)
	assert.True(t, l.Failed())
	assert.Equal(t, 2, l.Len())
}

func TestHelpHungOnLaterIsKept(t *testing.T) {
	var l List
	p := l.Errorf(Span{}, "first", "one")
	for range 100 {
		l.Warnf(Span{}, "more", "two")
	}
	p.Note(at(bench, "w"), "here").Fix("do %d", 3)
	assert.Equal(t, "do 3", l.All()[0].Help)
	assert.Len(t, l.All()[0].Also, 1)
}

func TestNearest(t *testing.T) {
	keys := []string{"length", "width", "stock", "back_slat", "in", "at", "hands", "height", "seat"}
	for word, want := range map[string]string{
		"lenght": "length", "witdh": "width", "stok": "stock", "backslat": "back_slat", "Back-Slat": "back_slat", "hand": "hands",
		"hight": "height", "STOCK": "stock", "ni": "in", "it": "at", "seats": "seat",
		"x": "", "zzz": "", "": "", "thickness": "", "length": "",
	} {
		got, ok := Nearest(word, keys)
		assert.Equal(t, want, got, word)
		assert.Equal(t, want != "", ok, word)
	}
	chance := rand.New(rand.NewSource(1))
	for range 20 {
		chance.Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
		got, _ := Nearest("it", keys)
		assert.Equal(t, "at", got, "the order of the known words matters")
	}
	_, ok := Nearest(strings.Repeat("length", 1000), keys)
	assert.False(t, ok)
}

// TestSlipsIsADistance checks what every distance has: none to itself, the same
// both ways, and at most the longer length.
func TestSlipsIsADistance(t *testing.T) {
	chance := rand.New(rand.NewSource(1))
	random := func() []rune {
		w := make([]rune, chance.Intn(7))
		for i := range w {
			w[i] = rune('a' + chance.Intn(3))
		}
		return w
	}
	for range 2000 {
		a, b := random(), random()
		d := slips(a, b)
		assert.Equal(t, d, slips(b, a))
		assert.Equal(t, string(a) == string(b), d == 0)
		assert.LessOrEqual(t, d, max(len(a), len(b)))
		assert.GreaterOrEqual(t, d, max(len(a)-len(b), len(b)-len(a)))
	}
	assert.Equal(t, 1, slips([]rune("ab"), []rune("ba")))
	assert.Equal(t, 3, slips([]rune("kitten"), []rune("sitting"))) // the textbook pair
}

func write(l *List, color bool) string {
	var b strings.Builder
	Write(&b, l, color)
	return b.String()
}

func TestWrite(t *testing.T) {
	f := &File{Name: "bench.toml", Text: "inset = \"hole / 2\"\n\tat = [\"width / 2\", \"inset\"]\nlast = 1\n"}
	inc := &File{Name: "shop.toml", Text: "hole = 9\n"}
	var l List
	l.Errorf(at(f, `"inset"`), "hole-near-end", "hole %q is 9 mm from the end", "bolt").
		Note(at(f, `"inset"`), "inset = 9 mm").
		Note(at(f, "inset"), "inset is set here").
		Note(at(inc, "hole"), "from here").
		Note(Span{}, "with hole = 18 mm").
		Fix("make inset 20 mm or more")
	l.Warnf(at(f, "last"), "idle", "last is not used")
	l.Warnf(Span{}, "empty", "the plan is empty")
	l.Errorf(Span{File: inc, Start: 0, End: 99}, "lost", "somewhere here")
	want := `warning: the plan is empty   [empty]
bench.toml:2:21: error: hole "bolt" is 9 mm from the end
     2 |     at = ["width / 2", "inset"]
       |                        ^^^^^^^ inset = 9 mm
     1 | inset = "hole / 2"
       | ----- inset is set here
   shop.toml:1:1:
     1 | hole = 9
       | ---- from here
         with hole = 18 mm
   help: make inset 20 mm or more   [hole-near-end]
bench.toml:3:1: warning: last is not used   [idle]
     3 | last = 1
       | ^^^^
shop.toml: error: somewhere here   [lost]
`
	assert.Equal(t, want, write(&l, false))
	colored := write(&l, true)
	assert.Contains(t, colored, "\x1b[")
	for _, code := range []string{"0", "1", "1;31", "1;33", "2", "32"} {
		colored = strings.ReplaceAll(colored, "\x1b["+code+"m", "")
	}
	assert.Equal(t, want, colored, "colour changes more than colour")
}

// TestMarksStandUnderThePlace draws places all over long lines and checks that
// the marks stand under what they are about.
func TestMarksStandUnderThePlace(t *testing.T) {
	long := strings.Repeat("0123456789", 50)
	for start := 0; start < 490; start += 7 {
		for _, length := range []int{1, 9, 60, 300} {
			f := &File{Name: "f", Text: "a\n" + long + "\nz"}
			end := min(start+length, len(long))
			var l List
			l.Errorf(Span{f, 2 + start, 2 + end}, "r", "t")
			lines := strings.Split(write(&l, false), "\n")
			source, marks := []rune(lines[1]), []rune(lines[2])
			assert.LessOrEqual(t, len(source), width+gutter+8)
			first := strings.IndexRune(string(marks), '^')
			run := strings.Count(string(marks), "^")
			shown := string(source[first:min(first+run, len(source))])
			under := strings.TrimSuffix(shown, "…")
			assert.NotEmpty(t, under)
			assert.True(t, strings.HasPrefix(long[start:end], under), "%q is marked, not %q", shown, long[start:end])
		}
	}
}

func TestNothingSteersTheTerminal(t *testing.T) {
	f := &File{Name: "f", Text: "x = \"\x1b[2J\u202e\xff\x00\""}
	var l List
	l.Errorf(Span{f, 0, len(f.Text)}, "r", "bad %s", f.Text).Note(Span{}, "%s", f.Text).Fix("%s", f.Text)
	out := write(&l, false)
	assert.NotContains(t, out, "\x1b")
	assert.NotContains(t, out, "\u202e")
	assert.NotContains(t, out, "\x00")
}

func TestEmptyAndManyLinedPlaces(t *testing.T) {
	f := &File{Name: "f", Text: "a = 1\r\nb = 2"}
	var l List
	l.Errorf(Span{f, 5, 5}, "end", "here")
	l.Errorf(Span{f, 4, 12}, "two", "these")
	l.Errorf(Span{f, 12, 12}, "eof", "the end")
	assert.Equal(t, `f:1:5: error: these   [two]
     1 | a = 1
       |     ^
f:1:6: error: here   [end]
     1 | a = 1
       |      ^
f:2:6: error: the end   [eof]
     2 | b = 2
       |      ^
`, write(&l, false))
}
