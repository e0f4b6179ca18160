package intake

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

// Restate is an order in plain words, one line of text a line and one a print. Read again, it gives the same order: so a person can copy it, change
// a word and paste it back. What the order leaves unsaid is left out. Unread stretches are not part of an order and do not come back.
func Restate(o rules.Order) string {
	var b strings.Builder
	if o.Customer != "" {
		fmt.Fprintf(&b, customerHead+"%s\n", strings.Join(strings.Fields(string(o.Customer)), " "))
	}
	for k, l := range o.Lines {
		fmt.Fprintf(&b, "%d) %s\n", k+1, restateLine(l))
		prints := slices.Clone(l.Prints) // those without a place come last: read before a place, they would take it
		slices.SortStableFunc(prints, func(a, b rules.Print) int { return cmp.Compare(unplaced(a), unplaced(b)) })
		for q, p := range prints {
			fmt.Fprintf(&b, "- %s\n", restatePrint(p, q > 0))
		}
		if len(l.Prints) == 0 && len(o.Lines) > 1 {
			b.WriteString("- " + noPrints + "\n")
		}
	}
	if len(o.Wishes) > 0 {
		b.WriteString(wishHead + joined(o.Wishes, wishWords) + "\n")
	}
	if len(o.Uses) > 0 {
		b.WriteString(useHead + joined(o.Uses, useWords) + "\n")
	}
	if t, ok := o.Due.Time(); ok {
		b.WriteString(dueHead + t.Format(time.DateOnly) + "\n")
	}
	return b.String()
}

// unplaced is 1 for a print whose place is unsaid.
func unplaced(p rules.Print) int {
	if p.Place == "" {
		return 1
	}
	return 0
}

// plural is how a number of each garment is said.
var plural = map[rules.Garment]string{"t-shirt": "t-shirts", "long-sleeve": "long sleeve t-shirts", "tank": "tank tops", "polo": "polo shirts", "jersey": "jerseys",
	"sweatshirt": "sweatshirts", "hoodie": "hoodies", "zip-hoodie": "zip hoodies", "jacket": "jackets", "vest": "vests", "shorts": "shorts", "sweatpants": "sweatpants",
	"leggings": "leggings", "dress": "dresses", "bodysuit": "bodysuits", "apron": "aprons", "tote": "tote bags", "cap": "caps", "beanie": "beanies",
	"bandana": "bandanas", "towel": "towels", "scrub-top": "scrub tops", "workshirt": "work shirts", "other": "other garments"}

// fabricWords says a class of fabric whose percents are unsaid.
var fabricWords = map[fibre.Class]string{fibre.FiftyFifty: "fifty fifty", fibre.CVC: "cvc blend", fibre.Other: "other blend"}

var wishWords = map[rules.Wish]string{rules.SoftHand: "soft hand", rules.Vintage: "vintage look", rules.LowCost: "low cost", rules.Eco: "eco-friendly"}

var useWords = map[rules.Use]string{rules.HiVis: "high visibility", rules.Food: "food service", rules.AnEvent: "event", rules.FlameResistant: "flame resistant"}

func joined[T ~string](list []T, words map[T]string) string {
	var out []string
	for _, w := range list {
		if s, ok := words[w]; ok {
			out = append(out, s)
		} else {
			out = append(out, string(w))
		}
	}
	return strings.Join(out, ", ")
}

func restateLine(l rules.Line) string {
	var parts []string
	what := plural[l.Garment]
	switch {
	case l.Quantity.Known && what != "":
		parts = append(parts, fmt.Sprint(l.Quantity.Value, " ", what))
	case l.Quantity.Known:
		parts = append(parts, fmt.Sprint(l.Quantity.Value, " pieces"))
	case what != "":
		parts = append(parts, what)
	}
	if len(l.Colours) > 0 {
		c := strings.Join(l.Colours, " / ")
		if l.Heather {
			c += " heather"
		}
		parts = append(parts, "colour "+c)
	} else if l.Heather {
		parts = append(parts, "heather")
	}
	if len(l.Fibres) > 0 {
		var fs []string
		for _, f := range fibre.All {
			if p := l.Fibres[f]; p > 0 {
				fs = append(fs, plainNumber(p)+"% "+strings.ReplaceAll(string(f), "-", " "))
			}
		}
		parts = append(parts, strings.Join(fs, " "))
	}
	if l.Fabric != "" && (len(l.Fibres) == 0 || l.Fabric != fibre.ClassOf(l.Fibres)) { // a fibre that an order has no name for makes the class another
		if w, ok := fabricWords[l.Fabric]; ok {
			parts = append(parts, w)
		} else {
			parts = append(parts, string(l.Fabric))
		}
	}
	if len(l.Sizes) > 0 {
		var run []string
		for _, s := range rules.SizeOrder {
			if n, ok := l.Sizes[s]; ok {
				run = append(run, fmt.Sprintf("%s: %d", s, n))
			}
		}
		parts = append(parts, sizesHead+strings.Join(run, ", "))
	}
	return strings.Join(parts, ", ")
}

// placeWords says a place so that it is read as one.
var placeWords = map[rules.Place]string{"nape": "nape of the neck", "inside-neck": "inside neck", "hood": "print on the hood", "pocket": "print on the pocket",
	"side": "print on the side", "hem": "bottom hem", "all-over": "all over"}

func restatePrint(p rules.Print, more bool) string {
	place := placeWords[p.Place]
	if place == "" {
		place = strings.ReplaceAll(string(p.Place), "-", " ")
	}
	if p.Place == "" {
		place = "print"
		if more || len(p.Inks) == 0 && !p.InkCount.Known && !p.WidthMM.Known && !p.HeightMM.Known && !p.FullColour && len(p.Effects) == 0 {
			place = "another print"
		}
	}
	parts := []string{place}
	switch {
	case p.WidthMM.Known && p.HeightMM.Known:
		parts = append(parts, plainNumber(p.WidthMM.Value)+" x "+plainNumber(p.HeightMM.Value)+" mm")
	case p.WidthMM.Known:
		parts = append(parts, plainNumber(p.WidthMM.Value)+" mm wide")
	case p.HeightMM.Known:
		parts = append(parts, plainNumber(p.HeightMM.Value)+" mm high")
	}
	if p.InkCount.Known {
		parts = append(parts, fmt.Sprint(p.InkCount.Value, " colour"))
	}
	if len(p.Inks) > 0 {
		parts = append(parts, "ink "+strings.Join(p.Inks, " / "))
	}
	if p.FullColour {
		parts = append(parts, "full colour")
	}
	if p.Coverage.Known {
		parts = append(parts, "coverage "+plainNumber(p.Coverage.Value)+"%")
	}
	for _, e := range p.Effects {
		parts = append(parts, strings.ReplaceAll(string(e), "-", " ")+" effect")
	}
	if p.Method != "" {
		parts = append(parts, methodWords(p.Method))
	}
	return strings.Join(parts, ", ")
}

func methodWords(m rules.Method) string {
	switch m {
	case rules.Screen:
		return "screen print"
	case rules.WaterBased:
		return "water-based ink"
	}
	return strings.ReplaceAll(string(m), "-", " ")
}
