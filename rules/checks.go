package rules

import (
	"maps"
	"slices"
	"strings"

	"strikeoff/rules/source"
)

// stepOrder is the working order of the test print's steps: what can be read at the press first, what must wait last.
var stepOrder = []string{"first-piece", "placement", "registration", "cure", "opacity", "finish", "hand", "stretch", "press-marks", "adhesion", "scratch", "rub",
	"migration", "wash"}

var firstPieceCheck = Check{Code: "first-piece", Title: "First piece",
	How: "Print one piece and look at it in good light beside the art.", Pass: "Colours, size and cover are as ordered."}

func placementCheck(b *bench) Check {
	how := "Measure the print from collar, seam and centre line on two sizes."
	if b.inkN > 1 || b.print.FullColour {
		return Check{Code: "registration", Title: "Registration and placement", How: how + " Look at the joins of the colours with a loupe.",
			Pass: "Within 5 mm (0.2 in) of the place; no gap or overlap of colours over 0.5 mm (0.02 in)."}
	}
	return Check{Code: "placement", Title: "Placement", How: how, Pass: "Within 5 mm (0.2 in) of the place that was agreed."}
}

// cureCheck asks for the heat; which heat is filled in once every print of the order is known.
var cureCheck = Check{Code: "cure", Title: "Cure", How: "Lay a temperature strip or probe on the print as it goes through.",
	Pass: "The heat was reached through the film; no cracking, no tack, nothing comes off on a white cloth."}

var opacityCheck = Check{Code: "opacity", Title: "Cover", How: "Look at the print in daylight beside the same ink on white paper.",
	Pass: "The garment's colour does not show through; change in colour grade 4 or better (" + source.GreyChange + ").", Scale: ForChange, Least: "4"}

var effectCheck = Check{Code: "finish", Title: "Special finish", How: "Bend, rub and pull the finish after it is cold.",
	Pass: "Height, shine and cover as the sample; nothing flakes, peels or cracks."}

var handCheck = Check{Code: "hand", Title: "Hand", How: "Feel the print cold, drape the cloth over a fist.", Pass: "As soft as was agreed; the cloth still drapes, no boardy patch."}

var stretchCheck = Check{Code: "stretch", Title: "Stretch", How: "Stretch the print by half its width ten times, both ways.", Pass: "No cracks, no cloth showing through, and it comes back."}

var pressMarkCheck = Check{Code: "press-marks", Title: "Press marks", How: "Look across the cloth in slanting light after an hour, then after steaming.",
	Pass: "No box, shine or scorch that stays after steaming.", WaitHours: 1}

var adhesionCheck = Check{Code: "adhesion", Title: "Adhesion", How: "When cold, press on strong tape and peel it off sharply; pick at an edge with a nail.",
	Pass: "Nothing lifts and no ink on the tape.", WaitHours: 24}

var scratchCheck = Check{Code: "scratch", Title: "Scratch", How: "Scratch the print with a fingernail ten times, dry and then damp.", Pass: "No ink comes off and no cloth shows.", WaitHours: 24}

var rubCheck = Check{Code: "rub", Title: "Rub (crock)", How: "Rub with a white cloth ten times to and fro, dry and then wet; a laboratory does it by " + source.Rub + ". Readings that are recorded count as the dry ones.",
	Pass: "Staining grade 4 or better dry and 3 or better wet (" + source.GreyStain + ").", WaitHours: 24, Scale: ForStaining, Least: "4"}

func migrationCheck(s *Shop) Check {
	h := s.holdHours()
	return Check{Code: "migration", Title: "Dye migration hold",
		How:  "Leave the print folded on itself for " + num(h) + " hours (24 to 72), somewhere warm. Quicker: four hours at 50 to 60 °C (122 to 140 °F) under a weight shows the bad ones sooner, but a clean result there is no proof.",
		Pass: "The ink has not taken on the garment's colour: staining grade 4-5 or better (" + source.GreyStain + ").", WaitHours: h, Scale: ForStaining, Least: "4-5"}
}

// washCheck asks for the washes; which are filled in once every print of the order is known.
var washCheck = Check{Code: "wash", Title: "Wash test", How: "Wait 24 hours, then wash inside out.",
	Pass:      "No cracking, peeling or bleeding; change in colour grade 4 or better (" + source.GreyChange + "), staining grade 4 or better (" + source.GreyStain + ").",
	WaitHours: 48, Scale: ForChange, Least: "4"}

// washing is how a print is washed for its test: times, heat and programme.
func (b *bench) washing() string {
	t, program := b.shop.washTempC(), "4N"
	switch {
	case b.cloth.known && b.cloth.Wool > 0.15:
		t, program = min(t, 30), "3G"
	case b.use(Medical) || b.use(Food) || b.use(Uniform):
		t, program = max(t, 60), "6N"
	case t <= 30:
		program = "3N"
	case t >= 60:
		program = "6N"
	}
	return itoa(b.shop.washes()) + " times at " + degrees(t, t) + " (" + source.HomeWash + " programme " + program + ")"
}

// each notes what a step asks of one cloth.
func (s *sheet) each(code, how, cloth string) {
	if s.byCloth == nil {
		s.byCloth = map[string]map[string][]string{}
	}
	if s.byCloth[code] == nil {
		s.byCloth[code] = map[string][]string{}
	}
	if !slices.Contains(s.byCloth[code][how], cloth) {
		s.byCloth[code][how] = append(s.byCloth[code][how], cloth)
	}
}

// spell writes out what a step asks of every cloth: once where it is the same for all.
func (s *sheet) spell(code string) string {
	hows := slices.Sorted(maps.Keys(s.byCloth[code]))
	if len(hows) == 1 {
		return hows[0]
	}
	for i, how := range hows {
		cloths := s.byCloth[code][how]
		slices.Sort(cloths)
		hows[i] = and(cloths) + ": " + how
	}
	return strings.Join(hows, "; ")
}

// checklist is the steps in working order.
func (s *sheet) checklist() List[Check] {
	var out List[Check]
	for _, code := range stepOrder {
		if c, ok := s.checks[code]; ok {
			if code == "placement" {
				if _, both := s.checks["registration"]; both {
					continue // registration reads the placement too
				}
			}
			switch how := s.spell(code); {
			case how == "":
			case code == "cure":
				c.How += " Aim at " + how + "."
			case code == "wash":
				c.How += " " + upper(how) + "; tumble low or line dry. A laboratory does it by " + source.Laundering + ", test 2A."
			}
			out = append(out, c)
		}
	}
	return out
}
