package intake

import "strings"

// parsePurpose reads what the garments are for, and must bear, where no set phrase says it: a sport that somebody does in them, that they are sold, or that they
// are what a staff wears.
func (r *reader) parsePurpose(i int) int {
	it := r.at(i)
	switch {
	case it.is(cPupil) && r.early(i):
		r.emit(i, i+1, fact{kind: fUse, s: "children"})
	case it.is(cSport) && (r.doneIn(i+1) || r.sportIn(i)) && !r.notDone(i):
		r.emit(i, i+1, fact{kind: fUse, s: "athletic"})
	case it.is(cFoodWork) && r.doneIn(i+1): // "they bake in these all day"
		r.emit(i, i+1, fact{kind: fUse, s: "food"})
	case it.is(cSportWord) && !minds[r.wordAt(i-1)] && (r.at(i+1).sense(sGarment) != nil || (r.wordAt(i) == "practice" || r.wordAt(i) == "training") && r.purposeBefore(i)):
		r.emit(i, i+1, fact{kind: fUse, s: "athletic"})
	case it.is(cOccasion) && it.sense(sUse) == nil && r.purposeBefore(i) && r.occasionEnds(i):
		r.emit(i, i+1, fact{kind: fUse, s: "event"})
	case it.is(cShop) && r.wares(i):
		r.emit(i, i+1, fact{kind: fUse, s: "retail"})
	case it.is(cSell) && !r.soldJob(i+1) && !(r.at(i-1).word == wThe && r.wordAt(i) == "selling"): // not "the selling car"
		r.emit(i, i+1, fact{kind: fUse, s: "retail"})
	case it.is(cWorker) && (r.at(i+1).sense(sGarment) != nil && !r.punct(i+2, ':') || r.wears(i+1) || r.at(i-1).fact && r.at(i-1).node == 0 && r.clauseEnds(i+1)): // "staff polos", "Weir Brewery staff, 30 polos"
		r.emit(i, i+1, fact{kind: fUse, s: "uniform"})
	case it.is(cDamage) && r.mustNot(i) && !r.givesWay(i): // "so it can't crack or peel"
		r.emit(i, i+1, fact{kind: fWish, s: "durable"})
	case it.is(cDamaged) && r.ofOld(i): // "last year's cracked by half term"
		r.emit(i, i+1, fact{kind: fWish, s: "durable"})
	default:
		return i
	}
	return i + 1
}

// givesWay reports whether the cracking at item i is what a print does that will not stretch, so that no more is wished than that it does: "has to
// stretch, no cracking".
func (r *reader) givesWay(i int) bool {
	if it := r.at(i); !strings.Contains(r.text[it.start:it.end], "crack") {
		return false
	}
	for k := i - 1; k >= 0 && k > i-15 && r.at(k).kind < iBreak && !r.punct(k, '.'); k-- {
		if w := r.at(k).sense(sWish); w != nil && w.val == "stretch" {
			return true
		}
	}
	return false
}

// minds stand before teams that do no sport.
var minds = map[string]bool{"quiz": true, "debate": true, "robotics": true, "chess": true, "math": true, "maths": true, "trivia": true, "pub": true, "sales": true, "project": true,
	"office": true, "support": true, "management": true, "events": true, "marketing": true, "event": true, "merch": true, "front": true}

// ofOld reports whether item i is said of earlier goods in the same sentence.
func (r *reader) ofOld(i int) bool {
	for k := i - 1; k >= 0 && k > i-7; k-- {
		it := r.at(k)
		if it.kind > iNum || it.kind == iPunct && (it.ch == '.' || it.ch == '!' || it.ch == ';') {
			return false
		}
		switch w := r.wordAt(k); {
		case w == "last", w == "old", w == "previous", w == "ones", it.is(cPast) && w != "was" && w != "were":
			return true
		}
	}
	return false
}

// wears reports whether item i says that those before it wear the garments: "what the mechanics wear".
func (r *reader) wears(i int) bool {
	if w := r.wordAt(i); w == "will" || w == "all" || w == "to" || w == "who" {
		i++
	}
	w := r.wordAt(i)
	return w == "wear" || w == "wears"
}

// notAgain reports whether what befell earlier goods at item i is not to happen again.
func (r *reader) notAgain(s sentence, i int) bool {
	for ; i < s.i1; i++ {
		if r.wordAt(i) == "again" {
			return true
		}
	}
	return false
}

// mustNot reports whether what item i says is not to happen.
func (r *reader) mustNot(i int) bool {
	for k := i - 1; k >= 0 && k > i-6; k-- {
		switch w := r.wordAt(k); w {
		case "not", "no", "never", "without", "wont", "cant", "dont", "doesnt", "mustnt", "shouldnt", "cannot", "nothing", "nor":
			return true
		case "t":
			return true
		}
		if it := r.at(k); it.kind > iNum || it.kind == iPunct && it.ch != '\'' && it.ch != ',' {
			return false
		}
	}
	return false
}

