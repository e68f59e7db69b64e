package desk

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/geom"
)

func box(x0, y0, x1, y1 float64) geom.Box {
	return geom.Box{Min: geom.Pt{X: x0, Y: y0}, Max: geom.Pt{X: x1, Y: y1}}
}

// overlap reports whether two boxes share more than a border.
func overlap(a, b geom.Box) bool {
	return a.Min.X < b.Max.X-1e-9 && b.Min.X < a.Max.X-1e-9 && a.Min.Y < b.Max.Y-1e-9 && b.Min.Y < a.Max.Y-1e-9
}

func TestRoomsNeverMeet(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 30 {
		all := box(10, 20, 110, 140)
		d := New(all)
		var taken []geom.Box
		for range 10 {
			x, y := 10+r.Float64()*90, 20+r.Float64()*110
			b := box(x, y, x+r.Float64()*15, y+r.Float64()*15)
			d.Block(b)
			taken = append(taken, b)
		}
		for range 12 {
			w := Want{
				Size: geom.Size{W: 3 + r.Float64()*20, H: 2 + r.Float64()*6},
				Near: geom.Pt{X: 10 + r.Float64()*100, Y: 20 + r.Float64()*120}, Within: all, Pad: 1,
			}
			at, ok := d.Room(w)
			if !ok {
				continue
			}
			assert.InDelta(t, w.Size.W, at.W(), 1e-9)
			assert.InDelta(t, w.Size.H, at.H(), 1e-9)
			assert.True(t, all.Has(at.Min) && all.Has(at.Max))
			for _, b := range taken {
				assert.False(t, overlap(at.Grow(w.Pad), b))
			}
			taken = append(taken, at)
		}
	}
}

func TestRoomIsNearTheWish(t *testing.T) {
	d := New(box(0, 0, 100, 100))
	d.Block(box(40.5, 0, 59.5, 99.5)) // a wall in the middle
	at, ok := d.Room(Want{Size: geom.Size{W: 10, H: 10}, Near: geom.Pt{X: 52, Y: 50}, Within: box(0, 0, 100, 100)})
	require.True(t, ok)
	assert.InDelta(t, 65, (at.Min.X+at.Max.X)/2, 1)
	assert.InDelta(t, 50, (at.Min.Y+at.Max.Y)/2, 1)
}

func TestNoRoom(t *testing.T) {
	d := New(box(0, 0, 50, 50))
	_, ok := d.Room(Want{Size: geom.Size{W: 51, H: 2}, Within: box(0, 0, 50, 50)})
	assert.False(t, ok)
	_, ok = d.Room(Want{Size: geom.Size{W: 5, H: 2}, Within: box(60, 60, 90, 90)})
	assert.False(t, ok, "within lies off the desk")
	d.BlockLine(geom.Line(geom.Pt{X: 0, Y: 25}, geom.Pt{X: 50, Y: 25}), 1)
	assert.False(t, d.Free(box(10, 24.5, 12, 25.5)))
	assert.True(t, d.Free(box(10, 30.5, 12, 31.5)))
	_, ok = d.Room(Want{Size: geom.Size{W: 10, H: 30}, Near: geom.Pt{X: 25, Y: 25}, Within: box(0, 0, 50, 50)})
	assert.False(t, ok, "the line is in the way")
}

// Looking takes nothing; taking does, with the room round it.
func TestLookLeavesFree(t *testing.T) {
	d := New(geom.Box{Max: geom.Pt{X: 50, Y: 50}})
	want := Want{Size: geom.Size{W: 10, H: 10}, Near: geom.Pt{X: 25, Y: 25}, Within: geom.Box{Max: geom.Pt{X: 50, Y: 50}}, Pad: 1}
	seen, ok := d.Look(want)
	require.True(t, ok)
	assert.True(t, d.Free(seen))
	taken, ok := d.Room(want)
	require.True(t, ok)
	assert.Equal(t, seen, taken)
	assert.False(t, d.Free(taken))
	next, ok := d.Look(want)
	require.True(t, ok)
	assert.False(t, next.Meets(taken.Grow(1)))
}
