package boltledger

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"strconv"

	"go.etcd.io/bbolt"

	"strikeoff/bot/job"
	"strikeoff/bot/ledger/record"
)

// The buckets, and what stands in each: key -> value. An id is 8 bytes big-endian, a time is ms since 1970 in 8 bytes that sort, a place
// and a slot are 16 bytes of a hash.
var (
	bMeta    = []byte("meta")      // "version" -> version of the layout; its sequence is the last job number
	bJobs    = []byte("jobs")      // id -> job record
	bJobMeta = []byte("job-meta")  // id -> jobMeta
	bStates  = []byte("states")    // state, 0, id -> nothing
	bHistory = []byte("history")   // id, seq -> entry record
	bThreads = []byte("threads")   // place -> id of the newest job there
	bOpened  = []byte("opened-by") // message key -> id of the job it opened
	bDue     = []byte("due")       // time, id -> nothing
	bSeen    = []byte("seen")      // message key -> seen
	bIn      = []byte("in")        // seq -> inbound record; its sequence counts messages
	bInReady = []byte("in-ready")  // seq -> message key: may be taken
	bInWait  = []byte("in-wait")   // time, seq -> message key: leased or put back until then
	bInLanes = []byte("in-lanes")  // lane, seq -> message key: not done and not set aside
	bOut     = []byte("out")       // item key -> outbound record; its sequence counts items
	bOutMeta = []byte("out-meta")  // item key -> outMeta, also of items that went out
	bQueues  = []byte("queues")    // place, time, seq -> item key
	bPlaces  = []byte("places")    // place -> placeMeta, where something waits
	bReady   = []byte("ready")     // time, place -> nothing: when to look at the place
	bSlots   = []byte("slots")     // slot -> slotMeta
	bAside   = []byte("aside")     // "in " or "out ", key -> record of what was set aside
	bForget  = []byte("forget")    // time, "in " or "out ", key -> nothing: when a key may be forgotten
	bCursors = []byte("cursors")   // door, 0, room -> the last message handed in
	kVersion = []byte("version")

	buckets = [][]byte{bMeta, bJobs, bJobMeta, bStates, bHistory, bThreads, bOpened, bDue, bSeen, bIn, bInReady, bInWait, bInLanes, bOut, bOutMeta,
		bQueues, bPlaces, bReady, bSlots, bAside, bForget, bCursors}
)

// layout is the version of the buckets above.
const layout = 1

// isRecords reports whether a bucket's values are records with a version.
func isRecords(name []byte) bool {
	for _, b := range [][]byte{bJobs, bHistory, bIn, bOut, bAside} {
		if bytes.Equal(b, name) {
			return true
		}
	}
	return false
}

// prepare makes what a new file lacks.
func prepare(tx *bbolt.Tx) error {
	for _, b := range buckets {
		if _, err := tx.CreateBucketIfNotExists(b); err != nil {
			return err
		}
	}
	meta := tx.Bucket(bMeta)
	if meta.Get(kVersion) != nil {
		return nil
	}
	return meta.Put(kVersion, []byte(strconv.Itoa(layout)))
}

func checkVersion(b []byte) error {
	v, err := strconv.Atoi(string(b))
	switch {
	case err != nil || v < 1:
		return fmt.Errorf("its version %.20q is no number from 1 up", b)
	case v > layout:
		return fmt.Errorf("%w: its layout has version %d, and this program reads up to %d", job.ErrTooNew, v, layout)
	}
	return nil
}

// jobMeta is what must be known of a stored job to replace it.
type jobMeta struct {
	Rev   int    `json:"rev"`
	State string `json:"state"`
	Next  int64  `json:"next"` // ms; 0 for never
}

// seen is a message that was kept.
type seen struct {
	Seq   uint64 `json:"seq"`
	Lane  []byte `json:"lane"`
	Kept  int64  `json:"kept"` // ms
	Free  int64  `json:"free"` // ms: leased or waiting until then; 0 where it may be taken
	Tries int    `json:"tries"`
	Done  bool   `json:"done,omitempty"`
	Aside bool   `json:"aside,omitempty"`
}

// outMeta is an outbound item that was saved.
type outMeta struct {
	Seq   uint64 `json:"seq"`
	At    int64  `json:"at"` // ms
	Place []byte `json:"place"`
	Slot  []byte `json:"slot,omitempty"`
	Tries int    `json:"tries"`
	Gone  bool   `json:"gone,omitempty"` // sent, dropped or set aside
	Sent  bool   `json:"sent,omitempty"`
}

// placeMeta is a place where something waits.
type placeMeta struct {
	Ready  int64  `json:"ready"`            // ms: when to look at it
	Holder string `json:"holder,omitempty"` // the item that is leased, or that waits for another attempt: none may pass it
	Leased bool   `json:"leased,omitempty"`
}

// slotMeta is a slot: the post that stands there, and the newest item for it.
type slotMeta struct {
	Ref    string `json:"ref"`
	Newest string `json:"newest"`
}

func be(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// msKey is a time in ms such that earlier times sort first, those before 1970 too.
func msKey(ms int64) []byte { return be(uint64(ms) ^ 1<<63) }

func msOf(b []byte) int64 { return int64(binary.BigEndian.Uint64(b) ^ 1<<63) }

func idKey(id job.ID) []byte { return be(uint64(id)) }

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

func stateKey(s string, id job.ID) []byte { return join([]byte(s), []byte{0}, idKey(id)) }

// short is 16 bytes that stand for a longer key.
func short(s string) []byte {
	h := sha256.Sum256([]byte(s))
	return h[:16]
}

func placeID(p job.Place) []byte { return short(record.PlaceKey(p)) }

func laneID(in job.Inbound) []byte { return short(record.LaneKey(in)) }

func slotID(o job.Outbound) []byte {
	if k := record.SlotKey(o); k != "" {
		return short(k)
	}
	return nil
}

// get reads a small record of the ledger's own; it reports false where there is none.
func get[T any](b *bbolt.Bucket, key []byte) (T, bool, error) {
	var v T
	raw := b.Get(key)
	if raw == nil {
		return v, false, nil
	}
	if err := json.Unmarshal(raw, &v); err != nil {
		return v, false, fmt.Errorf("%w: %w", job.ErrCorrupt, err)
	}
	return v, true, nil
}

// put writes a small record of the ledger's own.
func put(b *bbolt.Bucket, key []byte, v any) error {
	raw, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return b.Put(key, raw)
}
