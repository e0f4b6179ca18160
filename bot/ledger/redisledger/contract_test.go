package redisledger_test

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"

	"github.com/alicebob/miniredis/v2"
	"github.com/redis/go-redis/v9"

	"strikeoff/bot"
	"strikeoff/bot/ledger/ledgertest"
	"strikeoff/bot/ledger/redisledger"
)

// client is a client of one server, with the hook that fails on scripts over several slots.
func client(t *testing.T, addr string) redis.UniversalClient {
	t.Helper()
	o, err := redisledger.Options("redis://" + addr)
	if err != nil {
		t.Fatal(err)
	}
	c := redis.NewUniversalClient(o)
	c.AddHook(oneSlot{t})
	return c
}

func open(t *testing.T, addr, shop string) *redisledger.Ledger {
	t.Helper()
	l, err := redisledger.Open(context.Background(), client(t, addr), shop)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// opener gives each test a shop of its own on one server.
func opener(addr string) ledgertest.Open {
	var shops atomic.Int64
	return func(t *testing.T) (bot.Ledger, func() bot.Ledger) {
		shop := fmt.Sprintf("shop-%d", shops.Add(1))
		var last *redisledger.Ledger
		reopen := func() bot.Ledger {
			if last != nil {
				last.Close()
			}
			last = open(t, addr, shop)
			return last
		}
		t.Cleanup(func() { last.Close() })
		return reopen(), reopen
	}
}

// Ensure the ledger on Redis keeps the contract of every ledger, on the embedded stand-in.
func TestContractOnMiniredis(t *testing.T) {
	ledgertest.Run(t, opener(miniredis.RunT(t).Addr()))
}

// Ensure the ledger on Redis keeps the contract of every ledger, on a real server.
func TestContractOnRedis(t *testing.T) {
	ledgertest.Run(t, opener(ledgertest.StartRedis(t).Addr))
}
