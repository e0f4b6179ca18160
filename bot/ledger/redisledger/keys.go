package redisledger

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"strconv"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// keys spells every key of one shop; none is spelt anywhere else. All share one hash tag, so that a shop's scripts hold on a cluster. A key
// with an empty last part is a stem: scripts are given it and add that part, which keeps them in the slot.
type keys struct{ shop string }

// shopName is what a shop may be called in its keys. A brace would break the hash tag.
var shopName = regexp.MustCompile(`^[A-Za-z0-9._-]{1,64}$`)

func keysOf(shop string) (keys, error) {
	if !shopName.MatchString(shop) {
		return keys{}, fmt.Errorf("the shop's name in Redis is %q: it must be 1 to 64 letters, digits, dots, dashes or underscores", shop)
	}
	return keys{shop}, nil
}

func (k keys) key(name string) string { return "so:{" + k.shop + "}:" + name }

// Versions and numbers.
func (k keys) version() string { return k.key("version") } // hash: layout, record -> version
func (k keys) number() string  { return k.key("number") }  // string: the last job number
func (k keys) probe() string   { return k.key("probe") }   // string: written to see that writing works; expires

// Jobs. They never expire.
func (k keys) job(id job.ID) string     { return k.jobStem() + strconv.FormatInt(int64(id), 10) }     // hash: r record, v revision, s state, n next, t token, p and o the entries that set plan and order
func (k keys) jobStem() string          { return k.key("job:") }                                      //
func (k keys) history(id job.ID) string { return k.historyStem() + strconv.FormatInt(int64(id), 10) } // list: entry records, oldest first
func (k keys) historyStem() string      { return k.key("history:") }                                  //
func (k keys) state(s job.State) string { return k.stateStem() + string(s) }                          // sorted set: numbers of the jobs in a state
func (k keys) stateStem() string        { return k.key("state:") }                                    //
func (k keys) threads() string          { return k.key("threads") }                                   // sorted set: places, scored by the number of the newest job there
func (k keys) opened() string           { return k.key("opened") }                                    // hash: message key -> number of the job it opened
func (k keys) due() string              { return k.key("due") }                                       // sorted set: padded number, scored by ms

// The inbox. A message's hash expires 14 days after it was done.
func (k keys) message(key string) string { return k.messageStem() + key } // hash: r record, q order, k kept ms, n tries, a lane, s state, t token
func (k keys) messageStem() string       { return k.key("msg:") }         //
func (k keys) inSeq() string             { return k.key("in-seq") }       // string: counts messages
func (k keys) inReady() string           { return k.key("in-ready") }     // sorted set: message keys that may be taken, by order
func (k keys) inWait() string            { return k.key("in-wait") }      // sorted set: message keys that are leased or wait, by ms

func (k keys) lane(a string) string { return k.laneStem() + a } // sorted set: message keys of one thread, not done and not aside, by order
func (k keys) laneStem() string     { return k.key("lane:") }

// The outbox. An item's hash expires 14 days after it went out.
func (k keys) post(key string) string { return k.postStem() + key } // hash: r record, m member, a at ms, p place, l slot, n tries, s state
func (k keys) postStem() string       { return k.key("post:") }     //
func (k keys) outSeq() string         { return k.key("out-seq") }   // string: counts items
func (k keys) queue(p string) string  { return k.queueStem() + p }  // sorted set: members of one place, by ms, then in order
func (k keys) queueStem() string      { return k.key("queue:") }    //
func (k keys) place(p string) string  { return k.placeStem() + p }  // hash: h the member that holds the place, l 1 while it is leased
func (k keys) placeStem() string      { return k.key("place:") }    //
func (k keys) outReady() string       { return k.key("out-ready") } // sorted set: places where something waits, by ms
func (k keys) slot(s string) string   { return k.slotStem() + s }   // hash: ref the post that stands there, new the newest item
func (k keys) slotStem() string       { return k.key("slot:") }     //

func (k keys) aside() string   { return k.key("aside") }   // hash: "in KEY" -> nothing, "out KEY" -> why, and the record on a line of its own
func (k keys) cursors() string { return k.key("cursors") } // hash: door and room -> the last message handed in

// short stands for a longer string in a key: 16 bytes of its SHA-256, in hex.
func short(s string) string {
	h := sha256.Sum256([]byte(s))
	return hex.EncodeToString(h[:16])
}

func placeID(p job.Place) string { return short(record.PlaceKey(p)) }

// laneID is "" for a message that is a lane of its own.
func laneID(in job.Inbound) string {
	if in.Anchor == "" {
		return ""
	}
	return short(record.LaneKey(in))
}

// slotID is "" where there is no slot.
func slotID(o job.Outbound) string {
	if k := record.SlotKey(o); k != "" {
		return short(k)
	}
	return ""
}

// dueMember is a job's number such that equal times sort by number.
func dueMember(id job.ID) string { return fmt.Sprintf("%019d", id) }
