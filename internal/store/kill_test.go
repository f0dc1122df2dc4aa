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
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
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

// writeUntilKilled counts up the sheets of one job and of one record for each hand, keeps a draft for each count, and says on
// its output what was acknowledged. It ends when it is killed, or when something is wrong.
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
		fmt.Printf("job %d %d\n", hand, j.Sheets) // one write to the pipe
		if err := s.AddDraft(ctx, ledger.Draft{ID: draftID(hand, j.Sheets), At: time.Now(), Order: plan.Order{{Folder: "alder", Jobs: []string{j.Name}}}}); err != nil {
			return err
		}
		fmt.Printf("draft %d %d\n", hand, j.Sheets)
		if err := recordUp(ctx, s, hand, j.Sheets); err != nil {
			return err
		}
		fmt.Printf("record %d %d\n", hand, j.Sheets)
	}
}

func draftID(hand, count int) string { return fmt.Sprintf("%d-%d", hand, count) }

// recordUp writes the record of a hand, or writes it anew with another count.
func recordUp(ctx context.Context, s *store.Store, hand, count int) error {
	r, err := s.Record(ctx, strconv.Itoa(hand))
	if len(fault.All(err)) > 0 { // there is none yet
		r = ledger.Record{ID: strconv.Itoa(hand), At: time.Now(), Start: time.Now(), Sheets: count}
		_, err = s.AddRecord(ctx, r)
		return err
	}
	if err == nil {
		r.Sheets = count
		_, err = s.PutRecord(ctx, r)
	}
	return err
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
// After each the counts are at least what was acknowledged and at most one more for each hand, every draft is there, and the
// store is sound.
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
		acknowledged := writeAndKill(t, where, moment)
		checkKept(t, where, acknowledged)
		total += acknowledged.writes
		if t.Failed() {
			t.Fatalf("round %d of seed %d, killed %+v", round, seed, moment)
		}
	}
	t.Logf("%d kills, %d acknowledged writes, none lost", rounds, total)
	if total < rounds {
		t.Errorf("the writers hardly came to write: %d writes in %d rounds", total, rounds)
	}
}

// moment is when a writer is killed: so many writes after its start, and then a while.
type moment struct {
	writes int
	then   time.Duration
}

// randomMoment is sometimes while the writer starts, and else in the midst of writing, however slow the machine is.
func randomMoment(chance *rand.Rand) moment {
	if chance.IntN(3) == 0 {
		return moment{0, time.Duration(chance.Int64N(int64(200 * time.Millisecond)))}
	}
	return moment{1 + chance.IntN(60), time.Duration(chance.Int64N(int64(3 * time.Millisecond)))}
}

// told is what a writer was told that is kept: the highest count of each job and record by "job 0" or "record 0", and how many
// writes there were; drafts one by one.
type told struct {
	counts map[string]int
	drafts []string
	writes int
}

// writeAndKill runs a writer, kills it and gives what it was told.
func writeAndKill(t *testing.T, where string, m moment) told {
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
	if m.writes == 0 {
		kill()
	}
	// A last line without an end was cut by the kill, after its change.
	acknowledged := told{counts: map[string]int{}}
	lines := bufio.NewReader(out)
	for line, err := lines.ReadString('\n'); err == nil; line, err = lines.ReadString('\n') {
		var what string
		var hand, count int
		if n, _ := fmt.Sscanf(line, "%s %d %d", &what, &hand, &count); n != 3 {
			t.Errorf("the writer said %q", strings.TrimSpace(line))
			continue
		}
		if what == "draft" {
			acknowledged.drafts = append(acknowledged.drafts, draftID(hand, count))
		} else {
			key := fmt.Sprint(what, " ", hand)
			acknowledged.counts[key] = max(acknowledged.counts[key], count)
		}
		if acknowledged.writes++; acknowledged.writes == m.writes {
			kill()
		}
	}
	cmd.Wait()
	return acknowledged
}

// checkKept opens what a killed writer left and holds it to what was acknowledged. (That it is sound in itself, each record
// as its last version says, is for Verify to see.)
func checkKept(t *testing.T, where string, acknowledged told) {
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
	for hand := range hands {
		if count := acknowledged.counts[fmt.Sprint("job ", hand)]; count > 0 && (now.Shop == nil || now.Shop.Jobs[hand].Sheets < count || now.Shop.Jobs[hand].Sheets > count+1) {
			t.Errorf("hand %d was told of %d; kept is revision %d", hand, count, now.Revision)
		}
		if count := acknowledged.counts[fmt.Sprint("record ", hand)]; count > 0 {
			if r, err := s.Record(ctx, strconv.Itoa(hand)); err != nil || r.Sheets < count || r.Sheets > count+1 {
				t.Errorf("hand %d was told of a record with %d; kept is one with %d: %v", hand, count, r.Sheets, err)
			}
		}
	}
	for _, id := range acknowledged.drafts {
		if _, err := s.Draft(ctx, id); err != nil {
			t.Error(err)
		}
	}
}
