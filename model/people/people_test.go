package people_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/people"
)

// dataFile opens one of the public data files where the check data lie, or skips.
func dataFile(t *testing.T, name string) [][]string {
	t.Helper()
	root := os.Getenv("PLANSET_DATA")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared", "data")
	}
	f, err := os.Open(filepath.Join(root, "ansur2", name))
	if err != nil {
		t.Skipf("the check data are not here: set PLANSET_DATA to the folder that holds ansur2/%s", name)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

func column(t *testing.T, rows [][]string, name string) []float64 {
	t.Helper()
	at := -1
	for i, c := range rows[0] {
		if c == name {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0, name)
	var out []float64
	for _, r := range rows[1:] {
		v, err := strconv.ParseFloat(r[at], 64)
		require.NoError(t, err)
		if name == "weightkg" {
			v /= 10 // the file counts tenths of a kilogram
		}
		out = append(out, v)
	}
	return out
}

// Every number of the table, worked out again from the public data file.
func TestTableFromTheData(t *testing.T) {
	for sex, name := range []string{"ansur2_male_seating_subset.csv", "ansur2_female_seating_subset.csv"} {
		rows := dataFile(t, name)
		assert.Len(t, rows, []int{4082, 1986}[sex]+1)
		for _, r := range people.Table() {
			list, s := column(t, rows, r.Column), r.Spread[sex]
			whole := 0.5
			if r.Measure == people.Mass {
				whole = 0.05
			}
			assert.InDelta(t, people.Percentile(list, 5), s.P5, whole, "%s P5", r.Name)
			assert.InDelta(t, people.Percentile(list, 50), s.P50, whole, "%s P50", r.Name)
			assert.InDelta(t, people.Percentile(list, 95), s.P95, whole, "%s P95", r.Name)
			mean, sd := spread(list)
			assert.InDelta(t, mean, s.Mean, 0.0501, "%s mean", r.Name)
			assert.InDelta(t, sd, s.SD, 0.0501, "%s SD", r.Name)
		}
	}
}

func spread(list []float64) (mean, sd float64) {
	for _, v := range list {
		mean += v / float64(len(list))
	}
	for _, v := range list {
		sd += (v - mean) * (v - mean) / float64(len(list)-1)
	}
	return mean, math.Sqrt(sd)
}

func TestTableIsWhole(t *testing.T) {
	for i, r := range people.Table() {
		assert.Equal(t, people.Measure(i), r.Measure, "the row stands where its measure says")
		for _, s := range r.Spread {
			assert.Less(t, s.P5, s.P50)
			assert.Less(t, s.P50, s.P95)
			assert.InEpsilon(t, 2*1.645*s.SD, s.P95-s.P5, 0.05, "%s: nearly normal", r.Name)
		}
	}
}

// Percentile by hand, between ranks.
func TestPercentile(t *testing.T) {
	list := []float64{40, 10, 30, 20}
	assert.InDelta(t, 10, people.Percentile(list, 0), 0)
	assert.InDelta(t, 25, people.Percentile(list, 50), 1e-12)
	assert.InDelta(t, 40, people.Percentile(list, 100), 0)
	assert.InDelta(t, 11.5, people.Percentile(list, 5), 1e-12)
	assert.Equal(t, []float64{40, 10, 30, 20}, list)
}

// At the table's own statures, For gives the table's own percentiles.
func TestForMeetsTheTable(t *testing.T) {
	for _, x := range []people.Sex{people.Men, people.Women} {
		tall := people.Of(people.Stature, x)
		for _, r := range people.Table() {
			s := r.Spread[x]
			if r.Measure == people.Stature {
				assert.InDelta(t, 1234, people.For(r.Measure, x, 1234), 0)
				continue
			}
			assert.InDelta(t, s.P5, people.For(r.Measure, x, tall.P5), 1e-9, r.Name)
			assert.InDelta(t, s.P50, people.For(r.Measure, x, tall.P50), 1e-9, r.Name)
			assert.InDelta(t, s.P95, people.For(r.Measure, x, tall.P95), 1e-9, r.Name)
		}
	}
}

func TestShare(t *testing.T) {
	for _, x := range []people.Sex{people.Men, people.Women} {
		d := people.Of(people.HipBreadth, x)
		assert.InDelta(t, 0.5, people.Share(people.HipBreadth, x, d.Mean), 1e-12)
		assert.InDelta(t, 0.95, people.Share(people.HipBreadth, x, d.P95), 0.015)
		assert.InDelta(t, 0.05, people.Share(people.HipBreadth, x, d.P5), 0.015)
	}
}
