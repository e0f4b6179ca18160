package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"strikeoff/bot"
)

// Ensure a file is kept once with the message that it came with, also after a restart.
func TestArtworkIsKeptOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "art")
	in := bot.Inbound{Key: "paper:1", Place: bot.Place{Door: "paper", Room: "orders"}}
	file := bot.File{ID: "F1", Name: "crest.png"}
	for range 2 { // the second round is a restart
		a, err := openArtwork(dir, 1<<20)
		if err != nil {
			t.Fatal(err)
		}
		for range 2 { // the second round is a redelivery
			if err := a.KeepFile(t.Context(), in, file, strings.NewReader("not really a picture")); err != nil {
				t.Fatal(err)
			}
		}
	}
	book, err := os.ReadFile(dir + ".jsonl")
	if err != nil || strings.Count(string(book), "\n") != 1 || !strings.Contains(string(book), `"name":"crest.png"`) {
		t.Errorf("the book holds %q, %v; want one line for the file", book, err)
	}
}

// Ensure a file that the shelf has no room for is an error, and not in the book.
func TestArtworkShelfIsFull(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "art")
	a, err := openArtwork(dir, 10)
	if err != nil {
		t.Fatal(err)
	}
	if err := a.KeepFile(t.Context(), bot.Inbound{Key: "k"}, bot.File{ID: "F"}, strings.NewReader("more than ten bytes")); err == nil {
		t.Error("a file larger than the shelf was kept")
	}
	if _, err := os.Stat(dir + ".jsonl"); err == nil {
		t.Error("the book has a line for a file that was not kept")
	}
}
