package discord

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"

	"strikeoff/bot"
)

// A button's custom_id carries what the button does, so that a press needs no memory: "do:pass 12 wash" is said at once,
// "ask note:fail 12 wash" first opens a form for the note, "in note:fail 12 wash" is that form. One that would be too long is kept in the
// ledger, and the button carries a reference made from it: "ref:" and a hash.

const (
	customLimit = 100 // Discord's limit on a custom_id and on an option's value, in characters
	refRoom     = "long buttons"
	refPrefix   = "ref:"
)

// press is what a button does.
type press struct {
	Needs   string // what is asked for first; "" for nothing
	Command string
}

func (p press) id() string {
	if p.Needs == "" {
		return "do:" + p.Command
	}
	return "ask " + p.Needs + ":" + p.Command
}

// formID is the custom_id of the form that a press opens.
func (p press) formID() string { return "in " + p.Needs + ":" + p.Command }

var errNotOurs = errors.New("not a button of this door")

// parsePress reads a full id, of a button or a form.
func parsePress(id string) (press, error) {
	kind, command, ok := strings.Cut(id, ":")
	if !ok || command == "" {
		return press{}, errNotOurs
	}
	if kind == "do" {
		return press{Command: command}, nil
	}
	for _, lead := range []string{"ask ", "in "} {
		if needs, ok := strings.CutPrefix(kind, lead); ok && needs != "" {
			return press{Needs: needs, Command: command}, nil
		}
	}
	return press{}, errNotOurs
}

// short is an id that fits, and the reference that must be kept for it; "" where it fits as it is.
func short(id string) (custom, ref string) {
	if units(id) <= customLimit {
		return id, ""
	}
	sum := sha256.Sum256([]byte(id))
	ref = hex.EncodeToString(sum[:16])
	return refPrefix + ref, ref
}

// keepRefs keeps the ids that were too long, by reference. The ledger's memory for a word a room serves: it is what the copies of the
// program share, and saying the same again changes nothing.
func (c *Chat) keepRefs(ctx context.Context, refs map[string]string) error {
	for ref, id := range refs {
		if err := c.cfg.Desk.Ledger.SetCursor(ctx, Door+" "+refRoom, ref, id); err != nil {
			return fmt.Errorf("keep what a button does: %w", err)
		}
	}
	return nil
}

// pressed finds what a custom_id does.
func (c *Chat) pressed(ctx context.Context, custom string) (press, error) {
	if ref, ok := strings.CutPrefix(custom, refPrefix); ok {
		id, err := c.cfg.Desk.Ledger.Cursor(ctx, Door+" "+refRoom, ref)
		if err != nil {
			return press{}, fmt.Errorf("look up what a button does: %w", err)
		}
		custom = id
	}
	return parsePress(custom)
}

// pressOf is an action as a press.
func pressOf(a bot.Action) press { return press{Needs: a.Needs, Command: a.Command} }
