package intake

// orgs are words that end the name of a shop, club, school or firm.
var orgs = wordSet("club|brewing|brewery|school|hotel|co|company|clinic|church|roofing|co-op|coop|cooperative|camp|association|hardware|shop|orchard|vfd|lacrosse|supply|museum|preschool|theater|theatre|collective|boutique|surveyors|rental|rescue|bookshop|primary|academy|studio|studios|cafe|bakery|bar|grill|gym|fitness|yoga|society|choir|fellowship|records|records|band|group|league|league|team|foundation|trust|library|council|university|college|high|elementary|nursery|farm|farms|market|garage|motors|auto|construction|electric|plumbing|landscaping|landscapes|kitchen|diner|pizza|pizzeria|restaurant|bistro|tavern|pub|inn|lodge|spa|salon|barbers|barbershop|dental|dentistry|vet|veterinary|hospital|medical|centre|center|festival|run|race|walk|tour|tours|guild|union|crew|project|partners|services|service|solutions|systems|labs|lab|works|workshop|outfitters|supplies|goods|traders|trading|mercantile|books|coffee|roasters|tea|quilters|gardens|garden|nurseries|rangers|scouts|troop|athletics|soccer|football|fc|rowing|cycling|swim|swimming|tennis|netball|hockey|rugby|softball|baseball|volleyball|climbing|dance|ballet|martial|judo|karate|boxing|arts|gallery|llc|inc|ltd|gmbh|fire|department|police|ems|county|city|township|parish|ministries|ministry|chapel|temple|mosque|synagogue|taqueria|panaderia|cafeteria|escuela|colegio|club|hospital|clinica|taller|tienda|ferreteria|cerveceria|restaurante|fundacion|asociacion|grupo|equipo|instituto|jardin|guarderia|carniceria|peluqueria|libreria|cooperativa|floristeria|neighbors|neighbours|friends|amis|daughters|sons|brothers|bros|sisters|kayak|surf|skate|ski|bike|bikes|cycles|marine|boat|boats|yacht|sailing|fishing|hunting|outdoors|adventure|adventures|travel|events|weddings|catering|foods|provisions|creamery|dairy|winery|vineyard|vineyards|distillery|cider|cidery|taproom|alehouse|lumber|masonry|welding|fabrication|fabrications|machine|manufacturing|industries|logistics|freight|storage|realty|properties|insurance|credit|bank|accounting|law|legal|consulting|design|media|press|print|films|film|productions|orchestra|symphony|chorus|opera|players|puppet|puppets|stationers|stationery|florist|florists|flowers|pet|pets|kennels|stables|ranch|riding|equestrian|acres|hollow|ridge|house|home|homes|hall|housing|hospice|charity|relief|shelter|bank|pantry|sanctuary|zoo|aquarium|park|parks|pool|resort|marina|pier|depot|station|mill|mills|foundry|forge|pottery|ceramics|glass|woodworks|carpentry|joinery|furniture|interiors|upholstery|tailors|cleaners|laundry|hub|makers|toys|games|comics|cinema|radio|fm|podcast|news|times|gazette|sessions|pilots|drone|crossfit|pilates|physio|chiropractic|pharmacy|optical|eyewear|daycare|childcare|kindergarten|montessori|prep|middle|secondary|pta|pto|alumni|boosters|robotics|chess|debate|rotary|lions|legion|veterans|vfw|elks|moose|grange|4h|ffa|weekend|nights|night|quiz|days|fair|fayre|rally|derby|jam|league|rugby|sevens|circle|lodge|inn|lifeguards|farmhands|otters|bears|wolves|hawks|eagles|tigers|panthers|birders|apothecary|distillers|confectioners|grocers|butchers|deli|delicatessen|chandlers|saddlery|cobblers|barn|cottage|castle|abbey|priory|minster|estate|estates|campground|campsite|hostel|guesthouse|escape|rooms|pinball|arcade|bowling|lanes|billiards|antiques|auctions|gallery|framing|tattoo|ink|convention|comedy|improv|cinema|theatricals|morris|folk|brass|strings|ensemble|quartet|bowls|joinery|carpenters|outfit|collective|co|fest|pavers|paving|tree|security|barbershop|barber|bakehouse|larder|provisioners|dairy|smokehouse|chophouse|steakhouse|noodle|ramen|sushi|taco|tacos|burger|burgers|bbq|donuts|bagels|juice|smoothies|creamery|gelato|chocolates|sweets|candy|candles|soap|soaps|skincare|beauty|nails|hair|massage|wellness|health|care|nursing|pediatrics|ortho|orthodontics|chiro|therapy|counseling|counselling|lawyers|attorneys|advisors|wealth|capital|ventures|holdings|enterprises|international|global|logix|tech|software|digital|analytics|robotics|makerspace|couriers|movers|taxis|cabs|limo|charters|airlines|aviation|flying|gliding|diving|dive|scuba|canoe|paddle|paddlers|rowers|runners|walkers|riders|cyclists|climbers|archery|fencing|darts|snooker|pool|golf|croquet|cheer|gymnastics|wrestling|lifters|powerlifting|strength|barbell")

