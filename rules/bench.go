package rules

import "strikeoff/rules/colour"

// bench is one print on one line with everything that the rules look at, and the seven choices that they move.
type bench struct {
	order *Order
	line  *Line
	print *Print
	at    [2]int // index of the line and of the print
	shop  *Shop
	rec   *Record
	sheet *sheet

	cloth   cloth
	grounds []ground // one a line colour; empty where no colour was said
	worst   ground   // the ground that is hardest to cover: the darkest of those known
	palest  ground   // the lightest of those known
	inks    []ink
	pieces  int  // 0 where unknown
	inkN    int  // number of ink colours, 0 where unknown
	wide    bool // the print goes over seams and edges: all-over

	choices  [7]Choice
	heft     [7][]float64 // how much each reason weighs among a method's reasons, by slot
	now      *rule        // the rule at work: its id and basis go with every effect
	pick     Method
	held     bool   // a person or an answer must come first: no pick
	person   bool   // the pick is a person's: what is unsaid does not undo it
	refused  Method // asked for, and cannot be
	byPerson bool   // it was a person of the shop who asked for it
	dropped  map[Method]dropped
	migrates migration
}

// sheet is the plan as it is written, shared by all benches of an order.
type sheet struct {
	order   *Order
	shop    *Shop
	rec     *Record
	benches []*bench
	fired   []bool // by index in policy

	cautions    []placed[Caution]
	questions   []weighed[Question]
	assumptions []Assumption
	checks      map[string]Check
	seen        map[string]bool
	byCloth     map[string]map[string][]string // step, how it is done, for which cloths
	inspections []Inspection
	dates       *Schedule
	changed     []string // what a failed test changed, for the summary
	draft       bool     // a what-if: nothing is written
}

// placed is a caution with the place of its rule in the policy, so that cautions stand in one order whatever the order of lines.
type placed[T any] struct {
	it   T
	rank int
}

// weighed is a question with how much hangs on it.
type weighed[T any] struct {
	it     T
	weight int
}

// dropped is a method that a test print took down for good.
type dropped struct {
	at  int    // which failure, counted from 0
	why string // in a sentence
}

func newBench(s *sheet, li, pi int) *bench {
	return benchFor(s, li, pi, &s.order.Lines[li].Prints[pi])
}

// bareBench is a line that has no print yet, assessed for its cloth alone.
func bareBench(s *sheet, li int) *bench {
	b := benchFor(s, li, 0, &Print{})
	b.assess()
	return b
}

func benchFor(s *sheet, li, pi int, pr *Print) *bench {
	l := &s.order.Lines[li]
	b := &bench{order: s.order, line: l, print: pr, at: [2]int{li, pi}, shop: s.shop, rec: s.rec, sheet: s, cloth: clothOf(l)}
	for _, name := range l.Colours {
		b.grounds = append(b.grounds, groundOf(name))
	}
	for _, name := range b.print.Inks {
		b.inks = append(b.inks, inkOf(name))
	}
	b.setGrounds(b.grounds)
	b.pieces = l.Quantity.Or(l.Sizes.Total())
	b.inkN = b.print.InkCount.Or(len(b.print.Inks))
	b.wide = b.print.Place == "all-over"
	for i, m := range Methods {
		b.choices[i] = Choice{Method: m, Verdict: Yes, Score: 50, Setup: Setup{Base: NoBase}, Why: make(List[Reason], 0, 8)}
		b.heft[i] = make([]float64, 0, 8)
	}
	return b
}

func (b *bench) setGrounds(gs []ground) {
	b.grounds, b.worst, b.palest = gs, ground{}, ground{}
	for _, g := range gs {
		if !g.known {
			continue
		}
		if !b.worst.known || g.colour.Lab.L < b.worst.colour.Lab.L {
			b.worst = g
		}
		if !b.palest.known || g.colour.Lab.L > b.palest.colour.Lab.L {
			b.palest = g
		}
	}
}

// groundKnown reports whether every colour of the line is one the rules can judge.
func (b *bench) groundKnown() bool {
	for _, g := range b.grounds {
		if !g.known {
			return false
		}
	}
	return len(b.grounds) > 0
}

// inksKnown reports whether every ink is named by a colour the rules can judge.
func (b *bench) inksKnown() bool {
	for _, i := range b.inks {
		if !i.known {
			return false
		}
	}
	return len(b.inks) > 0 && len(b.inks) >= b.inkN
}

// covers reports whether the art needs a light opaque layer on the worst ground: some ink is not darker than the cloth.
func (b *bench) needsCover() bool {
	if !b.worst.known || b.worst.light() && !b.print.FullColour {
		return b.worst.known && b.paleInkOnTint()
	}
	if b.print.FullColour || !b.inksKnown() {
		return !b.worst.light()
	}
	for _, i := range b.inks {
		if !i.showsOn(b.worst) {
			return true
		}
	}
	return false
}

// paleInkOnTint is white, or a colour paler than the cloth, on a light but tinted ground.
func (b *bench) paleInkOnTint() bool {
	for _, i := range b.inks {
		if i.known && i.colour.Lab.L > b.worst.colour.Lab.L+4 && b.worst.colour.Lab.L < 82 {
			return true
		}
	}
	return false
}

// invisible reports whether an ink is the cloth's own colour, near enough that it will not be seen.
func (b *bench) invisible() (ink, ground, bool) {
	for _, g := range b.grounds {
		for _, i := range b.inks {
			if g.known && i.known && !g.pattern && colour.DeltaE(i.colour.Lab, g.colour.Lab) < 3 {
				return i, g, true
			}
		}
	}
	return ink{}, ground{}, false
}

// area is the print's size in square metres and whether it was said whole.
func (b *bench) area() (float64, bool) {
	w, h := b.print.WidthMM, b.print.HeightMM
	return w.Value * h.Value / 1e6, w.Known && h.Known && w.Value > 0 && h.Value > 0
}

// coverage is the share of the print's area that carries ink, 0 to 1; a half where it was not said.
func (b *bench) coverage() float64 { return min(1, max(0, b.print.Coverage.Or(50)/100)) }

func (b *bench) effects() bool { return len(b.print.Effects) > 0 }

func (b *bench) effect(e Effect) bool { return has(b.print.Effects, e) }

func (b *bench) wish(w Wish) bool { return has(b.order.Wishes, w) }

func (b *bench) use(u Use) bool { return has(b.order.Uses, u) }

// has reports whether a set holds x.
func has[T comparable](set List[T], x T) bool {
	for _, s := range set {
		if s == x {
			return true
		}
	}
	return false
}
