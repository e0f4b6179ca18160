package slack

import (
	"strconv"
	"strings"
	"time"
)

// Keys are made of what catching up can rebuild from history too: team, channel, ts. One message comes as "message" and as
// "app_mention" with different event ids, and one delivery comes again; all have the same key.

func messageKey(team, channel, ts string) string { return "slack:" + team + ":" + channel + ":" + ts }

func editKey(team, channel, ts, edited string) string {
	return messageKey(team, channel, ts) + ":e:" + edited
}

func deleteKey(team, channel, ts string) string { return messageKey(team, channel, ts) + ":d" }

// askKey is of one use of the shortcut: somebody may ask again after the first answer was taken back.
func askKey(team, channel, ts, action string) string {
	return messageKey(team, channel, ts) + ":o:" + action
}

func pressKey(team, user, where, id, at string) string {
	return "slack:" + team + ":press:" + user + ":" + where + ":" + id + ":" + at
}

// formKey is of one sending of a form: the view's hash changes with its content.
func formKey(team, view, hash string) string { return "slack:" + team + ":form:" + view + ":" + hash }

func slashKey(team, trigger string) string { return "slack:" + team + ":slash:" + trigger }

func homeKey(team, user, at string) string { return "slack:" + team + ":home:" + user + ":" + at }

// stamp is the time in a ts ("1531420618.000100": seconds, then what makes it unique), zero where it is none.
func stamp(ts string) time.Time {
	s, frac, _ := strings.Cut(ts, ".")
	sec, err := strconv.ParseInt(s, 10, 64)
	if err != nil || sec <= 0 {
		return time.Time{}
	}
	for len(frac) < 6 {
		frac += "0"
	}
	us, err := strconv.ParseInt(frac[:6], 10, 64)
	if err != nil {
		us = 0
	}
	return time.Unix(sec, us*1000).UTC()
}

// tsOf is the ts that a message said at that time would have.
func tsOf(t time.Time) string {
	us := strconv.Itoa(t.Nanosecond() / 1000)
	return strconv.FormatInt(t.Unix(), 10) + "." + strings.Repeat("0", 6-len(us)) + us
}

// later reports whether ts a is after b; "" is before all.
func later(a, b string) bool {
	if a == "" || b == "" {
		return a != ""
	}
	as, af, _ := strings.Cut(a, ".")
	bs, bf, _ := strings.Cut(b, ".")
	if len(as) != len(bs) {
		return len(as) > len(bs)
	}
	if as != bs {
		return as > bs
	}
	return af > bf
}
