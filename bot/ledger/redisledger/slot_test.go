package redisledger_test

import (
	"context"
	"net"
	"strings"
	"testing"

	"github.com/redis/go-redis/v9"
)

// oneSlot is a hook that fails the test where a command names keys of more than one cluster slot. Neither the stand-in nor a single server
// would mind.
type oneSlot struct{ t testing.TB }

func (h oneSlot) DialHook(next redis.DialHook) redis.DialHook {
	return func(ctx context.Context, network, addr string) (net.Conn, error) { return next(ctx, network, addr) }
}

func (h oneSlot) ProcessHook(next redis.ProcessHook) redis.ProcessHook {
	return func(ctx context.Context, cmd redis.Cmder) error {
		h.check(cmd)
		return next(ctx, cmd)
	}
}

func (h oneSlot) ProcessPipelineHook(next redis.ProcessPipelineHook) redis.ProcessPipelineHook {
	return func(ctx context.Context, cmds []redis.Cmder) error {
		for _, cmd := range cmds {
			h.check(cmd)
		}
		return next(ctx, cmds)
	}
}

func (h oneSlot) check(cmd redis.Cmder) {
	if slots := slotsOf(cmd.Args()); len(slots) > 1 {
		h.t.Errorf("%v names keys of %d slots", cmd.Args()[0], len(slots))
	}
}

// slotsOf is the slots of a script's keys.
func slotsOf(args []any) map[uint16]bool {
	slots := map[uint16]bool{}
	if name, _ := args[0].(string); !strings.HasPrefix(strings.ToLower(name), "eval") {
		return slots
	}
	n, _ := args[2].(int)
	for _, k := range args[3 : 3+n] {
		slots[slot(k.(string))] = true
	}
	return slots
}

// slot is a key's slot by the Redis cluster specification: CRC16 (XMODEM) of the hash tag, or of the whole key where it has none, modulo 16384.
func slot(key string) uint16 {
	if i := strings.IndexByte(key, '{'); i >= 0 {
		if j := strings.IndexByte(key[i+1:], '}'); j > 0 {
			key = key[i+1 : i+1+j]
		}
	}
	return crc16(key) % 16384
}

func crc16(s string) uint16 {
	var crc uint16
	for i := range len(s) {
		crc ^= uint16(s[i]) << 8
		for range 8 {
			if crc&0x8000 != 0 {
				crc = crc<<1 ^ 0x1021
			} else {
				crc <<= 1
			}
		}
	}
	return crc
}

// Ensure the hook's arithmetic is the specification's, and that it sees a breach. 12739 is the specification's own check value; the slot of
// so:{3}:job:1 is what CLUSTER KEYSLOT of a Redis 7.0 server says.
func TestSlotHook(t *testing.T) {
	if got := crc16("123456789"); got != 12739 {
		t.Errorf("crc16 of the check string = %d, want 12739", got)
	}
	if got := slot("so:{3}:job:1"); got != 1584 {
		t.Errorf("slot = %d, want 1584", got)
	}
	if got := slotsOf([]any{"evalsha", "x", 2, "so:{a}:1", "so:{b}:1"}); len(got) != 2 {
		t.Errorf("a script over two slots was seen as %d", len(got))
	}
}
