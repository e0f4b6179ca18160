package rules

// rule is one thing that the trade knows. A rule speaks at up to three moments: while a print's methods are judged, once a print has its
// pick, and once the whole order has.
type rule struct {
	id    string              // short, in plain words with hyphens
	about string              // what it holds, in one line
	basis string              // a published source, or common practice
	judge func(*bench)        // every print
	after func(*bench)        // every print, its pick known
	close func(*sheet, *rule) // once an order, all picks known
	at    int                 // place in the policy
}
