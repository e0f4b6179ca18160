package intake

// thingWords are what people have, live in, drive and look at, and nothing that is printed: a sentence that tells of one of them tells nothing of
// the goods.
var thingWords = internAll("van", "vans", "truck", "trucks", "car", "cars", "trailer", "door", "doors", "window", "windows", "entrance", "building", "house", "houses", "office", "warehouse", "garage",
	"dock", "bay", "ceiling", "roof", "stairs", "lift", "elevator", "gate", "driveway", "bench", "table", "tables", "desk", "bins", "bin", "phone", "wifi", "park", "parking", "heating",
	"landlord", "moon", "weather", "pallets", "boxes", "trolley", "ladder", "reception", "corner", "street", "town", "village", "battery", "lease", "season", "quiz")

// chatWords make sentences of what is said: without one a stretch is a list or a note, where any word may be a fact.
var chatWords = internAll("is", "are", "s", "its", "it's", "im", "i'm", "am", "has", "have", "been", "will", "drive", "drives", "theres", "there's", "painted", "went", "use", "can", "miss", "left", "told", "keeps", "always", "wins", "be", "leave", "take", "takes", "was")

// personWords are those whom someone speaks of as his own, and who need not wear the goods.
var personWords = internAll("husband", "wife", "sister", "brother", "mother", "father", "mum", "mom", "dad", "son", "daughter", "cousin", "nephew", "niece", "uncle", "aunt", "neighbour", "neighbor",
	"boyfriend", "girlfriend", "partner", "friend", "treasurer", "landlord", "secretary", "assistant", "colleague")

// meetWords lead to a place where people were or met.
var meetWords = internAll("met", "saw", "heard", "writing", "typing", "calling")

// talkedOf follow words for a quality that is not of the print: "bright idea", "durable friendship", "vintage truck".
var talkedOf = internAll("idea", "ideas", "friendship", "airline", "drinks", "drink", "hour", "hearted", "spot", "side", "future", "memory")

// chatter lets go of facts in a sentence that tells of people, places and things and not of the goods.
func (r *reader) chatter(s sentence) {
	if s.f0 == s.f1 {
		return
	}
	for f := s.f0; f < s.f1; f++ {
		x := &r.facts[f]
		n, p := r.at(int(x.i1)), r.at(int(x.i0)-1)
		switch {
		case x.kind == fWish && (thingWords[n.word] || talkedOf[n.word] || r.punct(int(x.i1), '-') && talkedOf[r.at(int(x.i1)+1).word]):
			x.dead = true
		case x.kind == fColour && n.kind <= iPhrase && titles[r.at(int(x.i0)-1).word], x.kind == fColour && n.kind <= iPhrase && r.punct(int(x.i0)-1, '.') && titles[r.at(int(x.i0)-2).word]: // "Mr. Brown"
			x.dead = true
		case x.kind == fPlace && p.word == wordMy && wordMy != 0 && x.i1-x.i0 == 1 && (r.clauseEnds(int(x.i1)) || n.word == wIs):
			x.dead = true
		case x.kind == fPlace && n.word == wOf && (r.at(int(x.i1)+1).word == wThe || r.at(int(x.i1)+1).word == wordMy || r.at(int(x.i1)+1).word == wordOur) && thingWords[r.at(int(x.i1)+2).word]: // "the hood of my car"
			x.dead = true
		case x.kind == fPlace && thingWords[n.word]: // "front window"
			x.dead = true
		}
	}
	var thing, chat, person, met, subject bool
	for i := s.i0; i < s.i1; i++ {
		it := r.at(i)
		if r.ofGoods(it) {
			return
		}
		subject = subject || r.hasWord(i, thingWords) && i < s.i0+3 && r.hasWord(i+1, chatWords)
		thing = thing || r.hasWord(i, thingWords)
		chat = chat || r.hasWord(i, chatWords)
		person = person || personWords[it.word] && (r.at(i-1).word == wordMy || r.at(i-1).word == wordOur) && i < s.i0+4
		met = met || r.hasWord(i, meetWords) && i < s.i0+5
	}
	for f := s.f0; f < s.f1; f++ { // "a blue door"
		if x := &r.facts[f]; x.kind == fColour && chat && thingWords[r.at(int(x.i1)).word] {
			x.dead = true
		}
	}
	if r.richIn(s) {
		return
	}
	self := r.ofSelf(s)
	for f := s.f0; f < s.f1; f++ {
		switch x := &r.facts[f]; x.kind {
		case fPlace, fColour, fDim:
			x.dead = x.dead || (thing && chat || self) && !(x.i0 == int32(s.i0) && x.kind == fPlace)
		case fWish:
			if r.at(int(x.i0)-1).word == wordSo { // "the kitchen is hot, so breathable"
				continue
			}
			x.dead = x.dead || (self || thing && chat) && x.s != "low-cost" && x.s != "rush" || subject || thing && chat && r.at(int(x.i1)).word == wordTo || x.s == "stretch" && r.at(int(x.i0)-1).word == wA
		case fUse:
			x.dead = x.dead || person || met || subject || r.asleep(int(x.i1)) || thing && chat && x.s == "event" || self && r.wordAt(s.i0+1) != "run"
		case fNumber:
			x.dead = x.dead || thing && chat && (x.sure < 2 || r.at(int(x.i1)-1).word == wordPeople || r.at(int(x.i1)).word == wordPeople)
		}
	}
}

