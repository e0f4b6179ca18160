package boltledger_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"go.etcd.io/bbolt"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/boltledger"
	"strikeoff/bot/ledger/ledgertest"
)

// filled is a ledger file with some jobs, closed.
func filled(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "ledger.db")
	l := openFile(t, path)
	for i := range 30 {
		key := fmt.Sprint("m", i)
		if _, err := l.Keep(t.Context(), ledgertest.Inbound(key)); err != nil {
			t.Fatal(err)
		}
		if err := l.Save(t.Context(), ledgertest.NewJob(job.ID(i+1), key)); err != nil {
			t.Fatal(err)
		}
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// Ensure a file that is damaged, of a later version, or no ledger is refused with a sentence and left as it was, byte for byte.
func TestBadFilesAreLeftAlone(t *testing.T) {
	edit := func(f func(tx *bbolt.Tx) error) func(*testing.T, string) {
		return func(t *testing.T, path string) {
			db, err := bbolt.Open(path, 0o600, nil)
			if err != nil {
				t.Fatal(err)
			}
			defer db.Close()
			if err := db.Update(f); err != nil {
				t.Fatal(err)
			}
		}
	}
	write := func(f func([]byte) []byte) func(*testing.T, string) {
		return func(t *testing.T, path string) {
			b, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, f(b), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	in := func(bucket, key, value string) func(*testing.T, string) {
		return edit(func(tx *bbolt.Tx) error { return tx.Bucket([]byte(bucket)).Put([]byte(key), []byte(value)) })
	}
	for _, c := range []struct {
		name  string
		spoil func(*testing.T, string)
		want  error
	}{
		{"text", write(func([]byte) []byte { return bytes.Repeat([]byte("this is no ledger\n"), 2000) }), job.ErrCorrupt},
		{"a few bytes", write(func([]byte) []byte { return []byte("hello") }), job.ErrCorrupt},
		{"cut in half", write(func(b []byte) []byte { return b[:len(b)/2] }), job.ErrCorrupt},
		{"cut to its first pages", write(func(b []byte) []byte { return b[:8192] }), job.ErrCorrupt},
		{"pages overwritten", write(func(b []byte) []byte { return append(b[:8192:8192], bytes.Repeat([]byte{0xa5}, len(b)-8192)...) }), job.ErrCorrupt},
		{"zeros after the first pages", write(func(b []byte) []byte { return append(b[:8192:8192], make([]byte, len(b)-8192)...) }), job.ErrCorrupt},
		{"somebody else's bolt file", edit(func(tx *bbolt.Tx) error {
			if err := tx.DeleteBucket([]byte("meta")); err != nil {
				return err
			}
			_, err := tx.CreateBucket([]byte("recipes"))
			return err
		}), job.ErrCorrupt},
		{"a version that is no number", in("meta", "version", "banana"), job.ErrCorrupt},
		{"a later layout", in("meta", "version", "2"), job.ErrTooNew},
		{"a later record of a job", in("jobs", "\x00\x00\x00\x00\x00\x00\x00\x05", `{"v":99,"id":5}`), job.ErrTooNew},
		{"a later record of a message", in("in", "\x00\x00\x00\x00\x00\x00\x00\x05", `{"v":3}`), job.ErrTooNew},
		{"a damaged record", in("jobs", "\x00\x00\x00\x00\x00\x00\x00\x05", `{"id":5}`), job.ErrCorrupt},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filled(t)
			c.spoil(t, path)
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			l, err := boltledger.Open(path, boltledger.Options{})
			if err == nil {
				l.Close()
				t.Fatal("it was opened")
			}
			if !errors.Is(err, c.want) || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "another file") {
				t.Errorf("error = %v, want %v, the path, and what to do", err, c.want)
			}
			after, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(before, after) {
				t.Error("the file was changed")
			}
		})
	}
}

// Ensure a second opener is told at once, and neither hangs nor harms.
func TestOneAtATime(t *testing.T) {
	path := filled(t)
	l := openFile(t, path)
	_, err := boltledger.Open(path, boltledger.Options{Wait: 50 * time.Millisecond})
	if !errors.Is(err, boltledger.ErrInUse) || !strings.Contains(err.Error(), "another strikeoff") {
		t.Errorf("error = %v, want ErrInUse", err)
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	openFile(t, path).Close()
}

// Ensure a path that cannot be a file is told.
func TestNoFile(t *testing.T) {
	for _, path := range []string{t.TempDir(), filepath.Join(t.TempDir(), "missing", "ledger.db")} {
		if _, err := boltledger.Open(path, boltledger.Options{}); err == nil || errors.Is(err, job.ErrCorrupt) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// Ensure what waits when the ledger is closed is either kept or told, and that a closed ledger says that it is down.
func TestClose(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ledger.db")
	l := openFile(t, path)
	kept := make([]bool, 200)
	var wg sync.WaitGroup
	for i := range kept {
		wg.Go(func() {
			_, err := l.Keep(context.Background(), ledgertest.Inbound(fmt.Sprint(i)))
			kept[i] = err == nil
			if err != nil && !errors.Is(err, job.ErrDown) {
				t.Error(err)
			}
		})
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	wg.Wait()
	if _, err := l.Keep(t.Context(), ledgertest.Inbound("late")); !errors.Is(err, job.ErrDown) {
		t.Errorf("keeping in a closed ledger: %v", err)
	}
	if _, err := l.Load(t.Context(), 1); !errors.Is(err, job.ErrDown) {
		t.Errorf("loading from a closed ledger: %v", err)
	}
	l = openFile(t, path)
	defer l.Close()
	ins, err := l.Take(t.Context(), time.Unix(1<<33, 0), time.Minute, 1000)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for _, in := range ins {
		there[in.Key] = true
	}
	for i, k := range kept {
		if k && !there[fmt.Sprint(i)] {
			t.Errorf("message %d was acknowledged and is not there", i)
		}
	}
}

// Ensure keys of what is done are forgotten after 14 days and not before.
func TestForgetting(t *testing.T) {
	l := openFile(t, filepath.Join(t.TempDir(), "ledger.db"))
	defer l.Close()
	ctx, noon := t.Context(), time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	fresh := func(key string, at time.Time) bool {
		t.Helper()
		in := ledgertest.Inbound(key)
		in.Kept = at
		f, err := l.Keep(ctx, in)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	done := func(key string) {
		t.Helper()
		if err := l.Save(ctx, job.Change{Done: key}); err != nil {
			t.Fatal(err)
		}
	}
	fresh("old", noon)
	fresh("waiting", noon)
	done("old")
	later := noon.Add(14*24*time.Hour - time.Second)
	fresh("b", later)
	done("b")
	if fresh("old", later) {
		t.Error("a key was forgotten before its time")
	}
	later = later.Add(time.Minute)
	fresh("c", later)
	done("c")
	if !fresh("old", later) {
		t.Error("a key was remembered for ever")
	}
	if fresh("waiting", later) {
		t.Error("what is not done was forgotten")
	}
}
