package cutting

import (
	"bufio"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// An instance is a one-dimensional cutting problem with its known optimum.
type instance struct {
	name    string
	job     Job
	optimum float64
}

// flat makes a job of pieces as wide as their stock, so that only lengths matter.
func flat(kerf float64, lengths []Sold, pieces map[float64]int, order []float64) Job {
	job := Job{Stocks: []Stock{{Key: "s", Thick: 1, Width: 1, Lengths: lengths}}, Rules: Rules{Kerf: kerf}}
	for i, l := range order {
		job.Pieces = append(job.Pieces, Piece{Code: "P" + strconv.Itoa(i), Stock: "s", Length: l, Width: 1, Count: pieces[l]})
	}
	return job
}

// bins is flat with one stock length at a price of one.
func bins(capacity float64, sizes []float64) Job {
	counts := map[float64]int{}
	var order []float64
	for _, s := range sizes {
		if counts[s] == 0 {
			order = append(order, s)
		}
		counts[s]++
	}
	return flat(0, []Sold{{Length: capacity, Price: 1}}, counts, order)
}

// dataDir returns the folder of public instances, or skips the test.
func dataDir(t testing.TB) string {
	dir := os.Getenv("PLANSET_DATA")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "data")
	}
	if _, err := os.Stat(dir); err != nil {
		t.Skipf("the public instances are not at %s (set PLANSET_DATA): nothing was checked", dir)
	}
	return dir
}

// words reads a file as white-space separated words.
func words(t testing.TB, path string) []string {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	scan := bufio.NewScanner(f)
	scan.Split(bufio.ScanWords)
	var out []string
	for scan.Scan() {
		out = append(out, scan.Text())
	}
	require.NoError(t, scan.Err())
	return out
}

func number64(t testing.TB, s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

// optima reads the table of known optima: by file and problem.
func optima(t testing.TB, dir string) map[string]float64 {
	text, err := os.ReadFile(filepath.Join(dir, "1d_binpack", "OPTIMA.csv"))
	require.NoError(t, err)
	out := map[string]float64{}
	for _, line := range strings.Split(string(text), "\n")[1:] {
		if f := strings.Split(strings.TrimSpace(line), ","); len(f) > 5 {
			out[f[1]+" "+f[2]] = number64(t, f[5])
		}
	}
	return out
}

// orLibrary reads a file in OR-Library's bin-packing format.
func orLibrary(t testing.TB, dir, file string, known map[string]float64) []instance {
	w := words(t, filepath.Join(dir, "1d_binpack", file))
	at := 1
	var out []instance
	for at < len(w) {
		name, capacity, n := w[at], number64(t, w[at+1]), int(number64(t, w[at+2]))
		at += 4
		var sizes []float64
		for range n {
			sizes = append(sizes, number64(t, w[at]))
			at++
		}
		best, ok := known[file+" "+name]
		require.True(t, ok, "no optimum for %s %s", file, name)
		out = append(out, instance{name, bins(capacity, sizes), best})
	}
	return out
}

// waescher reads a .BPP file: quoted name, number of sizes, capacity, sizes and counts.
func waescher(t testing.TB, dir string, known map[string]float64) []instance {
	const file = "waescher/WAE_GAU1.BPP"
	w := words(t, filepath.Join(dir, "1d_binpack", file))
	var out []instance
	for at := 0; at < len(w); {
		name, m, capacity := strings.Trim(w[at], "'"), int(number64(t, w[at+1])), number64(t, w[at+2])
		at += 3
		var sizes []float64
		for range m {
			for range int(number64(t, w[at+1])) {
				sizes = append(sizes, number64(t, w[at]))
			}
			at += 2
		}
		best, ok := known[file+" "+name]
		if !ok { // TEST0055 is there twice and told apart by its number of items
			best, ok = known[file+" "+name+map[bool]string{true: "A", false: "B"}[len(sizes) == 142]]
		}
		require.True(t, ok, "no optimum for %s", name)
		out = append(out, instance{name, bins(capacity, sizes), best})
	}
	return out
}

// multistock reads the board-cutting instances with kerf and several lengths.
func multistock(t testing.TB, dir string) []instance {
	var raw []struct {
		Name   string  `json:"name"`
		Kerf   float64 `json:"kerf"`
		Stocks []struct {
			Length float64 `json:"length"`
			Cost   float64 `json:"cost"`
			Limit  *int    `json:"limit"`
		} `json:"stocks"`
		Items []struct {
			Length float64 `json:"length"`
			Demand int     `json:"demand"`
		} `json:"items"`
		Optimum float64 `json:"optimum_cost"`
	}
	text, err := os.ReadFile(filepath.Join(dir, "1d_multistock", "multistock.json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &raw))
	const sixteenth = inch / 16
	var out []instance
	for _, r := range raw {
		var sold []Sold
		for _, s := range r.Stocks {
			one := Sold{Length: s.Length * sixteenth, Price: s.Cost}
			if s.Limit != nil {
				one.Limit = *s.Limit
			}
			sold = append(sold, one)
		}
		counts, order := map[float64]int{}, []float64{}
		for _, i := range r.Items {
			counts[i.Length*sixteenth] = i.Demand
			order = append(order, i.Length*sixteenth)
		}
		out = append(out, instance{r.Name, flat(r.Kerf*sixteenth, sold, counts, order), r.Optimum})
	}
	return out
}

// textbook reads the reprinted cutting-stock examples.
func textbook(t testing.TB, dir string) []instance {
	var raw []struct {
		Name    string       `json:"name"`
		Length  float64      `json:"stock_length"`
		Kerf    float64      `json:"kerf"`
		Items   [][2]float64 `json:"items"`
		Optimum float64      `json:"optimum_stocks"`
	}
	text, err := os.ReadFile(filepath.Join(dir, "1d_textbook", "textbook.json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &raw))
	var out []instance
	for _, r := range raw {
		counts, order := map[float64]int{}, []float64{}
		for _, i := range r.Items {
			counts[i[0]] = int(i[1])
			order = append(order, i[0])
		}
		out = append(out, instance{r.Name, flat(r.Kerf, []Sold{{Length: r.Length, Price: 1}}, counts, order), r.Optimum})
	}
	return out
}
