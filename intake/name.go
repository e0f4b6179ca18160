package intake

// Words that tell names from other words, as words/names.tsv lists them.
var (
	orgs      = nameWordSets["org"]      // end the name of a shop, club, school or firm
	titles    = nameWordSets["title"]    // come before a person's name
	streets   = nameWordSets["street"]   // end an address
	pronouns  = nameWordSets["small"]    // never begin or fill a name written in small letters
	nameWords = nameWordSets["start"]    // the small words that a name written with capitals may begin with: "Little Acorn Goods"
	joints    = nameWordSets["joint"]    // may stand in small letters inside a name written with capitals: "Sons of Harvest"
	links     = nameWordSets["link"]     // may do so after its first word alone: "Farm to Fork"
	subjects  = nameWordSets["subject"]  // begin a clause, so that a name ends before them
	articles  = nameWordSets["article"]  // may stand between a cue and a name
	selves    = nameWordSets["self"]     // one person says who they are: "soy", "ich bin"
	ourselves = nameWordSets["we"]       // an organisation does: "somos", "wir sind"
	owners    = nameWordSets["own"]      // what one does with a firm of one's own: "I run …"
	reps      = nameWordSets["rep"]      // what a rep does with a customer: "signed up …"
	roles     = nameWordSets["role"]     // people by what they do, which is no name: "the drama teacher"
	shortened = nameWordSets["short"]    // take a point inside a name: "No. 9"
	numbered  = nameWordSets["numbered"] // may have a number behind them inside a name: "Troop 88"
	headings  = nameWordSets["heading"]  // head a field of a form or mail that names no customer
	depicted  = nameWordSets["depicted"] // what stands before names that a print shows: "sponsors"
	payers    = nameWordSets["payer"]    // head a field that names who orders
	leadsTo   = nameWordSets["for"]      // "for", in the tongues of those who write
	given     = nameWordSets["given"]    // first names
	froms     = nameWordSets["from"]     // lead from a person to an organisation: "Sabine vom Café Morgenrot"
	causes    = nameWordSets["cause"]    // may end a name after "for": "Meals for Seniors"
	deeds     = nameWordSets["does"]     // what customers do, beside wanting
	fillers   = nameWordSets["filler"]   // what is said in dictation and not written
	farewells = nameWordSets["close"]    // begin the words that close a letter
)

var nameWordSets = func() map[string]map[int32]bool {
	sets := map[string]map[int32]bool{}
	for class, words := range rows("names") {
		if sets[class] == nil { // a class may take several rows
			sets[class] = make(map[int32]bool, len(words))
		}
		for _, w := range words {
			sets[class][vocab.intern(foldWord(w))] = true
		}
	}
	return sets
}()

// candidate is a stretch of items that may name the customer.
type candidate struct {
	i, j  int
	score int
	label bool // a heading such as "customer:" stands before it
}

// findCustomer finds whom the order is for and returns the items of the name; score 0 or less means nobody is named. Every stretch that is
// written as a name is weighed by what stands before it, by what comes after, and by its own shape; the first of the heaviest wins.
func (r *reader) findCustomer() candidate {
	if c := r.headedName(); c.j > 0 {
		return c
	}
	var best, spare candidate
	for i := 0; i < len(r.items); {
		j := r.nameRun(i)
		if j == i {
			if c := r.smallName(i); c.score > best.score {
				best = c
			}
			i++
			continue
		}
		if c := r.scoreName(i, j); c.score > best.score {
			best = c
		} else if c.score == 0 && c.j-c.i >= 2 && spare.j == 0 {
			spare = c
		}
		i = j
	}
	if best.score <= 0 && spare.j > 0 { // nothing better: a name of several words that stands by itself
		spare.score = 1
		return spare
	}
	return best
}

// headedName is the name in a field that is headed "customer:", up to a mark that ends it; none is found where the heading is not there or the
// customer is still to be named. A field headed "name:" may hold a person, so that one headed "customer:" or "company:" goes before it.
func (r *reader) headedName() candidate {
	var loose candidate
	for i := range r.items {
		if !r.items[i].is(cClient) || !r.lineStart(i) || !r.fieldMark(i+1) {
			continue
		}
		j := r.fieldEnd(i + 2)
		if j == i+2 {
			continue
		}
		switch foldWord(r.text[r.items[i+2].start:r.items[i+2].end]) {
		case "tbc", "tbd", "tba", "unknown", "na", "none":
			continue
		}
		c := candidate{i + 2, j, 30, true}
		if r.items[i].is(cPrintWord) { // "name" is a word for prints too
			if loose.j == 0 {
				loose = c
			}
			continue
		}
		return c
	}
	return loose
}

// fieldMark reports whether item k parts the heading of a field from what the field holds.
func (r *reader) fieldMark(k int) bool {
	return r.punct(k, ':') || (r.punct(k, '/') || r.punct(k, '|') || r.punct(k, '=')) && r.at(k+1).upper
}

// fieldEnd is the item after the name that begins at item k.
func (r *reader) fieldEnd(k int) int {
	for j := k; j < len(r.items); j++ {
		it := &r.items[j]
		if it.kind >= iBreak || j > k && r.gap(j) {
			return j
		}
		if it.kind != iPunct {
			continue
		}
		switch it.ch {
		case ',', ';', '(', '|', '/':
			return j
		case '.':
			if !(r.at(j+1).glued && r.at(j+1).kind <= iPhrase) && !r.shortForm(j) {
				return j
			}
		case '-':
			if !it.glued {
				return j
			}
		}
	}
	return len(r.items)
}

// gap reports whether item k stands in another column than the item before it.
func (r *reader) gap(k int) bool {
	if k <= 0 || k >= len(r.items) {
		return false
	}
	from, to := r.items[k-1].end, r.items[k].start
	if to-from < 2 {
		return to > from && r.text[from] == '\t'
	}
	return r.items[k-1].kind != iPunct
}
