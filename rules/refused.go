package rules

// sayRefused answers a method that was asked for and cannot be.
func (b *bench) sayRefused() {
	why := "none of the screen inks works on this print."
	if b.refused != Screen {
		c := b.choice(b.refused)
		for _, r := range c.Why {
			why = r.Text // the last word is the one that settled it; the first veto is looked for below
		}
		why = b.vetoText(c, why)
		if d, ok := b.dropped[b.refused]; ok && c.Verdict != No {
			why = d.why
			if b.byPerson {
				why += " Pick it again to try it once more."
			}
		}
	}
	text := "Asked for " + b.refused.Plain() + ": no. " + why
	if b.byPerson {
		text = "Picked by a person: " + b.refused.Plain() + ": not as things stand. " + why
	}
	if b.pick != "" && !b.held {
		text += " The nearest that works is " + b.pick.Plain() + "."
	}
	b.caution("asked-refused", Care, text)
}

// vetoText is the reason that took a method out: the first that does.
func (b *bench) vetoText(c *Choice, last string) string {
	for _, r := range c.Why {
		if r.Veto {
			return r.Text
		}
	}
	return last
}

// sayDifference tells what would score higher than the method that was asked for.
func (b *bench) sayDifference() {
	c, top := b.choice(b.pick), b.choices[0]
	if top.Method == b.pick || top.Score-c.Score < 6 {
		return
	}
	text := "Asked for " + b.pick.Plain() + ", and it works. " + upper(top.Method.Plain()) + " would suit better"
	// What tells the two apart is what speaks most against the one that was asked for.
	worst := Reason{}
	for _, r := range c.Why {
		if r.Points < worst.Points && r.Rule != usualChoice.id {
			worst = r
		}
	}
	if worst.Text != "" {
		text += ". With what was asked: " + lowerFirst(worst.Text)
	} else {
		text += "."
	}
	b.caution("asked-difference", Info, text)
}
