package intake

// parted lead to "50/50" or "fifty fifty" where it is no blend but how pieces are shared out.
var parted = internAll("split", "divided", "shared", "halved")

// sharedOut reports whether the fifty fifty at item i shares out pieces and is no blend: "split 50/50 black and grey".
func (r *reader) sharedOut(i int) bool {
	for k := i - 1; k > i-4 && r.at(k).kind <= iPhrase; k-- {
		if it := r.at(k); it.ntok > 0 && parted[r.toks[it.tok].word] {
			return true
		}
	}
	return false
}
