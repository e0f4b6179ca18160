// Package boltledger keeps jobs, their history, what came in and what must go out in one file: for a shop with one machine, and for trying
// the program. It is the only importer of bbolt.
//
// Every method is one transaction, on disk before it returns. Writers that wait at the same time share one transaction and one flush to
// disk, so that many together are much faster than one after the other. One process at a time may have the file open.
package boltledger

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"

	"strikeoff/bot"
	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// ErrInUse is a ledger file that another process has open.
var ErrInUse = errors.New("the ledger file is in use")

// Options are how a ledger is opened. The zero value is right outside tests.
type Options struct {
	// NoSyncForTests leaves out the flush to disk: faster, and a crash of the machine may lose everything. For tests only.
	NoSyncForTests bool
	// Wait is how long to wait for another process to let go of the file; 0 means one second.
	Wait time.Duration
}

// Ledger is a ledger in one file. It is safe for concurrent use. Make one with Open.
type Ledger struct {
	db     *bbolt.DB
	path   string
	noSync bool
	ops    chan *op
	quit   chan struct{}
	ended  chan struct{}
	once   sync.Once
	unused record.Unused
	latest atomic.Int64 // the latest time that a caller handed in, in ms: what old keys are forgotten by
}

var _ bot.Ledger = (*Ledger)(nil)

// Open opens the ledger in a file, and makes the file where there is none. The error is ErrInUse where another process has it open,
// job.ErrCorrupt where the file is damaged or no ledger, and job.ErrTooNew where a later version of the program wrote it; the file is then
// left as it was found.
func Open(path string, o Options) (*Ledger, error) {
	wait := o.Wait
	if wait <= 0 {
		wait = time.Second
	}
	st, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, fmt.Errorf("the ledger file %s cannot be opened: %w", path, err)
	case st.IsDir():
		return nil, fmt.Errorf("the ledger file %s is a folder: name a file in it", path)
	}
	fresh := err != nil || st.Size() == 0
	db, err := openFile(path, &bbolt.Options{Timeout: wait, NoSync: o.NoSyncForTests, FreelistType: bbolt.FreelistMapType, NoGrowSync: o.NoSyncForTests})
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, fmt.Errorf("%w: another strikeoff has %s open; stop that one, or give this one another file", ErrInUse, path)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("the ledger file %s cannot be opened: %w", path, err)
	case err != nil:
		return nil, damaged(path, err)
	}
	if !fresh {
		if err := examine(db); err != nil {
			closeQuietly(db)
			if errors.Is(err, job.ErrTooNew) {
				return nil, fmt.Errorf("%w: %s was left as it is; start the newer program, or give this one another file: %w", job.ErrTooNew, path, err)
			}
			return nil, damaged(path, err)
		}
	}
	l := &Ledger{db: db, path: path, noSync: o.NoSyncForTests, ops: make(chan *op, 1024), quit: make(chan struct{}), ended: make(chan struct{})}
	if err := db.Update(prepare); err != nil {
		closeQuietly(db)
		return nil, fmt.Errorf("the ledger file %s cannot be written: %w", path, err)
	}
	if err := db.View(func(tx *bbolt.Tx) error {
		if k, _ := tx.Bucket(bForget).Cursor().Last(); k != nil {
			l.latest.Store(msOf(k) - record.Remember.Milliseconds())
		}
		return nil
	}); err != nil {
		closeQuietly(db)
		return nil, damaged(path, err)
	}
	go l.write()
	return l, nil
}

// damaged says that a file is no ledger or a damaged one.
func damaged(path string, cause error) error {
	return fmt.Errorf("%w: %s cannot be read as a ledger and was left as it is; put back a copy, or give another file: %w", job.ErrCorrupt, path, cause)
}

// openFile opens the file. A damaged one may make bbolt panic; that becomes an error.
func openFile(path string, o *bbolt.Options) (db *bbolt.DB, err error) {
	defer func() {
		if p := recover(); p != nil {
			db, err = nil, fmt.Errorf("opening it failed: %v", p)
		}
	}()
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	return bbolt.Open(path, 0o600, o)
}

func closeQuietly(db *bbolt.DB) {
	defer func() { _ = recover() }() // a damaged file may make even closing panic; the file was not written to
	_ = db.Close()
}

// examine reads the whole file before anything is written to it: that it is a ledger, that every page can be read, and that no record was
// written by a later version.
func examine(db *bbolt.DB) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("reading it failed: %v", p)
		}
	}()
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	return db.View(func(tx *bbolt.Tx) error {
		if st, err := os.Stat(db.Path()); err != nil || st.Size() < tx.Size() {
			return fmt.Errorf("the file ends too early")
		}
		meta := tx.Bucket(bMeta)
		if meta == nil {
			return fmt.Errorf("it is no ledger of this program")
		}
		if err := checkVersion(meta.Get(kVersion)); err != nil {
			return err
		}
		return tx.ForEach(func(name []byte, b *bbolt.Bucket) error {
			return b.ForEach(func(k, v []byte) error {
				if !isRecords(name) {
					return nil
				}
				n, err := record.VersionOf(v)
				if err != nil {
					return fmt.Errorf("a record in %q cannot be read: %w", name, err)
				}
				if n > record.Version {
					return fmt.Errorf("%w: a record in %q has version %d, and this program reads up to %d", job.ErrTooNew, name, n, record.Version)
				}
				return nil
			})
		})
	})
}

// Close writes what waits and lets go of the file.
func (l *Ledger) Close() error {
	l.once.Do(func() { close(l.quit) })
	<-l.ended
	return l.db.Close()
}

// view runs a reading transaction.
func (l *Ledger) view(ctx context.Context, read func(*bbolt.Tx) error) error {
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("%w: %w", job.ErrDown, err)
	}
	return down(l.db.View(read))
}

// down turns bbolt's own errors into the ledger's.
func down(err error) error {
	if errors.Is(err, bolterrors.ErrDatabaseNotOpen) {
		return fmt.Errorf("%w: it is closed: %w", job.ErrDown, err)
	}
	return err
}

// sees remembers the latest time that a caller handed in.
func (l *Ledger) sees(now time.Time) {
	for ms := now.UnixMilli(); ; {
		old := l.latest.Load()
		if ms <= old || l.latest.CompareAndSwap(old, ms) {
			return
		}
	}
}
