package main

import (
	"fmt"
	"strings"

	"strikeoff/bot"
)

// roomOf reads DOOR:ROOM.
func roomOf(text string) (bot.Place, error) {
	door, room, ok := strings.Cut(text, ":")
	if !ok || door == "" || room == "" {
		return bot.Place{}, fmt.Errorf("%q is no room: write DOOR:ROOM, as slack:C0123456789 or discord:4411", text)
	}
	return bot.Place{Door: door, Room: room}, nil
}

// roomsOf is the rooms of one door among several DOOR:ROOM.
func roomsOf(door string, all []string) (rooms []string) {
	for _, text := range all {
		if r, ok := strings.CutPrefix(text, door+":"); ok {
			rooms = append(rooms, r)
		}
	}
	return rooms
}
