package record

import (
	"encoding/json"
	"fmt"
	"time"

	"strikeoff/bot/job"
	"strikeoff/rules"
)

// inboundRecord is a message as it is kept. How often handling was begun is the ledger's to count, not the record's.
type inboundRecord struct {
	V      int          `json:"v"`
	Key    string       `json:"key"`
	Sort   string       `json:"sort"`
	Of     string       `json:"of,omitempty"`
	Place  placeRecord  `json:"place"`
	Anchor string       `json:"anchor,omitempty"`
	ByID   string       `json:"by"`
	ByName string       `json:"name,omitempty"`
	Groups []string     `json:"groups,omitempty"`
	Bot    bool         `json:"bot,omitempty"`
	Text   string       `json:"text"`
	Order  *rules.Order `json:"order,omitempty"`
	Files  []fileRecord `json:"files,omitempty"`
	Called bool         `json:"called,omitempty"`
	Reply  string       `json:"reply,omitempty"`
	Said   time.Time    `json:"said"`
	Kept   time.Time    `json:"kept"`
}

type fileRecord struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Type  string `json:"type"`
	Bytes int64  `json:"bytes"`
}

// Inbound writes a message down, without its Tries.
func Inbound(in job.Inbound) ([]byte, error) {
	r := inboundRecord{V: Version, Key: in.Key, Sort: string(in.Sort), Of: in.Of, Place: placeRecord(in.Place), Anchor: in.Anchor, ByID: in.By.ID,
		ByName: in.By.Name, Groups: in.By.Groups, Bot: in.By.Bot, Text: in.Text, Order: in.Order, Called: in.Called, Reply: in.Reply, Said: in.Said, Kept: in.Kept}
	for _, f := range in.Files {
		r.Files = append(r.Files, fileRecord(f))
	}
	return encode("message "+in.Key, r)
}

// ReadInbound reads a message that was written down, with the tries that the ledger counted.
func ReadInbound(b []byte, tries int) (job.Inbound, error) {
	var r inboundRecord
	if err := decode("a message", b, &r); err != nil {
		return job.Inbound{}, err
	}
	in := job.Inbound{Key: r.Key, Sort: job.Sort(r.Sort), Of: r.Of, Place: job.Place(r.Place), Anchor: r.Anchor, Text: r.Text, Called: r.Called,
		By: job.Person{ID: r.ByID, Name: r.ByName, Groups: r.Groups, Bot: r.Bot}, Order: r.Order, Reply: r.Reply, Said: r.Said, Kept: r.Kept, Tries: tries}
	for _, f := range r.Files {
		in.Files = append(in.Files, job.File(f))
	}
	return in, nil
}

// LaneKey is what must be handled in order, as one string: the thread that a message stands in. A message without an anchor, such as a
// command given outside any thread, is a lane of its own.
func LaneKey(in job.Inbound) string {
	if in.Anchor == "" {
		return fmt.Sprintf("message %q", in.Key)
	}
	return PlaceKey(job.Place{Door: in.Place.Door, Room: in.Place.Room, Thread: in.Anchor})
}

// outboundRecord is something that must go out, as it is kept. Attempts and the slot's post are the ledger's to count, not the record's.
type outboundRecord struct {
	V       int             `json:"v"`
	Key     string          `json:"key"`
	Job     int64           `json:"job,omitempty"`
	Place   placeRecord     `json:"place"`
	To      string          `json:"to,omitempty"`
	Reply   string          `json:"reply,omitempty"`
	Slot    string          `json:"slot,omitempty"`
	Payload json.RawMessage `json:"payload,omitempty"`
	At      time.Time       `json:"at"`
}

// Outbound writes an outbound item down, without its Tries and Ref.
func Outbound(o job.Outbound) ([]byte, error) {
	return encode("the post "+o.Key, outboundRecord{V: Version, Key: o.Key, Job: int64(o.Job), Place: placeRecord(o.Place), To: o.To, Reply: o.Reply,
		Slot: o.Slot, Payload: o.Payload, At: o.At})
}

// ReadOutbound reads an outbound item that was written down, with the attempts and the slot's post that the ledger remembers.
func ReadOutbound(b []byte, tries int, ref string) (job.Outbound, error) {
	var r outboundRecord
	if err := decode("a post", b, &r); err != nil {
		return job.Outbound{}, err
	}
	return job.Outbound{Key: r.Key, Job: job.ID(r.Job), Place: job.Place(r.Place), To: r.To, Reply: r.Reply, Slot: r.Slot, Payload: r.Payload,
		At: r.At, Tries: tries, Ref: ref}, nil
}

// PlaceKey is a place as one string, different for every place.
func PlaceKey(p job.Place) string { return fmt.Sprintf("%q %q %q", p.Door, p.Room, p.Thread) }

// SlotKey is a slot of a place as one string; "" where there is no slot. A slot belongs to its place: the same name elsewhere is another post.
func SlotKey(o job.Outbound) string {
	if o.Slot == "" {
		return ""
	}
	return PlaceKey(o.Place) + " " + o.Slot
}

// asideRecord is an outbound item that was set aside, with why it could not be sent.
type asideRecord struct {
	V    int             `json:"v"`
	Why  string          `json:"why"`
	Item json.RawMessage `json:"item"` // the outbound's own record
}

// Aside writes down an outbound record that was set aside.
func Aside(outbound []byte, why string) ([]byte, error) {
	return encode("a post that was set aside", asideRecord{V: Version, Why: why, Item: outbound})
}
