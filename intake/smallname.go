package intake

// eventful reports whether an item names an event, which is no part of a name in small letters.
func eventful(it *item) bool {
	s := it.sense(sUse)
	return s != nil && s.val == "event"
}

// sporty reports whether an item says no use, or one of sport, so that it may belong to a club's name.
func sporty(it *item) bool {
	s := it.sense(sUse)
	return s == nil || s.val == "athletic" || s.val == "swim"
}

// growName takes in small words of the name after item j: "marching band", "craft club".
func (r *reader) growName(j int, strong bool) int {
	k := j
	for k < j+3 {
		it := r.at(k)
		if it.kind == iPhrase && it.ntok == 2 && !it.upper && sporty(it) && orgs[r.toks[it.tok+1].word] { // run club
			k++
			continue
		}
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