// early reports whether the pupils at item i are in the first six years of school: "4th graders", "the second grade".
func (r *reader) early(i int) bool {
	n := 0
	if o := r.at(i - 1); o.glued && (o.word == wSt || o.word == wNd || o.word == wRd || o.word == wTh) && r.at(i-2).kind == iNum {
		n = int(r.at(i - 2).num)
	} else {
		n = r.ordinalWord(i - 1)
	}
	return n >= 1 && n <= 6
}

// purposeBefore reports whether "for the", "for our" or "for" and a word or two stand before item i: "for the village fete".
func (r *reader) purposeBefore(i int) bool {
	for k := i - 1; k >= 0 && k > i-5; k-- {
		it := r.at(k)
		switch {
		case r.wordAt(k) == "for":
			return k < i-1 // a determiner or another word stands between
		case it.kind > iPhrase, it.kind == iPunct, it.sense(sGarment) != nil, it.sense(sPlace) != nil, it.is(cDue) && !it.is(cOrderVerb):
			return false
		}
	}
	return false
}

// everyDayWords are occasions only with a word that says which: "the donor day", never "the day" or "every day".
var everyDayWords = map[string]bool{"day": true, "night": true, "weekend": true, "run": true, "walk": true, "ride": true, "show": true, "ball": true, "cup": true, "drive": true,
	"lunch": true, "dinner": true, "launch": true, "opening": true, "market": true, "play": true, "games": true, "game": true, "meet": true, "shower": true, "reception": true,
	"race": true, "hunt": true, "auction": true, "supper": true, "crawl": true}

// occasionEnds reports whether the occasion at item i is the last of its words, and one that is named.
func (r *reader) occasionEnds(i int) bool {
	if everyDayWords[r.wordAt(i)] && !(r.wordAt(i) == "opening" && r.at(i+1).word == wOf) {
		switch p := r.at(i - 1); r.wordAt(i - 1) {
		case "the", "our", "a", "their", "this", "that", "every", "each", "all", "same", "one", "next", "last", "per", "any", "some", "", "front", "hotel", "in", "at", "on", "of", "for", "to":
			return false
		default:
			if p.kind == iNum || p.kind == iPunct {
				return false
			}
		}
	}
	n := r.at(i + 1)
	if n.kind != iWord && n.kind != iPhrase || n.sense(sDay) != nil || n.sense(sMonth) != nil {
		return true
	}
	switch r.wordAt(i + 1) {
	case "on", "in", "at", "this", "next", "and", "so", "we", "which", "that", "is", "are", "by", "of", "with", "it", "they", "i", "please", "where", "starts", "begins", "also", "but", "needs":
		return true
	}
	return n.is(cDue) || n.is(cStill)
}

// onlyMentioned reports whether the event at item i is spoken of though the garments are not for it: "there is a pet fair on the 6th", "at the fair
// booth", "Memorial weekend".
func (r *reader) onlyMentioned(i int) bool {
	switch r.wordAt(i + 1) {
	case "booth", "stand", "desk", "office", "tent":
		return true
	case "day", "weekend", "park", "hospital", "hall":
		return r.wordAt(i) == "memorial"
	}
	for k := i - 1; k > i-6 && k >= 0 && r.at(k).kind <= iPunct; k-- {
		switch r.wordAt(k) {
		case "there", "theres", "there's", "met", "saw", "spoke", "chatted":
			return true
		}
	}
	return false
}

// pictured reports whether item i is part of what a print shows or says: "a drawing of kids playing", "the word STAFF".
func (r *reader) pictured(i int) bool {
	it := r.at(i)
	if s := r.text[it.start:it.end]; it.shout && len(s) > 3 && strings.ToUpper(s) == s && r.at(i+1).sense(sGarment) == nil && !r.lineStart(i) {
		return true
	}
	of := false
	for k := i - 1; k >= 0 && k > i-6; k-- {
		w := r.wordAt(k)
		if w == "of" {
			of = true
		}
		switch w {
		case "picture", "drawing", "photo", "image", "sketch", "painting", "illustration", "silhouette", "cartoon", "logo", "portrait", "design", "icon":
			return of
		case "word", "words", "text", "lettering":
			return true
		}
		if p := r.at(k); p.kind > iNum || p.kind == iPunct {
			return false
		}
	}
	return false
}

