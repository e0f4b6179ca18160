package redisledger

import (
	"strings"
	"testing"

	"strikeoff/bot/job"
)

// Ensure no key changes its spelling: what is kept under the old one would be lost from sight. The exact strings are the contract.
func TestKeysAreSpeltAsEver(t *testing.T) {
	k, err := keysOf("press.one")
	if err != nil {
		t.Fatal(err)
	}
	place := job.Place{Door: "slack", Room: "C1", Thread: "17.5"}
	// The two hashes are what sha256sum says of the quoted parts.
	rows := []struct{ got, want string }{
		{k.version(), "so:{press.one}:version"},
		{k.number(), "so:{press.one}:number"},
		{k.probe(), "so:{press.one}:probe"},
		{k.job(12), "so:{press.one}:job:12"},
		{k.history(12), "so:{press.one}:history:12"},
		{k.state(job.TestDue), "so:{press.one}:state:test-due"},
		{k.threads(), "so:{press.one}:threads"},
		{k.opened(), "so:{press.one}:opened"},
		{k.due(), "so:{press.one}:due"},
		{k.message("slack:C1:17.5"), "so:{press.one}:msg:slack:C1:17.5"},
		{k.inSeq(), "so:{press.one}:in-seq"},
		{k.inReady(), "so:{press.one}:in-ready"},
		{k.inWait(), "so:{press.one}:in-wait"},
		{k.lane("f"), "so:{press.one}:lane:f"},
		{k.post("12:card"), "so:{press.one}:post:12:card"},
		{k.outSeq(), "so:{press.one}:out-seq"},
		{k.queue("f"), "so:{press.one}:queue:f"},
		{k.place("f"), "so:{press.one}:place:f"},
		{k.outReady(), "so:{press.one}:out-ready"},
		{k.slot("f"), "so:{press.one}:slot:f"},
		{k.aside(), "so:{press.one}:aside"},
		{k.cursors(), "so:{press.one}:cursors"},
		{placeID(place), "6a662099f757d5aff20d6039e891d673"},
		{slotID(job.Outbound{Place: place, Slot: "card:12"}), "6af4eca263a2279d1229438a7063e00e"},
		{slotID(job.Outbound{Place: place}), ""},
		{dueMember(12), "0000000000000000012"},
		{cursorField("slack", "C1"), `"slack" "C1"`},
	}
	for _, r := range rows {
		if r.got != r.want {
			t.Errorf("%q, want %q", r.got, r.want)
		}
	}
}

// Ensure a shop's name cannot break the hash tag.
func TestShopNames(t *testing.T) {
	for _, bad := range []string{"", "a}b", "{", "a b", "a:b", strings.Repeat("x", 65)} {
		if _, err := keysOf(bad); err == nil {
			t.Errorf("the name %q was taken", bad)
		}
	}
}
