package intake

import "strings"

// typoIndex finds the known word that a misspelt one stands for. Every known word is entered under its own spelling and under each spelling
// with one letter left out; a misspelling within one edit then shares an entry with it, and so do most within two.
type typoIndex struct {
	l      *lexicon
	at     map[uint64]int32 // hash of a spelling → last entry
	chain  []typoEntry
	guard  map[string]bool // everyday words that are near a known word and mean themselves
	target []bool          // by word number
}

type typoEntry struct{ word, prev int32 }

// hashSkip is FNV-1a of b without the byte at skip; skip < 0 leaves nothing out.
func hashSkip(b []byte, skip int) uint64 {
	h := uint64(14695981039346656037)
	for i, c := range b {
		if i != skip {
			h = (h ^ uint64(c)) * 1099511628211
		}
	}
	return h
}

// makeTypoIndex enters every word of five letters or more, and of four among colours, garments and places, that facts are made of.
func makeTypoIndex(l *lexicon) typoIndex {
	x := typoIndex{l: l, at: make(map[uint64]int32, 1<<14), chain: make([]typoEntry, 1, 1<<14), guard: map[string]bool{}}
	x.target = make([]bool, len(l.names))
	for _, file := range []string{"garments", "fibres", "fabrics", "colours", "places", "methods", "effects", "sizes", "calendar"} {
		for _, phrases := range rows(file) {
			for _, p := range phrases {
				weak := strings.HasPrefix(p, "~")
				for _, w := range l.split(strings.TrimPrefix(p, "~")) {
					n := len(l.names[w])
					if x.target[w] || n < 4 || weak && n < 7 || n < 5 && (file == "calendar" || file == "sizes") {
						continue
					}
					x.target[w] = true
					b := []byte(l.names[w])
					for skip := -1; skip < len(b); skip++ {
						h := hashSkip(b, skip)
						x.chain = append(x.chain, typoEntry{word: w, prev: x.at[h]})
						x.at[h] = int32(len(x.chain) - 1)
					}
				}
			}
		}
	}
	for w := range rows("guard") {
		x.guard[w] = true
	}
	return x
}

// find is the known word nearest to key: one edit away for words of four letters and up, two from eight; 0 where there is none, or where
// two are equally near and differ in meaning. plain says that the word is not written as a name.
func (x *typoIndex) find(key []byte, plain bool) int32 {
	n := len(key)
	if n < 4 || n > 24 || !plain && n < 6 || x.guard[string(key)] {
		return 0
	}
	limit := 1
	if n >= 8 {
		limit = 2
	}
	best, dist, tie := int32(0), limit+1, false
	for skip := -1; skip < n; skip++ {
		for e := x.at[hashSkip(key, skip)]; e != 0; e = x.chain[e].prev {
			w := x.chain[e].word
			if w == best {
				continue
			}
			name := x.l.names[w]
			if len(name) < 5 && (n != 4 || !plain) {
				continue
			}
			d := osa(key, name, limit)
			if n == 4 && d == 1 && len(name) != 4 {
				continue
			}
			if d < dist {
				best, dist, tie = w, d, false
			} else if d == dist && d <= limit && (best == 0 || !x.alike(best, w)) {
				// a word with a meaning of its own is the better guess, then one with the same first letter
				if own, other := x.means(best), x.means(w); own != other {
					if other {
						best, tie = w, false
					}
				} else if name[0] == key[0] && x.l.names[best][0] != key[0] {
					best, tie = w, false
				} else if name[0] == key[0] || x.l.names[best][0] != key[0] {
					tie = true
				}
			}
		}
	}
	if tie || dist > limit || !plain && best != 0 && x.l.names[best][0] != key[0] { // a name seldom is a slip in its first letter: Zwolle is no wolle
		return 0
	}
	return best
}

// means reports whether a word means something by itself, and not only as part of a phrase.
func (x *typoIndex) means(w int32) bool {
	n := x.l.next[uint64(w)]
	return n != 0 && len(x.l.nodes[n].senses) > 0
}

// alike reports whether two words mean the same by themselves, as "hoodie" and "hoody" do.
func (x *typoIndex) alike(a, b int32) bool {
	na, nb := x.l.next[uint64(a)], x.l.next[uint64(b)]
	if na == 0 || nb == 0 {
		return strings.TrimSuffix(x.l.names[a], "s") == strings.TrimSuffix(x.l.names[b], "s")
	}
	sa, sb := x.l.nodes[na].senses, x.l.nodes[nb].senses
	return len(sa) > 0 && len(sb) > 0 && sa[0].kind == sb[0].kind && sa[0].val == sb[0].val
}

// osa is the optimal string alignment distance (insert, delete, replace, swap neighbours: one each), or limit+1 where it is greater.
// Strings longer than 32 bytes are never near.
func osa(a []byte, b string, limit int) int {
	n, m := len(a), len(b)
	if n-m > limit || m-n > limit || n > 32 || m > 32 {
		return limit + 1
	}
	var rows [3][33]int
	two, one, cur := &rows[0], &rows[1], &rows[2]
	for j := 0; j <= m; j++ {
		one[j] = j
	}
	for i := 1; i <= n; i++ {
		cur[0] = i
		least := i
		for j := 1; j <= m; j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d := min(one[j]+1, cur[j-1]+1, one[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, two[j-2]+1)
			}
			cur[j] = d
			least = min(least, d)
		}
		if least > limit {
			return limit + 1
		}
		two, one, cur = one, cur, two
	}
	return min(one[m], limit+1)
}