// personal titles and words that a person's name follows.
var titles = wordSet("mr|mrs|ms|miss|dr|coach|sr|sra|don|doña|captain|chef")

// streets end an address.
var streets = wordSet("st|street|ave|avenue|rd|road|ln|lane|blvd|drive|dr|suite|ste|ct|court|unit|hwy|highway|apt")

// pronouns never begin or fill a name written in small letters.
var pronouns = wordSet("put|mark|i|we|you|they|he|she|it|us|them|me|my|our|your|their|his|her|im|ive|id|ill|were|weve|theyre|theyd|theyve|its|thats|heres|theres|this|that|these|those|there|what|which|who|when|where|why|how|is|are|was|were|be|been|am|do|does|did|can|could|will|would|should|shall|may|might|must|have|has|had|please|pls|plz|just|if|so|but|because|as|than|then|also|not|no|yes|yeah|yep|ok|okay|got|get|let|lets|hey|hi|hello|need|needs|want|wants|looking|ordering|order|quick|quote|new|another|more|some|any|all|every|each|both|same|job|thing|things|stuff|up|out|about|into|over|until|till|after|before|since|while|asap|rush|urgent|thanks|sorry|voice|memo|phone|fwd|re|fw|hold|wait|reminder|heads|fyi|update|team|folks|guys|everyone|friend|customer|client|boss|someone|anybody|anyone|somebody|one|ones|per|plus|due|next|last|first|second|third|big|small|little|large|simple|basic|usual|following|below|above|attached|coming|upcoming|annual|yearly|summer|winter|spring|fall|autumn|year|month|week|day|today|tomorrow|yesterday|morning|afternoon|evening|night|time|weekend|lot|bit|few|couple|total|number|copy|sample|test|proof|art|logo|artwork|file|files|el|la|los|las|un|una|nos|para|por|que|con|necesito|necesitamos|queremos|quiero|hola|buenas|buenos|favor|now|real|really|very|too|ahora|tambien|here|says|said")

// nameWords are among the pronouns and small words those that a name may begin with: "Little Acorn Goods".
var nameWords = wordSet("big|small|little|large|simple|summer|winter|spring|fall|autumn|morning|evening|night|day|new|second|first|third|last|friend|real|art|big|next|annual|before|after|over|under|up|down|per|one|two|three|four|five|some|our|my|good|boss|team|total|every|all")

func wordSet(list string) map[int32]bool {
	out := map[int32]bool{}
	for from := 0; from < len(list); {
		to := from
		for to < len(list) && list[to] != '|' {
			to++
		}
		out[vocab.intern(foldWord(list[from:to]))] = true
		from = to + 1
	}
	return out
}

// candidate is a stretch of items that may name the customer.
type candidate struct {
	i, j  int
	score int
	label bool // a heading such as "customer:" stands before it
}

