package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"runtime"
	"strconv"
	"sync"
)

// pack compresses the contents of the pages of a file that fpdf wrote plainly.
// fpdf would do it one page after the other, each with a writer of its own; so
// they are done side by side, and a writer serves many pages.
func pack(file []byte, pages int) ([]byte, error) {
	t, err := findTail(file)
	if err != nil {
		return nil, err
	}
	numbers, err := pageObjects(file, pages)
	if err != nil {
		return nil, err
	}
	at, err := offsets(file, t)
	if err != nil {
		return nil, err
	}
	contents := make([]stretch, len(numbers))
	for i, n := range numbers {
		// fpdf puts the contents of a page right behind it.
		if contents[i], err = plainStream(file, n+1, at); err != nil {
			return nil, err
		}
	}
	bodies, err := deflateAll(file, contents)
	if err != nil {
		return nil, err
	}
	return replaced(file, t, at, contents, bodies)
}

// A stretch is a piece of a file: the dictionary and the stream of an object
// from the first byte to before the last.
type stretch struct{ from, stream, to int }

// offsets returns where each object of the file begins, by its number.
func offsets(file []byte, t tail) ([]int, error) {
	const row = len("0000000000 00000 n \n")
	table := file[t.xref+len(fmt.Sprintf("xref\n0 %d\n", t.size)):]
	if len(table) < row*t.size {
		return nil, errLayout
	}
	at := make([]int, t.size)
	for i := range at {
		v, err := strconv.Atoi(string(table[i*row : i*row+10]))
		if err != nil || v > t.xref {
			return nil, errLayout
		}
		at[i] = v
	}
	return at, nil
}

// plainStream returns where the dictionary and the uncompressed stream of an
// object are.
func plainStream(file []byte, number int, at []int) (stretch, error) {
	if number >= len(at) {
		return stretch{}, errLayout
	}
	head := fmt.Appendf(nil, "%d 0 obj\n", number)
	from := at[number] + len(head)
	if !bytes.HasPrefix(file[at[number]:], head) {
		return stretch{}, errLayout
	}
	dict, _, found := bytes.Cut(file[from:], []byte("\nstream\n"))
	size, wanted := bytes.CutPrefix(dict, []byte("<</Length "))
	size, closed := bytes.CutSuffix(size, []byte(">>"))
	n, err := strconv.Atoi(string(size))
	if !found || !wanted || !closed || err != nil {
		return stretch{}, errLayout
	}
	stream := from + len(dict) + len("\nstream\n")
	to := stream + n
	if n < 0 || to > len(file) || !bytes.HasPrefix(file[to:], []byte("\nendstream\nendobj\n")) {
		return stretch{}, errLayout
	}
	return stretch{from, stream, to}, nil
}

// deflateAll returns the streams compressed, in their order, on as many
// processors as there are.
func deflateAll(file []byte, all []stretch) ([][]byte, error) {
	out, next := make([][]byte, len(all)), make(chan int)
	wrong := make([]error, min(runtime.GOMAXPROCS(0), len(all)))
	var workers sync.WaitGroup
	for k := range wrong {
		workers.Go(func() {
			var to bytes.Buffer
			z, err := zlib.NewWriterLevel(&to, zlib.BestSpeed)
			for i := range next {
				if err != nil {
					continue
				}
				to.Reset()
				z.Reset(&to)
				if _, err = z.Write(file[all[i].stream:all[i].to]); err == nil {
					err = z.Close()
				}
				out[i] = bytes.Clone(to.Bytes())
			}
			wrong[k] = err
		})
	}
	for i := range all {
		next <- i
	}
	close(next)
	workers.Wait()
	for _, err := range wrong {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// replaced returns the file with other bodies in the place of the streams, which
// lie in rising order, and with the table of objects set right.
func replaced(file []byte, t tail, at []int, streams []stretch, bodies [][]byte) ([]byte, error) {
	out := make([]byte, 0, len(file)/2)
	moved := make([]int, len(streams)+1) // how far what follows the nth stream moves
	done := 0
	for i, s := range streams {
		if s.from < done {
			return nil, errLayout
		}
		out = append(out, file[done:s.from]...)
		out = fmt.Appendf(out, "<</Filter /FlateDecode /Length %d>>\nstream\n", len(bodies[i]))
		out = append(out, bodies[i]...)
		done = s.to
		moved[i+1] = len(out) - done
	}
	out = append(out, file[done:t.xref]...)
	xref := len(out)
	out = fmt.Appendf(out, "xref\n0 %d\n0000000000 65535 f \n", t.size)
	for _, o := range at[1:] {
		n := 0
		for n < len(streams) && streams[n].from <= o {
			n++
		}
		out = fmt.Appendf(out, "%010d 00000 n \n", o+moved[n])
	}
	end := ending.FindSubmatchIndex(file[max(0, len(file)-tailSearched):])
	if end == nil {
		return nil, errLayout
	}
	trailer := file[max(0, len(file)-tailSearched):]
	out = append(out, trailer[end[0]:end[8]]...)
	return fmt.Appendf(out, "%d\n%%%%EOF\n", xref), nil
}
