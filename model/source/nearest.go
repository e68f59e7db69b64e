package source

import (
	"strings"
	"unicode/utf8"
)

// longestWord is the longest word, in characters, that is worth guessing at.
const longestWord = 64

// Nearest returns the known word that word was most likely meant to be. Slips
// are a letter too many, missing, wrong or swapped with its neighbour; case,
// blanks, "-" and "_" count for nothing. Among equally near words the first in
// the alphabet wins, so the order of known does not matter.
func Nearest(word string, known []string) (string, bool) {
	if utf8.RuneCountInString(word) > longestWord {
		return "", false
	}
	from := []rune(plainWord(word))
	best, bestSlips := "", slipsAllowed(len(from))+1
	for _, candidate := range known {
		if candidate == word || candidate == "" {
			continue
		}
		to := []rune(plainWord(candidate))
		if len(to)-len(from) >= bestSlips+1 || len(from)-len(to) >= bestSlips+1 {
			continue
		}
		n := slips(from, to)
		if n < bestSlips || n == bestSlips && best != "" && candidate < best {
			best, bestSlips = candidate, n
		}
	}
	return best, best != ""
}

// slipsAllowed grows with the word: of two letters one wrong still leaves a
// trace of the word, of one letter it leaves nothing.
func slipsAllowed(length int) int {
	switch {
	case length < 2:
		return 0
	case length < 6:
		return 1
	case length < 10:
		return 2
	}
	return 3
}

func plainWord(word string) string {
	return strings.NewReplacer("-", "", "_", "", " ", "").Replace(strings.ToLower(word))
}

// slips is the edit distance with swaps of neighbours (optimal string
// alignment), by rows.
func slips(from, to []rune) int {
	before, last, row := make([]int, len(to)+1), make([]int, len(to)+1), make([]int, len(to)+1)
	for j := range last {
		last[j] = j
	}
	for i, a := range from {
		row[0] = i + 1
		for j, b := range to {
			cost := 1
			if a == b {
				cost = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+cost)
			if i > 0 && j > 0 && a == to[j-1] && from[i-1] == b {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(to)]
}