// findCustomer finds whom the order is for and returns the items of the name; score 0 or less means nobody is named.
func (r *reader) findCustomer() candidate {
	var best, spare candidate
	if c := r.headedName(); c.j > 0 {
		return c
	}
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

// headedName is the name on a line that begins with "customer:", up to a mark that ends it; none is found where the heading is not there or the
// customer is still to be named.
func (r *reader) headedName() candidate {
	for i := range r.items {
		if !r.items[i].is(cClient) || !r.punct(i+1, ':') || !r.lineStart(i) {
			continue
		}
		j := i + 2
		for j < len(r.items) {
			it := &r.items[j]
			if it.kind >= iBreak || it.kind == iPunct && (it.ch == ',' || it.ch == ';' || it.ch == '(' || it.ch == '|' || it.ch == '/' || it.ch == '.' && !(r.at(j+1).glued && r.at(j+1).kind <= iPhrase) || it.ch == '-' && !it.glued) {
				break
			}
			j++
		}
		if j == i+2 {
			continue
		}
		switch foldWord(r.text[r.items[i+2].start:r.items[i+2].end]) {
		case "tbc", "tbd", "tba", "unknown", "na", "none":
			continue
		}
		return candidate{i + 2, j, 30, true}
	}
	return candidate{}
}

// capital reports whether item i is written as part of a name.
func (r *reader) capital(i int) bool {
	it := r.at(i)
	if it.is(cIDWord) && it.shout || it.word == wordI {
		return false
	}
	if it.kind == iPhrase && it.sense(sSize) != nil && (it.end-it.start <= 3 || it.first > 0) {
		return false
	}
	return (it.kind == iWord || it.kind == iPhrase || it.kind == iNum && it.spelled) && it.upper
}

// joint reports whether item i may stand inside a name in small letters.
func (r *reader) joint(i int) bool {
	it := r.at(i)
	if it.kind == iPunct {
		return it.ch == '&' || it.ch == '+' || it.ch == '-' && it.glued && r.at(i+1).glued || it.ch == '\'' && it.glued
	}
	if it.kind == iNum {
		return false
	}
	switch r.text[it.start:it.end] {
	case "of", "the", "and", "de", "la", "del", "y", "e", "du", "des", "les", "van", "von", "der", "for", "los", "las", "en", "el", "di", "da", "to", "in", "at", "of the", "by":
		return true
	}
	return false
}

// nameRun is the item after a run of capitalised words at item i.
func (r *reader) nameRun(i int) int {
	if !r.capital(i) || r.label(i) {
		return i
	}
	j := i + 1
	for j < len(r.items) {
		if r.punct(j, '-') && r.at(j).glued && r.at(j+1).glued && !r.capital(j+1) && j == i+1 { // "Old-looking"
			return i
		}
		if r.capital(j) && !r.label(j) {
			if r.at(j).kind == iPhrase && r.at(j).ntok > 1 && r.at(j).shout {
				return j
			}
			j++
			continue
		}
		if r.at(j).kind == iNum && (r.capital(j-1) && r.at(j).digits > 0 && r.at(j).digits <= 2 && r.capital(j+1) && !r.at(j).glued && r.goods(j) < 2) {
			j++
			continue
		}
		if r.punct(j, '.') && r.at(j).glued && r.capital(j+1) && r.at(j-1).end-r.at(j-1).start <= 2 && !r.at(j-1).is(cColourWord) {
			j++
			continue
		}
		if it := r.at(j); it.kind == iPhrase && it.first > 0 && it.sense(sUse) != nil && r.capital(j-1) { // the Dunmore 10K
			j++
			continue
		}
		k := j
		for k < j+2 && r.joint(k) {
			k++
		}
		if k > j && r.capital(k) && !r.label(k) && !r.punct(j, '-') || r.punct(j, '-') && k > j && r.capital(k) || r.punct(j, '-') && k > j && r.at(k).kind == iWord {
			if w := r.text[r.at(j).start:r.at(j).end]; (w == "for" || w == "to" || w == "in" || w == "at" || w == "by") && !(r.at(k).kind == iWord) {
				return j
			}
			if w := r.text[r.at(j).start:r.at(j).end]; w == "for" || w == "at" || w == "by" || w == "to" || w == "from" {
				return j
			}
			j = k + 1
			continue
		}
		return j
	}
	return j
}

// label reports whether item i is a heading such as "CUSTOMER:" or "FF", not a name.
func (r *reader) label(i int) bool {
	it := r.at(i)
	if it.kind == iPhrase && it.shout && (it.sense(sPlace) != nil || it.sense(sSize) != nil || it.sense(sMethod) != nil) && it.end-it.start <= 3 {
		return true
	}
	return it.kind == iPhrase && r.punct(i+1, ':') && r.lineStart(i) && (it.is(cClient) || it.is(cQty) || it.is(cDue) || it.is(cHand) || it.is(cSized) || it.is(cColourWord) || it.is(cPrintWord) || it.is(cGarmentWord) || it.is(cPS))
}

// factual reports whether item i reads as a fact or a steering word, so that it is no name by itself.
func (r *reader) factual(i int) bool {
	it := r.at(i)
	return it.kind == iPhrase && (len(vocab.nodes[it.node].senses) > 0 || it.is(cGreet) || it.is(cOrderVerb) || it.is(cPrintWord) || it.is(cNo) || it.is(cFix) || it.is(cDue) || it.is(cHand) || it.is(cSame) || it.is(cTalk) || it.is(cPast) || it.is(cClient) || it.is(cBehalf) || it.is(cFull) || it.is(cAll) || it.is(cColourWord) || it.is(cSized) || it.is(cAdd) || it.is(cSwatch) || it.is(cAsk) || it.is(cIDWord) || it.is(cBut) || it.is(cThis) || it.is(cQty) || it.is(cHeather) || it.is(cWant) || it.is(cWith) || it.is(cOn) || it.is(cFrom))
}

// scoreName weighs a run of capitalised words by what stands around it.
func (r *reader) scoreName(i, j int) candidate {
	// what reads as a fact or greeting at the front is no part of a name, save where the rest is joined to it
	for i < j && !r.nameHead(i) && (j-i > 1 || r.at(i).is(cSeller) || r.at(i).is(cGreet) || r.at(i).is(cInterj)) {
		i++
		for i < j && (r.joint(i) || r.at(i).kind == iPunct) {
			i++
		}
	}
	if e := r.growName(j, true); e > j && j > i {
		j = e
	}
	for j > i && (r.at(j-1).is(cGreet) || r.at(j-1).sense(sGarment) != nil && r.at(j-1).ntok == 1 && j-i > 2 && false || r.joint(j-1)) {
		j--
	}
	if j <= i {
		return candidate{}
	}
	if w := r.at(i - 1).word; w != 0 && (w == wordCamp || w == wordTeam || w == wordClub) && r.at(i-1).kind <= iPhrase && !r.at(i-1).upper {
		if q := r.at(i - 2).word; q != wThe && q != wA && q != wordOur && q != 0 {
			i-- // "for camp Wildroot"
		}
	}
	words, plain, org, street, cal := 0, 0, false, false, false
	for k := i; k < j; k++ {
		it := r.at(k)
		if it.kind == iPunct || r.joint(k) {
			continue
		}
		words += int(it.ntok)
		if !r.factual(k) && it.word != wThe || orgs[it.word] && it.word != 0 {
			plain++
		}
		if it.word != 0 && orgs[it.word] && (k > i || it.kind == iWord) {
			org = true
		}
		if it.word != 0 && streets[it.word] && k > i {
			street = true
		}
		if s := it.sense(sMonth); s != nil && !s.weak || it.sense(sDay) != nil {
			cal = true
		}
	}
	s, labelled := 0, false
	p := i - 1
	if w := r.at(p).word; w == wThe || w == wA || w == wordOur || w == wEl || w == wordLa || w == wordLos || w == wordLas {
		p--
	}
	if q := r.at(p); q.kind == iPhrase && q.is(cFix) && p > 0 && r.at(p-1).word == wIs { // "the customer is actually X"
		p--
	}
	if r.punct(p, '"') || r.punct(p, '*') && r.at(p).glued {
		p--
	}
	prev := r.at(p)
	atStart := prev.kind == iBreak || prev.kind == iPart
	sep := prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=' || prev.ch == '-') || prev.word == wIs
	strong := false
	switch {
	case sep && r.at(p-1).is(cClient) && !(prev.word == wIs && r.at(p-1).word == 0 && false):
		s += 12
		strong, labelled = true, true
	case prev.is(cClient) && prev.kind == iPhrase && (prev.ntok > 1 || prev.upper && r.lineStart(p)):
		s += 9
		strong = true
	case prev.is(cClient) && prev.kind == iPhrase:
		s += 5
	case prev.is(cBehalf) && (prev.ntok > 1 || prev.word != 0):
		s += 8
		strong = true
	case prev.word == wordCalled || prev.word != 0 && vocab.names[prev.word] == "named":
		s += 5
		strong = true
	case prev.word == wIs && r.at(p-1).word != 0 && vocab.names[r.at(p-1).word] == "this":
		s += 4
	case prev.word == wFor || prev.word != 0 && vocab.names[prev.word] == "para":
		s += 5
		strong = true
		if r.at(p - 1).is(cGreet) {
			s -= 6
		}
	case prev.is(cFrom) && prev.kind != iPunct && prev.word != wDe || r.punct(p, '@'):
		s += 4
		strong = true
	case prev.word != 0 && (prev.word == wOf && r.at(p-1).kind == iWord || prev.word == wDe) && !r.factual(p-1):
		s += 2
	case sep && prev.kind == iPunct && (r.at(p-1).is(cBehalf) || r.at(p-1).is(cOrderVerb)):
		s += 5
	case prev.is(cGreet) && !atStart && !(!r.punct(j, ',') && r.at(j).is(cHere)):
		s -= 10
	case prev.is(cAsk):
		s -= 7
	case atStart:
		s += 2
		if p <= 0 || r.blankStart(p) {
			s++
		}
	case prev.kind == iPunct && (prev.ch == '.' || prev.ch == '!' || prev.ch == ':' || prev.ch == '?'):
		s++
	case prev.kind == iPunct && prev.ch == ',', prev.sense(sGarment) != nil && words2(r, i, j) >= 2:
	case r.punct(p, '(') && r.punct(j, ')'):
		s++
	case prev.word == wordTo && (r.at(p-1).word != 0 && (vocab.names[r.at(p-1).word] == "job" || vocab.names[r.at(p-1).word] == "sold" || vocab.names[r.at(p-1).word] == "order")):
		s += 4
		strong = true
	case prev.kind == iPunct && prev.ch == '-' && !prev.glued && words2(r, i, j) >= 2:
	case prev.kind == iPunct:
		s--
	default:
		if r.fromAfar(p) {
			s += 5
			strong = true
		} else {
			s -= 2
		}
	}
	if prev.is(cAsk) && strong && !prev.is(cClient) && !prev.is(cBehalf) {
		s -= 7
	}
	if prev.kind == iPhrase && prev.is(cGreet) && r.at(p+1).word != wThe && p == i-1 && !strong {
		s -= 4
	}
	next := r.at(j)
	if r.punct(j, '(') { // look beyond a remark in brackets
		for k := j; k < j+12; k++ {
			if r.punct(k, ')') {
				next = r.at(k + 1)
				break
			}
		}
		s++
	}
	q := next
	if r.punct(j, ',') && (r.at(j+1).kind == iPhrase && r.at(j+1).is(cWant) || r.at(j+1).word != 0 && pronouns[r.at(j+1).word] && r.at(j+2).is(cWant)) {
		s += 3
	}
	if q.kind <= iPhrase && q.word != 0 && (vocab.names[q.word] == "order" || vocab.names[q.word] == "job" || vocab.names[q.word] == "one") {
		s += 3
	}
	switch {
	case q.is(cHere) && q.kind == iPhrase && q.word != 0 && vocab.names[q.word] == "here":
		s += 5
		if words == 1 { // more likely a person
			s -= 4
		}
	case q.word != 0 && pronouns[q.word] && r.at(j+1).is(cWant) && words >= 2:
		s += 9
	case (q.is(cFrom) || r.punct(j, '@')) && q.word != wDe && !strong: // a person of some place
		s -= 7
	case q.is(cWant) && !q.is(cPrintWord):
		s += 5
	case next.kind == iPunct && (next.ch == '-' || next.ch == ':' || next.ch == ',' || next.ch == '/' || next.ch == '|' || next.ch == ';'):
		if atStart {
			s += 3
		} else if words >= 2 {
			s++
			if next.ch == ':' {
				s++
			}
		}
	case next.kind == iBreak:
		if atStart && words >= 2 {
			s += 2
		} else if words >= 2 {
			s++
		}
	case next.kind == iPunct && next.ch == '.':
		if words >= 2 {
			s++
		}
	}
	if words >= 2 {
		s += 2
	} else {
		s--
	}
	if org && (words >= 2 || strong) {
		s += 3
	}
	if words == 1 && !strong && r.at(i).word != 0 && (orgs[r.at(i).word] || r.at(i).is(cGreet)) { // "Team: change of plan"
		s -= 4
	}
	if cal {
		s -= 10
	}
	if street && (r.at(i-1).kind == iNum || j-i <= 3 && prev.kind == iNum) {
		s -= 8
	}
	if r.at(i-1).kind == iNum && !strong && (r.lineStart(i-1) || words < 2) && !org {
		s -= 6
	}
	if plain == 0 {
		if !strong {
			return candidate{}
		}
		s -= 4
	}
	if w := r.at(i); w.word != 0 && titles[w.word] {
		s -= 6
	}
	shout := true
	for k := i; k < j; k++ {
		if it := r.at(k); it.kind <= iPhrase && !it.shout {
			shout = false
		}
	}
	if shout && !strong {
		s -= 3
	}
	// a comma clause or a line that has nothing else in it
	lone := (prev.kind == iPunct && (prev.ch == ',' || prev.ch == '.') || atStart) && (next.kind == iPunct && (next.ch == ',' || next.ch == '.') || next.kind == iBreak)
	if lone && words >= 2 && !r.signed(i) {
		s++
	}
	if words == 1 && !strong && !org && !(q.is(cWant) || q.is(cHere)) {
		s -= 2
	}
	return candidate{i, j, s - 2, labelled}
}

// words2 counts the words in items i to j.
func words2(r *reader, i, j int) int {
	n := 0
	for ; i < j; i++ {
		if r.at(i).kind != iPunct {
			n++
		}
	}
	return n
}

// nameHead reports whether item i may be the first word of a name.
func (r *reader) nameHead(i int) bool {
	it := r.at(i)
	if it.kind == iPunct || r.joint(i) && r.text[it.start:it.end] != "The" {
		return false
	}
	if it.word != 0 && pronouns[it.word] && it.word != wThe && !(nameWords[it.word] && r.capital(i+1)) {
		return false
	}
	if it.is(cNoDate) {
		return false
	}
	if it.is(cInterj) && it.kind == iPhrase {
		return false
	}
	if it.is(cSeller) || it.is(cTalk) && it.ntok > 1 {
		return false
	}
	if it.is(cClient) && !orgs[it.word] {
		return false
	}
	if it.is(cGreet) || it.is(cBehalf) && it.ntok > 1 || it.is(cSized) || it.is(cFix) && it.kind == iPhrase {
		return false
	}
	if it.is(cOrderVerb) && it.word != 0 && !orgs[it.word] && !(len(vocab.nodes[it.node].senses) > 0) {
		return false
	}
	if it.sense(sMethod) != nil || it.sense(sDay) != nil {
		return false
	}
	return true
}

// fromAfar reports whether small words lead from "for", "from" or the like to item p: "for the bicycle shop De Zilveren Trapper".
func (r *reader) fromAfar(p int) bool {
	for k := p; k > p-4 && k >= 0; k-- {
		it := r.at(k)
		if k < p && (it.is(cBehalf) || it.word == wFor || it.is(cFrom) && it.word != wDe && it.kind == iPhrase && !it.is(cWith)) {
			return true
		}
		if it.kind != iWord && !(it.kind == iPhrase && it.ntok == 1 && (it.word != 0 && orgs[it.word] || it.is(cEvent))) || it.upper {
			return false
		}
	}
	return false
}

// blankStart reports whether nothing but breaks and greetings stand before item p.
func (r *reader) blankStart(p int) bool {
	for ; p >= 0; p-- {
		if k := r.at(p).kind; k != iBreak && k != iPart && !r.at(p).is(cGreet) && k != iPunct {
			return false
		}
	}
	return true
}

// signed reports whether item i stands after the words that close a letter.
func (r *reader) signed(i int) bool {
	for k := i - 1; k >= 0 && k > i-4; k-- {
		if r.at(k).is(cGreet) {
			return true
		}
	}
	return false
}

// eventful reports whether an item names an event, which is no part of a name in small letters.
func eventful(it *item) bool {
	s := it.sense(sUse)
	return s != nil && s.val == "event"
}

// growName takes in small words of the name after item j: "marching band", "craft club".
func (r *reader) growName(j int, strong bool) int {
	k := j
	for k < j+3 {
		it := r.at(k)
		if it.kind > iPhrase || it.word == 0 || it.upper || eventful(it) || !orgs[it.word] && !(it.kind == iWord && false) || it.word == wordPrint || it.is(cOrderVerb) {
			break
		}
		k++
	}
	if k == j { // one unknown word and then a word for an organisation
		a, b := r.at(j), r.at(j+1)
		if a.kind == iWord && !a.upper && (a.word == 0 || !pronouns[a.word]) && b.kind <= iPhrase && b.word != 0 && orgs[b.word] && !b.upper && b.sense(sGarment) == nil && !eventful(b) {
			return j + 2
		}
		return j
	}
	if r.at(k).sense(sGarment) != nil || r.at(k-1).sense(sGarment) != nil {
		return j
	}
	return k
}

// smallName weighs a name written in small letters that begins at item i: at the start of a line, after "for", after "customer:".
func (r *reader) smallName(i int) candidate {
	p := i - 1
	s, needOrg := 0, false
	if r.at(p).word == wThe {
		p--
	}
	prev := r.at(p)
	sep := prev.kind == iPunct && (prev.ch == ':' || prev.ch == '=' || prev.ch == '-') || prev.word == wIs
	switch {
	case sep && r.at(p-1).is(cClient):
		s = 12
	case prev.is(cBehalf) && prev.kind == iPhrase:
		s = 7
	case prev.is(cFrom) && prev.kind == iPhrase && (prev.word == wFrom || prev.word != 0 && (vocab.names[prev.word] == "at" || vocab.names[prev.word] == "with")):
		s = 3
		needOrg = true
	case prev.word == wFor || prev.word != 0 && vocab.names[prev.word] == "para":
		s = 4
	case (prev.kind == iBreak || prev.kind == iPart) && (i == 0 || r.blankStart(p)):
		s = 3
	case prev.kind == iBreak && r.at(p-1).kind == iBreak && r.at(i).kind == iWord && !r.at(i).upper: // a paragraph
		s = 2
	case r.punct(p, '@'):
		s = 4
	default:
		return candidate{}
	}
	j, words, org := i, 0, false
	for j < len(r.items) && words < 7 {
		it := r.at(j)
		if it.upper && it.kind <= iPhrase {
			break
		}
		if it.word != 0 && it.kind <= iPhrase && orgs[it.word] && !r.at(j).is(cIDWord) {
			org = true
			words++
			j++
			continue
		}
		if it.kind == iPunct && (it.ch == '&' || it.ch == '+' || it.ch == '\'' || it.ch == '-' && it.glued && r.at(j+1).glued) && words > 0 {
			j++
			continue
		}
		if words > 0 && r.joint(j) && it.kind <= iPhrase && r.at(j+1).kind == iWord {
			j++
			continue
		}
		if it.kind != iWord && !(it.kind == iPhrase && it.ntok == 1 && (!r.factual(j) || s >= 7 && words > 0) && !it.is(cWant)) || it.word != 0 && pronouns[it.word] {
			break
		}
		if it.kind == iPhrase && it.is(cIDWord) && s < 12 {
			break
		}
		words++
		j++
	}
	for j > i && (r.joint(j-1) || r.at(j-1).kind == iPunct) {
		j--
	}
	if words == 0 || j <= i || r.capital(j) || r.at(i).word == wA || r.at(i).word == wThe {
		return candidate{}
	}
	next := r.at(j)
	if s < 7 && words < 2 || needOrg && !org {
		return candidate{}
	}
	switch {
	case next.is(cWant):
		s += 3
	case next.kind == iPunct && (next.ch == ':' || next.ch == ',' || next.ch == '-' || next.ch == '.' || next.ch == '('), next.kind == iBreak, next.kind == iPart:
		s++
	case next.is(cIDWord) || next.is(cOrderVerb):
		s++
	default:
		s -= 3
	}
	if org {
		s += 2
	} else {
		s -= 2
	}
	if s < 7 && r.at(i).upper {
		s--
	}
	return candidate{i, j, s - 2, s >= 12}
}
