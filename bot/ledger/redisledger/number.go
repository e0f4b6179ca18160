package redisledger

import (
	"context"
	"strconv"

	"strikeoff/bot/job"
)

// mostAhead is how many numbers are fetched beyond those that are asked for, at most.
const mostAhead = 256

// numberAsked is a caller that waits for a number.
type numberAsked struct {
	ctx    context.Context
	answer chan numberGiven // has room for the answer: nobody need listen
}

type numberGiven struct {
	id  job.ID
	err error
}

// Number is a number for a new job. Where many ask at once some are fetched ahead, so that not everybody waits for Redis' disk; those that are
// left when the ledger is closed are handed back. A number whose reply was lost is not given again.
func (l *Ledger) Number(ctx context.Context) (job.ID, error) {
	if id := l.unused.Get(); id != 0 {
		return id, nil
	}
	a := &numberAsked{ctx: ctx, answer: make(chan numberGiven, 1)}
	select {
	case l.asked <- a:
	case <-l.t.quit:
		return 0, down(errClosed)
	case <-ctx.Done():
		return 0, down(ctx.Err())
	}
	select {
	case g := <-a.answer:
		return g.id, down(g.err)
	case <-ctx.Done():
		return 0, down(ctx.Err())
	}
}

// giveNumbers answers those that ask, all that wait at once.
func (l *Ledger) giveNumbers() {
	ahead := 0
	for {
		select {
		case a := <-l.asked:
			all := l.waiting([]*numberAsked{a})
			// One alone is a quiet shop, which shall have no gaps. Where several wait there will be more.
			if ahead = min(2*ahead+4*len(all), mostAhead); len(all) == 1 {
				ahead = 0
			}
			l.give(all, ahead)
		case <-l.t.quit:
			for _, a := range l.waiting(nil) {
				a.answer <- numberGiven{err: errClosed}
			}
			return
		}
	}
}

// waiting adds those that wait already and have not given up.
func (l *Ledger) waiting(all []*numberAsked) []*numberAsked {
	for {
		select {
		case a := <-l.asked:
			all = append(all, a)
		default:
			return all
		}
	}
}

// give fetches numbers for those that ask, and some ahead.
func (l *Ledger) give(all []*numberAsked, ahead int) {
	for len(all) > 0 { // some may have come back since they asked
		id := l.unused.Get()
		if id == 0 {
			break
		}
		all[0].answer <- numberGiven{id: id}
		all = all[1:]
	}
	if len(all) == 0 {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), numberWait)
	defer cancel()
	last, err := l.run(ctx, numberScript, []string{l.k.number()}, len(all)+ahead).Int64()
	if err != nil {
		for _, a := range all {
			a.answer <- numberGiven{err: err}
		}
		return
	}
	id := job.ID(last) - job.ID(len(all)+ahead) + 1
	for _, a := range all {
		if a.ctx.Err() != nil {
			l.unused.Put(id) // it has given up meanwhile
		} else {
			a.answer <- numberGiven{id: id}
		}
		id++
	}
	for ; ahead > 0; ahead-- {
		l.unused.Put(id)
		id++
	}
}

// handBack gives Redis the numbers that are left, as far as nobody was given later ones.
func (l *Ledger) handBack() {
	ids := l.unused.All()
	run := 0
	for run < len(ids) && ids[len(ids)-1-run] == ids[len(ids)-1]-job.ID(run) {
		run++
	}
	if run == 0 {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), numberWait)
	defer cancel()
	// Where this fails there is a gap, and no harm.
	_ = numberScript.Run(ctx, l.c, []string{l.k.number()}, -run, strconv.FormatInt(int64(ids[len(ids)-1]), 10)).Err()
}