var whereWords = internAll("at")

// ofSelf reports whether a sentence begins with what its writer is or does: "I'm feeling a bit blue today".
func (r *reader) ofSelf(s sentence) bool {
	i := s.i0 + 1
	switch r.wordAt(s.i0) {
	case "im", "i'm":
	case "i":
		switch r.wordAt(i) {
		case "drive", "live", "spilled", "hate", "pass":
			return true
		case "am":
			i++
		default:
			if !r.punct(i, '\'') || r.wordAt(i+1) != "m" {
				return false
			}
			i += 2
		}
	default:
		return false
	}
	switch r.wordAt(i) {
	case "feeling", "at", "from", "writing", "typing", "calling", "away", "back", "in", "on", "usually", "always":
		return true
	}
	return r.at(i).ntok > 1 && r.hasWord(i, whereWords) // "at the gym" is one item
}

// richIn reports whether a sentence says too much of a print to be chatter: a place with its ink or size, or three things at once.
func (r *reader) richIn(s sentence) bool {
	n, places, inks := 0, 0, 0
	for f := s.f0; f < s.f1; f++ {
		if x := &r.facts[f]; !x.dead {
			switch x.kind {
			case fPlace:
				places++
				if r.at(int(x.i1)).word == wIs && r.at(int(x.i0)-1).word != wordMy { // "the front is a red truck"
					return true
				}
			case fColour, fDim, fInks:
				inks++
			case fWish:
			default:
				continue
			}
			n++
		}
	}
	return n > 2 || places > 0 && inks > 0
}

// ofGoods reports whether an item speaks of goods, of printing or of a want.
func (r *reader) ofGoods(it *item) bool {
	if it.kind > iPhrase || it.ntok == 1 && mildWords[it.word] {
		return false
	}
	if it.sense(sGarment) != nil || it.sense(sMethod) != nil || it.sense(sEffect) != nil || it.sense(sFabric) != nil || it.sense(sFibre) != nil {
		return true
	}
	if it.is(cGarmentWord) || it.is(cPrintWord) || it.is(cInkWord) || it.is(cColourWord) || it.is(cWant) || it.is(cOrderVerb) || it.is(cPcs) && it.kind == iPhrase && it.ntok == 1 || it.is(cOnes) || it.is(cFull) || it.is(cBlank) {
		return true
	}
	return goodsTalk[it.word] && it.word != 0
}

// mildWords are cues of an order elsewhere, and say nothing of one alone.
var mildWords = internAll("has", "have", "please", "people")

// goodsTalk speaks of goods without naming them, or of what is to stand on them.
var goodsTalk = internAll("them", "these", "those", "they", "logo", "logos", "name", "names", "text", "words", "design", "artwork", "art", "picture", "photo", "drawing", "number", "numbers",
	"says", "reads", "for", "wear", "wears", "worn", "wearing", "colour", "color", "stuff", "gear", "kit", "order", "version", "line", "size", "sizes", "across")

var wordPeople = vocab.intern("people")

// stateWords say how somebody is just now, not what is worn.
var stateWords = internAll("asleep", "awake", "sick", "ill", "crying", "poorly", "unwell")

// asleep reports whether item i goes on from people to how they are: "the baby is finally asleep".
func (r *reader) asleep(i int) bool {
	for k := i; k < i+4 && r.at(k).kind <= iPhrase; k++ {
		if stateWords[r.at(k).word] {
			return r.at(k).word != 0
		}
	}
	return false
}

// hasWord reports whether item i has a word of a set in it.
func (r *reader) hasWord(i int, set map[int32]bool) bool {
	it := r.at(i)
	if it.kind > iPhrase {
		return false
	}
	for k := it.tok; k < it.tok+it.ntok; k++ {
		if w := r.toks[k].word; w != 0 && set[w] {
			return true
		}
	}
	return false
}
