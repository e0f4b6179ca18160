package bot

import "strikeoff/bot/job"

// role is what a person may do here.
func (d *Desk) role(door string, p Person) job.Role {
	if d.Roster[door].Has(p) {
		return job.Lead
	}
	return job.Rep
}

// actor is a person as an event records them.
func (d *Desk) actor(in Inbound) job.Actor {
	name := plain(in.By.Name)
	if name == "" {
		name = in.By.ID
	}
	return job.Actor{ID: in.By.ID, Name: name, Role: d.role(in.Place.Door, in.By)}
}

// production is the room that alerts on a job go to, and whether there is one.
func (d *Desk) production(door string) (Place, bool) {
	if p, ok := d.Production[door]; ok {
		return p, p.Room != ""
	}
	p, ok := d.Production[""]
	return p, ok && p.Room != ""
}
