package redisledger

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/redis/go-redis/v9"

	"strikeoff/bot"
)

// Health writes to Redis to see that it can, counts what waits, and says what an operator should change.
func (l *Ledger) Health(ctx context.Context, now time.Time) (bot.Health, error) {
	h := bot.Health{Kind: "redis, shop " + l.k.shop}
	got, err := l.run(ctx, countScript, []string{l.k.messageStem(), l.k.inReady(), l.k.inWait(), l.k.outReady(), l.k.queueStem(), l.k.postStem(), l.k.aside(), l.k.probe()},
		nowMS(now)).Slice()
	if err != nil {
		return h, down(err)
	}
	if len(got) == 5 {
		h.Inbox, h.InboxAge, h.Outbox, h.OutboxAge, h.SetAside = count(got[0]), age(got[1], now), count(got[2]), age(got[3], now), count(got[4])
	}
	h.Warnings = l.warnings(ctx)
	h.Durable = len(h.Warnings) == 0
	return h, nil
}

func count(v any) int {
	n, _ := v.(int64)
	return int(n)
}

// age is how long ago a time in ms was: 0 for one to come, for none, and for one before 1970, which nobody set.
func age(v any, now time.Time) time.Duration {
	s, _ := v.(string)
	ms, err := strconv.ParseInt(s, 10, 64)
	if err != nil || ms <= 0 {
		return 0
	}
	return max(0, now.Sub(time.UnixMilli(ms)))
}

// configurable is what can be asked about itself: one server.
type configurable interface {
	Info(ctx context.Context, section ...string) *redis.StringCmd
	ConfigGet(ctx context.Context, parameter string) *redis.MapStringStringCmd
}

// warnings says what keeps acknowledged changes from surviving a crash.
func (l *Ledger) warnings(ctx context.Context) []string {
	var server configurable = l.c
	if cluster, ok := l.c.(*redis.ClusterClient); ok {
		node, err := cluster.MasterForKey(ctx, l.k.version())
		if err != nil {
			return []string{fmt.Sprintf("The Redis node that holds this shop could not be asked how it keeps what it is given (%v).", err)}
		}
		server = node
	}
	var out []string
	info, err := server.Info(ctx, "persistence").Result()
	switch {
	case err != nil || !strings.Contains(info, "aof_enabled:"):
		out = append(out, "Redis does not say whether it writes to disk (INFO persistence): what is acknowledged may be lost when it stops.")
	case !strings.Contains(info, "aof_enabled:1"):
		out = append(out, "Redis does not write every change to disk: set appendonly yes, or what is acknowledged may be lost when it stops.")
	case strings.Contains(info, "aof_last_write_status:err"):
		out = append(out, "Redis could not write to its disk lately: see whether the disk is full.")
	}
	for _, want := range []struct{ key, value, or string }{
		{"appendfsync", "always", "the last second of what is acknowledged may be lost in a crash of the machine"},
		{"maxmemory-policy", "noeviction", "jobs may be thrown out when memory runs short"},
	} {
		has, err := server.ConfigGet(ctx, want.key).Result()
		switch {
		case err != nil || has[want.key] == "":
			out = append(out, fmt.Sprintf("Redis does not say what %s is: it must be %s, or %s.", want.key, want.value, want.or))
		case has[want.key] != want.value:
			out = append(out, fmt.Sprintf("Redis has %s %s: set it to %s, or %s.", want.key, has[want.key], want.value, want.or))
		}
	}
	return out
}
