package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"foldwright/internal/schedule"
)

// The search is compared with cbc, a general solver of mixed-integer linear programs that knows nothing of set-ups.

// rival is what cbc makes of a problem.
type rival struct {
	order   schedule.Order // nil: none found in its time
	claimed int64          // what it says that costs
	proven  bool           // nothing costs less
}

// solver finds cbc.
func solver() (string, error) {
	path, err := exec.LookPath("cbc")
	if err != nil {
		err = errors.New("cbc is not installed; make test-tools installs it (the package is coinor-cbc)")
	}
	return path, err
}

// solve lets cbc work on the linear program for a time by the clock, or without end where that is nothing. On large programs
// it does not look at the clock for long; after four times as long it is killed, and has found nothing.
func solve(cbc string, p *schedule.Problem, limit time.Duration) (rival, error) {
	dir, err := os.MkdirTemp("", "planbench")
	if err != nil {
		return rival{}, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	model, answer := filepath.Join(dir, "model.lp"), filepath.Join(dir, "answer.txt")
	if err := writeFile(model, p); err != nil {
		return rival{}, err
	}
	ctx, args := context.Background(), []string{model}
	if limit > 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, 4*limit)
		defer stop()
		args = append(args, "-timeMode", "elapsed", "-seconds", fmt.Sprint(limit.Seconds()))
	}
	said, err := exec.CommandContext(ctx, cbc, append(args, "-solve", "-solution", answer)...).CombinedOutput()
	if ctx.Err() != nil {
		return rival{}, nil
	}
	if err != nil {
		return rival{}, fmt.Errorf("cbc: %w\n%s", err, said)
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		return rival{}, fmt.Errorf("cbc: %w\n%s", err, said)
	}
	return readAnswer(string(text), p)
}

func writeFile(name string, p *schedule.Problem) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(writeModel(file, p), file.Close())
}

// readAnswer reads cbc's file: how it ended, then a line for each variable that is not 0, of number, name, value and price.
func readAnswer(text string, p *schedule.Problem) (rival, error) {
	head, lines, _ := strings.Cut(text, "\n")
	r := rival{proven: strings.HasPrefix(head, "Optimal - ")}
	switch {
	case !r.proven && !strings.HasPrefix(head, "Stopped on "):
		return rival{}, fmt.Errorf("cbc ends with %q", head)
	case strings.Contains(head, "no integer solution"):
		return rival{}, nil
	}
	if value, err := strconv.ParseFloat(head[strings.LastIndexByte(head, ' ')+1:], 64); err == nil {
		r.claimed = int64(math.Round(value))
	}
	n, next := len(p.Jobs), make([]map[int]int, len(p.Machines))
	for i := range next {
		next[i] = map[int]int{}
	}
	for line := range strings.Lines(lines) {
		var number, i, j, k int
		var value float64
		got, _ := fmt.Sscanf(strings.TrimPrefix(strings.TrimSpace(line), "** "), "%d x_%d_%d_%d %g", &number, &i, &j, &k, &value)
		if got == 5 && value > 0.5 {
			next[i][j] = k
		}
	}
	r.order = make(schedule.Order, len(next))
	for i := range next {
		for j, ok := next[i][n]; ok && j < n && len(r.order[i]) < n; j, ok = next[i][j] {
			r.order[i] = append(r.order[i], j)
		}
	}
	return r, nil
}
