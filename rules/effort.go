package rules

// Effort is what a method costs the shop in time.
type Effort struct {
	SetupMinutes float64 `json:"setup_minutes"` // films, screens, register, clean up; or files and trials
	SecondsEach  float64 `json:"seconds_each"`  // per piece
	Overtaken    *Cross  `json:"overtaken"`     // nil where no method overtakes this one as the run grows
}

// Cross is where, as the run grows, another method becomes the quicker one.
type Cross struct {
	By       Method `json:"by"`
	Quantity int    `json:"quantity"` // the first number of pieces at which By is the quicker
}

// usualRates are invented: a small shop with one automatic press. They set where screens overtake digital print, at some ten to forty
// pieces, as the trade finds it.
var usualRates = map[Method]Rate{
	Plastisol:    {SetupMinutes: 12, MinutesPerColour: 15, SecondsEach: 22},
	WaterBased:   {SetupMinutes: 16, MinutesPerColour: 16, SecondsEach: 26},
	Discharge:    {SetupMinutes: 30, MinutesPerColour: 16, SecondsEach: 30},
	Sublimation:  {SetupMinutes: 10, SecondsEach: 95},
	DTG:          {SetupMinutes: 6, SecondsEach: 150},
	DTF:          {SetupMinutes: 10, SecondsEach: 100},
	HeatTransfer: {SetupMinutes: 30, SecondsEach: 45},
}

// rate is the shop's figures for a method, the usual ones where it has none.
func (s *Shop) rate(m Method) Rate {
	u, own := usualRates[m], s.Rates[m]
	return Rate{usual(own.SetupMinutes, u.SetupMinutes), usual(own.MinutesPerColour, u.MinutesPerColour), usual(own.SecondsEach, u.SecondsEach)}
}

// effort is what a method costs on this print.
func (b *bench) effort(m Method) Effort {
	r := b.shop.rate(m)
	e := Effort{SetupMinutes: r.SetupMinutes, SecondsEach: r.SecondsEach}
	switch m {
	case Plastisol, WaterBased, Discharge:
		s := b.screenSetup(m)
		e.SetupMinutes += r.MinutesPerColour * float64(s.Screens)
		e.SecondsEach += 6 * float64(s.Flashes)
		if b.print.FullColour {
			e.SetupMinutes += 45 // process separations and their proof
		}
		if b.wide {
			e.SetupMinutes += 40 // an oversize screen and platen
			e.SecondsEach += 40
		}
	case DTG:
		if b.choice(m).Setup.Base == PretreatWhite {
			e.SecondsEach += 120 // pretreatment, and two layers of white
		}
	}
	return e
}

// crossings fills in for every method where the next one overtakes it.
func (b *bench) crossings() {
	for i := range b.choices {
		a := &b.choices[i]
		if a.Verdict == No || a.Effort == nil {
			continue
		}
		for j := range b.choices {
			o := &b.choices[j]
			if i == j || rank(o.Verdict) > rank(a.Verdict) || o.Effort == nil || o.Effort.SecondsEach >= a.Effort.SecondsEach {
				continue
			}
			at := int(60*(o.Effort.SetupMinutes-a.Effort.SetupMinutes)/(a.Effort.SecondsEach-o.Effort.SecondsEach)) + 1
			if at < 2 {
				continue // it is the quicker from the first piece
			}
			if a.Effort.Overtaken == nil || at < a.Effort.Overtaken.Quantity {
				a.Effort.Overtaken = &Cross{By: o.Method, Quantity: at}
			}
		}
	}
}
