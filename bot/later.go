package bot

import (
	"errors"
	"time"
)

// Permanent marks an error of a door as one that trying again will not mend: the room is gone, the platform refuses the post. The post is
// set aside, to be seen in Health.
func Permanent(err error) error {
	if err == nil {
		return nil
	}
	return permanent{err}
}

// After marks an error of a door with how long the platform asked to be left alone. The whole place waits.
func After(err error, wait time.Duration) error {
	if err == nil {
		return nil
	}
	return later{err, wait}
}

type permanent struct{ error }

func (p permanent) Unwrap() error { return p.error }

type later struct {
	error
	wait time.Duration
}

func (l later) Unwrap() error { return l.error }

// isPermanent reports whether err was marked so.
func isPermanent(err error) bool {
	_, ok := errors.AsType[permanent](err)
	return ok
}

// waitOf is how long the platform asked to be left alone; 0 where it did not ask.
func waitOf(err error) time.Duration {
	l, _ := errors.AsType[later](err)
	return l.wait
}

// IsPermanent reports whether a door's error was marked with [Permanent].
func IsPermanent(err error) bool { return isPermanent(err) }

// Wait is how long a door's error asks to be left alone, by [After]; 0 where it does not ask.
func Wait(err error) time.Duration { return waitOf(err) }
