package intake

// itemKind is what sort of thing an item is.
type itemKind uint8

const (
	iWord   itemKind = iota // a word that is not in the vocabulary
	iPhrase                 // one or more words with a meaning
	iNum                    // a number in digits or in words
	iPunct                  // one mark
	iBreak                  // end of a line
	iPart                   // what follows was written later
)

// item is a phrase, a number or a mark: what facts are read from.
type item struct {
	kind       itemKind
	ch         byte
	glued      bool
	upper      bool
	shout      bool
	frac       bool
	lead0      bool
	spelled    bool // a number in words
	typo       bool
	fact       bool // is part of some fact
	digits     uint8
	node       int32 // in the trie; 0 for none
	word       int32 // the word, for a single one; else 0
	start, end int32
	tok, ntok  int32
	num        float64
	first      float64 // the number a phrase such as "4XL" begins with
}

// sense is the item's meaning of a kind, nil where it has none.
func (it *item) sense(k senseKind) *sense {
	if it.node == 0 {
		return nil
	}
	ss := vocab.nodes[it.node].senses
	for i := range ss {
		if ss[i].kind == k {
			return &ss[i]
		}
	}
	return nil
}

// is reports whether the item belongs to a class of steering words.
func (it *item) is(c cue) bool { return it.node != 0 && vocab.nodes[it.node].cues.has(c) }

// itemize appends the items of the tokens: the longest phrases of the vocabulary from left to right, numbers joined.
func itemize(dst []item, toks []token) []item {
	for t := 0; t < len(toks); {
		k := &toks[t]
		switch k.kind {
		case tBreak:
			dst = append(dst, item{kind: iBreak, start: k.start, end: k.end, tok: int32(t), ntok: 1})
			t++
			continue
		case tPart:
			dst = append(dst, item{kind: iPart, start: k.start, end: k.end, tok: int32(t), ntok: 1})
			t++
			continue
		}
		n, nd := match(toks, t)
		it := item{start: k.start, end: k.end, tok: int32(t), ntok: 1, glued: k.glued, upper: k.upper, shout: k.shout, typo: k.typo, word: k.word}
		switch {
		case n > 0:
			it.kind, it.node, it.ntok, it.end = iPhrase, nd, int32(n), toks[t+n-1].end
			if n > 1 {
				it.word = 0
			}
			if k.kind == tNum {
				it.first = k.num
				if n == 1 {
					it.kind, it.num, it.digits, it.lead0 = iNum, k.num, k.digits, k.lead0
				}
			}
			if k.kind == tPunct {
				it.kind, it.ch = iPunct, k.ch
			}
			if vocab.nodes[nd].stop {
				it.kind, it.node, it.word = iWord, 0, 0
			}
			if s := it.sense(sNumber); s != nil && it.kind == iPhrase {
				it.kind, it.spelled, it.num = iNum, true, float64(s.num)
				joinNumber(dst, &it)
			}
			t += n
		case k.kind == tNum:
			it.kind, it.num, it.frac, it.digits, it.lead0 = iNum, k.num, k.frac, k.digits, k.lead0
			t++
		case k.kind == tPunct:
			it.kind, it.ch = iPunct, k.ch
			t++
		default:
			it.kind = iWord
			t++
		}
		for len(dst) > 0 && dst[len(dst)-1].tok >= it.tok {
			dst = dst[:len(dst)-1]
		}
		dst = append(dst, it)
	}
	return dst
}

// joinNumber makes it one number with the number before it where the two are read as one: "thirty-two", "a hundred and twenty", "3 doz".
// it.tok then lies before the items that were taken in.
func joinNumber(dst []item, it *item) {
	k := len(dst) - 1
	joint := false // "and", "y" or a hyphen stands between
	if k >= 1 && (dst[k].kind == iPunct && dst[k].ch == '-' && dst[k].glued || dst[k].word == wAnd || dst[k].word == wY) {
		k--
		joint = true
	}
	if k < 0 || dst[k].kind != iNum {
		return
	}
	p := &dst[k]
	v := 0.0
	switch {
	case it.num == 12 && isDozen(it) && !joint && p.num <= 500 && !p.frac:
		v = p.num * 12
	case !p.spelled:
		return
	case (it.num == 100 || it.num == 1000) && !joint && p.num < 100:
		v = p.num * it.num
	case p.num >= 100 && int(p.num)%100 == 0 && it.num < 100:
		v = p.num + it.num
	case p.num >= 20 && int(p.num)%10 == 0 && it.num < 10 && it.num > 0 && !(joint && dst[len(dst)-1].word == wAnd):
		v = p.num + it.num
	default:
		return
	}
	it.num = v
	it.start, it.ntok, it.tok = p.start, it.tok+it.ntok-p.tok, p.tok
	it.glued, it.upper = p.glued, p.upper
	if !p.spelled {
		it.spelled, it.digits = false, p.digits
	}
}

func isDozen(it *item) bool {
	switch vocab.names[it.word] {
	case "dozen", "dozens", "doz", "dz", "docena", "docenas":
		return true
	}
	return false
}

// match is the longest phrase of the vocabulary that begins at token t: how many tokens it takes, and its node. A hyphen inside is skipped.
func match(toks []token, t int) (n int, node int32) {
	k := &toks[t]
	if k.word == 0 {
		return 0, 0
	}
	at := vocab.first[k.word]
	if at == 0 {
		return 0, 0
	}
	if vocab.nodes[at].end {
		n, node = 1, at
	}
	for j := t + 1; j < len(toks); j++ {
		q := &toks[j]
		if q.kind == tPunct && q.ch == '-' && q.glued && j+1 < len(toks) && toks[j+1].glued && toks[j+1].kind != tPunct {
			continue
		}
		if q.kind == tPunct && q.ch == '.' && q.glued && j+1 < len(toks) && toks[j+1].glued && toks[j+1].kind == tWord && toks[j+1].end-toks[j+1].start <= 2 {
			continue // p.s, s.s
		}
		if q.word == 0 || q.kind > tPunct || q.kind == tPunct && q.ch == '/' && !q.glued { // 11" W / back
			break
		}
		child, ok := vocab.next[uint64(at)<<32|uint64(q.word)]
		if !ok {
			break
		}
		at = child
		if !vocab.nodes[at].end {
			continue
		}
		if k.kind == tNum && len(vocab.nodes[at].senses) > 0 && vocab.nodes[at].senses[0].kind == sSize {
			if !toks[t+1].glued { // "2 XL" is two of a size, "2XL" is one
				continue
			}
			if q.word == wX && j+1 < len(toks) && toks[j+1].kind == tNum { // 3x3
				continue
			}
		}
		n, node = j-t+1, at
	}
	return n, node
}
