package store_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"foldwright/internal/demo"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
	"foldwright/internal/store/storetest"
)

// writerVariable names the database that this test program shall write to until it is killed.
const writerVariable = "FOLDWRIGHT_TEST_WRITER"

// roundsVariable says how often a writer is killed; make soak wants a thousand.
const roundsVariable = "FOLDWRIGHT_KILL_ROUNDS"

func TestMain(m *testing.M) {
	if where := os.Getenv(writerVariable); where != "" {
		writeUntilKilled(where)
	}
	os.Exit(m.Run())
}

// hands are how many people write at once in the program that is killed.
const hands = 3

// writeUntilKilled counts up the sheets of one job for each hand, and says on its output what was acknowledged. It ends
// when it is killed, or when something is wrong.
func writeUntilKilled(where string) {
	ctx := context.Background()
	s, err := store.Open(ctx, where, store.Options{})
	if err == nil {
		err = fillOnce(ctx, s)
	}
	if err != nil {
		fmt.Println("failed:", err)
		os.Exit(1)
	}
	var wait sync.WaitGroup
	for hand := range hands {
		wait.Go(func() { fmt.Println("failed:", countUp(ctx, s, hand)) })
	}
	wait.Wait()
	os.Exit(1)
}

func fillOnce(ctx context.Context, s *store.Store) error {
	sh, err := demo.Shop()
	if err != nil {
		return err
	}
	if now, err := s.Snapshot(ctx); err != nil || now.Shop != nil {
		return err
	}
	for i := range hands {
		sh.Jobs[i].Sheets = 1
	}
	_, err = s.Fill(ctx, ledger.By{Who: "writer"}, sh)
	return err
}

func countUp(ctx context.Context, s *store.Store, hand int) error {
	for {
		now, err := s.Snapshot(ctx)
		if err != nil {
			return err
		}
		j := now.Shop.Jobs[hand]
		j.Sheets++
		tag, _ := now.Tag(ledger.OfJob, j.Name)
		if _, err := s.Change(ctx, ledger.By{Who: "hand " + strconv.Itoa(hand)}, ledger.Put(tag, j)); err != nil {
			return err
		}
		fmt.Printf("%d %d\n", hand, j.Sheets) // one write to the pipe
	}
}

func TestKilledWriterLosesNothing(t *testing.T) {
	dir := t.TempDir()
	killRounds(t, func(round int) string { return filepath.Join(dir, fmt.Sprintf("shop-%d.db", round/10)) })
}

func TestKilledWriterLosesNothingOnPostgreSQL(t *testing.T) {
	server := storetest.Server(t)
	var schema string
	killRounds(t, func(round int) string {
		if round%10 == 0 {
			schema = storetest.Schema(t, server)
		}
		return schema
	})
}

// killRounds kills a writer at random moments, ten times on each database: while it makes the tables, fills them, writes.
// After each the counts are at least what was acknowledged and at most one more for each hand, and the store is sound.
func killRounds(t *testing.T, place func(round int) string) {
	rounds := 20
	if text := os.Getenv(roundsVariable); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		rounds = n
	}
	seed := rand.Uint64()
	chance := rand.New(rand.NewPCG(seed, 0))
	total := 0
	for round := range rounds {
		moment := randomMoment(chance)
		where := place(round)
		acknowledged, changes := writeAndKill(t, where, moment)
		checkCounts(t, where, acknowledged)
		total += changes
		if t.Failed() {
			t.Fatalf("round %d of seed %d, killed %+v", round, seed, moment)
		}
	}
	t.Logf("%d kills, %d acknowledged changes, none lost", rounds, total)
	if total < rounds {
		t.Errorf("the writers hardly came to write: %d changes in %d rounds", total, rounds)
	}
}

// moment is when a writer is killed: so many changes after its start, and then a while.
type moment struct {
	changes int
	then    time.Duration
}

// randomMoment is sometimes while the writer starts, and else in the midst of writing, however slow the machine is.
func randomMoment(chance *rand.Rand) moment {
	if chance.IntN(3) == 0 {
		return moment{0, time.Duration(chance.Int64N(int64(200 * time.Millisecond)))}
	}
	return moment{1 + chance.IntN(60), time.Duration(chance.Int64N(int64(3 * time.Millisecond)))}
}

// writeAndKill runs a writer, kills it and gives the last count that each hand was told is kept, and how many changes
// there were.
func writeAndKill(t *testing.T, where string, m moment) (last [hands]int, changes int) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), writerVariable+"="+where)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill := func() { time.AfterFunc(m.then, func() { cmd.Process.Kill() }) }
	if m.changes == 0 {
		kill()
	}
	// A last line without an end was cut by the kill, after its change.
	lines := bufio.NewReader(out)
	for line, err := lines.ReadString('\n'); err == nil; line, err = lines.ReadString('\n') {
		var hand, count int
		if n, _ := fmt.Sscanf(line, "%d %d", &hand, &count); n != 2 {
			t.Errorf("the writer said %q", strings.TrimSpace(line))
			continue
		}
		last[hand] = max(last[hand], count)
		if changes++; changes == m.changes {
			kill()
		}
	}
	cmd.Wait()
	return last, changes
}

// checkCounts opens what a killed writer left and holds it to what was acknowledged.
func checkCounts(t *testing.T, where string, acknowledged [hands]int) {
	t.Helper()
	ctx := t.Context()
	s, err := store.Open(ctx, where, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Verify(ctx); err != nil {
		t.Fatal(err)
	}
	now, err := s.Snapshot(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for hand, count := range acknowledged {
		if count == 0 {
			continue
		}
		if now.Shop == nil || now.Shop.Jobs[hand].Sheets < count || now.Shop.Jobs[hand].Sheets > count+1 {
			t.Errorf("hand %d was told of %d; kept is revision %d", hand, count, now.Revision)
		}
	}
}
