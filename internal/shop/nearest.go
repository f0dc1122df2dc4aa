package shop

import "strings"

// Nearest returns the known name that was most likely meant: the one with the fewest letters to change, put in or take
// out (capitals aside), the first of equals. It finds none when more than a third of the letters would have to change.
func Nearest(name string, known []string) (string, bool) {
	best, least := "", len([]rune(name))/3+1
	for _, k := range known {
		if d := apart(strings.ToLower(name), strings.ToLower(k), least); d < least {
			best, least = k, d
		}
	}
	return best, best != ""
}

// longest is the longest name that is compared letter by letter.
const longest = 100

// apart is the edit distance of two words, or most when it is not below that. It costs the product of their lengths.
func apart(a, b string, most int) int {
	from, to := []rune(a), []rune(b)
	if abs(len(from)-len(to)) >= most || max(len(from), len(to)) > longest {
		return most
	}
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range from {
		corner := row[0]
		row[0] = i + 1
		for j, q := range to {
			change := corner
			if r != q {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, corner+1, row[j]+1)
		}
	}
	return row[len(to)]
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
