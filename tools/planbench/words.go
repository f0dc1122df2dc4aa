package main

import (
	"bytes"
	"fmt"
	"strconv"
)

// most is the largest number that an instance may hold, so that sums of them stay exact.
const most = 1 << 32

// mostJobs is the most jobs that an instance may have: tables grow with their square.
const mostJobs = 5000

// words is the text of a file word by word, with the line of each.
type words struct {
	list []word
	next int
}

type word struct {
	text string
	line int
}

func split(data []byte) *words {
	w := &words{}
	for n, line := range bytes.Split(data, []byte("\n")) {
		for _, text := range bytes.Fields(line) {
			w.list = append(w.list, word{string(text), n + 1})
		}
	}
	return w
}

// left says whether there are more words.
func (w *words) left() bool { return w.next < len(w.list) }

// line is that of the next word, or of the last one when there is none.
func (w *words) line() int {
	if len(w.list) == 0 {
		return 1
	}
	return w.list[min(w.next, len(w.list)-1)].line
}

func (w *words) faultf(format string, args ...any) error {
	return fmt.Errorf("line %d: %s", w.line(), fmt.Sprintf(format, args...))
}

// number takes the next word, which must be a whole number from lo to hi.
func (w *words) number(what string, lo, hi int64) (int64, error) {
	if !w.left() {
		return 0, w.faultf("the file ends where %s should stand", what)
	}
	x, err := strconv.ParseInt(w.list[w.next].text, 10, 64)
	if err != nil || x < lo || x > hi {
		return 0, w.faultf("%s is %q; it must be a whole number from %d to %d", what, w.list[w.next].text, lo, hi)
	}
	w.next++
	return x, nil
}

// numbers takes as many.
func (w *words) numbers(n int, what string, lo, hi int64) ([]int64, error) {
	list := make([]int64, n)
	for i := range list {
		var err error
		if list[i], err = w.number(what, lo, hi); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// matrix takes rows × columns numbers.
func (w *words) matrix(rows, columns int, what string, lo, hi int64) ([][]int64, error) {
	var m [][]int64
	for range rows {
		row, err := w.numbers(columns, what, lo, hi)
		if err != nil {
			return nil, err
		}
		m = append(m, row)
	}
	return m, nil
}

// past goes on behind the next place where the given words stand in a row.
func (w *words) past(texts ...string) error {
	for at := w.next; at+len(texts) <= len(w.list); at++ {
		if w.stand(at, texts) {
			w.next = at + len(texts)
			return nil
		}
	}
	return w.faultf("%q is missing from here on", texts)
}

func (w *words) stand(at int, texts []string) bool {
	for i, text := range texts {
		if w.list[at+i].text != text {
			return false
		}
	}
	return true
}

// end refuses what stands behind the last number.
func (w *words) end() error {
	if w.left() {
		return w.faultf("%q stands behind the end of the instance; nothing should", w.list[w.next].text)
	}
	return nil
}