// wares reports whether the shop at item i is where the garments go: "they go in the museum shop", "for our webshop".
func (r *reader) wares(i int) bool {
	k := i - 1
	for n := 0; n < 3 && r.at(k).kind <= iPhrase && !r.at(k).upper && r.at(k).word != wThe && !shopOwner[r.wordAt(k)] && !r.at(k).is(cOn) && r.at(k).sense(sGarment) == nil; n++ {
		k--
	}
	if !shopOwner[r.wordAt(k)] {
		return false
	}
	switch w := r.wordAt(k - 1); w {
	case "in", "into", "for":
		if w == "for" && (r.wordAt(i) == "stall" || r.wordAt(i) == "counter") { // those who serve there wear them
			return false
		}
		return r.at(i+1).kind > iNum || r.at(i+1).kind == iPunct || w != "for"
	}
	return false
}

var shopOwner = map[string]bool{"the": true, "our": true, "their": true, "his": true, "her": true, "my": true}

// doneIn reports whether item i says that what stands before it is done in the garments, or in a league: "trains in all of it", "play in a league".
func (r *reader) doneIn(i int) bool {
	for k := 0; k < 4 && r.at(i).word != wIn && !strings.HasPrefix(r.wordAt(i), "in all") && (r.at(i).kind == iWord || r.at(i).kind == iPhrase && r.at(i).sense(sGarment) == nil && r.at(i).sense(sPlace) == nil && r.at(i).sense(sColour) == nil); k++ {
		i++ // "train hard every week in them"
	}
	if strings.HasPrefix(r.wordAt(i), "in all") {
		return true
	}
	if r.at(i).word != wIn {
		return false
	}
	what := r.at(i + 1)
	if what.is(cEach) || what.is(cAll) || what.is(cBoth) || what.sense(sGarment) != nil || what.is(cOnes) && what.kind != iNum {
		return true
	}
	switch r.wordAt(i + 1) {
	case "it", "them", "these", "those", "this", "em":
		return true
	case "a", "an", "the", "our", "their", "his", "her", "one", "my":
		for k := i + 2; k < i+5; k++ {
			if n := r.at(k); n.sense(sGarment) != nil || n.is(cVenue) {
				return true
			} else if n.kind != iWord && n.kind != iPhrase {
				return false
			}
		}
	}
	return r.punct(i+1, '\'') && r.wordAt(i+2) == "em"
}

// sportIn reports whether the sport at item i is what somebody will do in the goods that come next: "what they're running in: 40 tees".
func (r *reader) sportIn(i int) bool {
	if r.at(i+1).word != wIn || !r.clauseEnds(i+2) {
		return false
	}
	switch r.wordAt(i - 1) {
	case "to", "they", "we", "theyre", "were", "they're", "we're", "you", "re", "he", "she":
		return true
	}
	return false
}

// notDone reports whether the sport at item i is what nobody does in the garments: "we don't row in them".
func (r *reader) notDone(i int) bool {
	for k := i - 1; k > i-3 && k >= 0; k-- {
		switch r.wordAt(k) {
		case "dont", "don't", "never", "not", "wont", "won't", "doesnt", "doesn't":
			return true
		}
	}
	return false
}

// soldJob reports whether item i makes of "sold" the seller's own business: "sold a job", "we sold you".
func (r *reader) soldJob(i int) bool {
	switch r.wordAt(i) {
	case "a", "an", "you", "us", "me", "to", "off":
		return true
	case "out":
		return r.wordAt(i+1) != "of" || r.wordAt(i+2) == "stock"
	}
	return false
}

// isOnDay reports whether the day at item i is when something is on, and not when goods are needed: "the walk is on July 19", "the fair is May 8".
func (r *reader) isOnDay(i int) (noun int, ok bool) {
	k := i - 1
	if w := r.wordAt(k); w == "on" || w == "this" {
		k--
	}
	switch r.wordAt(k) {
	case "is", "are", "s", "es":
	default:
		return 0, false
	}
	k--
	if r.punct(k, '\'') {
		k--
	}
	n := r.at(k)
	if n.kind != iWord && n.kind != iPhrase || n.is(cDue) || n.is(cHand) || n.is(cShip) || n.is(cFix) || n.sense(sGarment) != nil {
		return 0, false
	}
	switch r.wordAt(k) {
	case "it", "that", "this", "date", "day", "one", "delivery", "deadline", "they", "there", "which", "when", "due":
		return 0, false
	}
	return k, true
}

// wordAt is the word of item i in small letters without accents, "" where it is none.
func (r *reader) wordAt(i int) string {
	it := r.at(i)
	if it.kind > iPhrase || it.end-it.start > 12 {
		return ""
	}
	return foldWord(r.text[it.start:it.end])
}

// speaks follow those who say, make or like something, and need not be those who wear it: "the kids thought the back should say something".
var speaks = map[string]bool{"thought": true, "think": true, "said": true, "say": true, "asked": true, "loved": true, "love": true, "drew": true, "voted": true, "chose": true,
	"picked": true, "liked": true, "like": true, "made": true, "helped": true, "wanted": true, "designed": true, "painted": true, "adored": true}
