package discord

import (
	"context"
	"hash/fnv"
	"sync"
)

// lanes carry what the gateway told to the desk, off the reading loop: what is said in one channel stays in order, and a slow ledger does
// not make the heartbeat late.
type lanes struct {
	talk  [4]chan func(context.Context)
	press chan func(context.Context)
	files chan func(context.Context)
}

const (
	laneDepth  = 4096
	pressHands = 8 // interactions handled at once
	fileHands  = 2
)

func newLanes() *lanes {
	l := &lanes{press: make(chan func(context.Context), 256), files: make(chan func(context.Context), 1024)}
	for i := range l.talk {
		l.talk[i] = make(chan func(context.Context), laneDepth)
	}
	return l
}

// say queues something about a channel. It never blocks; false is a full lane.
func (l *lanes) say(channel string, do func(context.Context)) bool {
	h := fnv.New32a()
	h.Write([]byte(channel))
	select {
	case l.talk[h.Sum32()%uint32(len(l.talk))] <- do:
		return true
	default:
		return false
	}
}

// act queues an interaction. It never blocks; false is a full lane.
func (l *lanes) act(do func(context.Context)) bool {
	select {
	case l.press <- do:
		return true
	default:
		return false
	}
}

// carry queues the fetching of files. It never blocks; false is a full lane.
func (l *lanes) carry(do func(context.Context)) bool {
	select {
	case l.files <- do:
		return true
	default:
		return false
	}
}

// run works until ctx ends. What is queued then was never acknowledged and never counted as read: it comes back from the history.
func (l *lanes) run(ctx context.Context) {
	var hands sync.WaitGroup
	work := func(c <-chan func(context.Context)) {
		for {
			select {
			case <-ctx.Done():
				return
			case do := <-c:
				do(ctx)
			}
		}
	}
	for _, c := range l.talk {
		hands.Go(func() { work(c) })
	}
	for range fileHands {
		hands.Go(func() { work(l.files) })
	}
	for range pressHands {
		hands.Go(func() { work(l.press) })
	}
	hands.Wait()
}
