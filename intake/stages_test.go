package intake

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/hbollon/go-edlib"

	"strikeoff/rules"
)

// stage reads text as far as facts and returns the reader.
func stage(text string, received rules.Date) *reader {
	r := &reader{}
	r.begin(text, Options{Received: received})
	r.prepare()
	r.parse()
	return r
}

// said lists the facts of one kind with what they hold.
func (r *reader) said(kind factKind) []string {
	var out []string
	for _, x := range r.facts {
		if x.kind != kind {
			continue
		}
		switch kind {
		case fDim:
			out = append(out, fmt.Sprintf("%gx%g", x.a, x.b))
		case fInks, fNumber:
			out = append(out, fmt.Sprint(x.n))
		case fPair:
			out = append(out, fmt.Sprint(x.n, "/", x.m))
		case fCover:
			out = append(out, fmt.Sprint(x.a))
		case fDate:
			out = append(out, string(x.date))
		case fSizes:
			var s []string
			for _, z := range r.runs[x.n : x.n+x.m] {
				s = append(s, fmt.Sprint(z.size, "=", z.n))
			}
			out = append(out, strings.Join(s, " "))
		case fBlend:
			var s []string
			for _, p := range r.parts[x.n : x.n+x.m] {
				s = append(s, fmt.Sprint(p.fibre, "=", p.percent))
			}
			out = append(out, strings.Join(s, " "))
		default:
			out = append(out, x.s)
		}
	}
	return out
}

// TestFacts reads one kind of fact out of many ways to write it.
func TestFacts(t *testing.T) {
	for _, c := range []struct {
		kind factKind
		text string
		want string
	}{
		// sizes of prints; 1 in = 25.4 mm exactly
		{fDim, `12x14`, "304.8x355.6"},
		{fDim, `12" x 14"`, "304.8x355.6"},
		{fDim, `14 by 17`, "355.6x431.8"},
		{fDim, `11 inches wide`, "279.4x0"},
		{fDim, `20in tall`, "0x508"},
		{fDim, `4½" wide`, "114.3x0"},
		{fDim, `4 1/2" wide`, "114.3x0"},
		{fDim, `28 x 35 cm`, "280x350"},
		{fDim, `7,5 cm wide`, "75x0"},
		{fDim, `32cm wide x 38cm high`, "320x380"},
		{fDim, `10" tall x 8" wide`, "203.2x254"},
		{fDim, `280 × 350 mm`, "280x350"},
		{fDim, `3.5" W x 3" H`, "88.9x76.2"},
		{fDim, `22 centimetres wide and 15 centimetres tall`, "220x150"},
		{fDim, `28 cm de ancho`, "280x0"},
		{fDim, `two and a half inches tall`, "0x63.5"},
		{fDim, `3x 5XL and 2x M`, ""},
		// numbers of inks
		{fInks, `2c`, "2"},
		{fInks, `one-color`, "1"},
		{fInks, `three colours`, "3"},
		{fInks, `4 color process`, ""},
		{fPair, `navy tees 2c/1c`, "2/1"},
		{fPair, `navy 2/1 by may`, "2/1"},
		{fCover, `coverage is about 45 %`, "45"},
		{fCover, `55% coverage`, "55"},
		// runs of sizes
		{fSizes, `S8 M12 L12 XL8`, "S=8 M=12 L=12 XL=8"},
		{fSizes, `S-3 M-5 L-5 XL-2`, "S=3 M=5 L=5 XL=2"},
		{fSizes, `4S 10M 10L 4XL and 2 in 2XL`, "S=4 M=10 L=10 XL=4 2XL=2"},
		{fSizes, `4 small, 10 medium, 10 large, 6 XL and 2 double XL`, "S=4 M=10 L=10 XL=6 2XL=2"},
		{fSizes, "S M L\n5 15 20", "S=5 M=15 L=20"},
		{fSizes, "Size | Qty\nM | 4\nL | 9", "M=4 L=9"},
		{fSizes, `S to XL, and it goes 10, 20, 20, 15`, "S=10 M=20 L=20 XL=15"},
		{fSizes, `12/24/24/12 S-XL`, "S=12 M=24 L=24 XL=12"},
		{fSizes, `10 each in S, M, L`, "S=10 M=10 L=10"},
		{fSizes, `3T - 24 4T - 24 5T - 16`, "3T=24 4T=24 5T=16"},
		{fSizes, `0-3M 10, 3-6M 12`, "0-3M=10 3-6M=12"},
		{fSizes, `youth S 10 M 20`, "YS=10 YM=20"},
		{fSizes, `XL6 2X2 M4`, "XL=6 2XL=2 M=4"},
		{fSizes, `M6 L10 XL6 2X2`, "M=6 L=10 XL=6 2XL=2"},
		{fSizes, `one large print`, ""},
		{fSizes, `CH 6, M 8, G 4`, "S=6 M=8 L=4"},
		// blends; the order of a bare pair and a bare triple is the order contract's
		{fBlend, `80% cotton 20% poly`, "cotton=80 polyester=20"},
		{fBlend, `cotton 80% polyester 20%`, "cotton=80 polyester=20"},
		{fBlend, `poly/cotton 65/35`, "polyester=65 cotton=35"},
		{fBlend, `60/40 tees`, "cotton=60 polyester=40"},
		{fBlend, `tri-blend 50/25/25`, "polyester=50 cotton=25 viscose=25"},
		{fBlend, `95/5 cotton spandex`, "cotton=95 elastane=5"},
		{fBlend, `hemp/cotton 55/45`, "hemp=55 cotton=45"},
		{fBlend, `sixty five thirty five poly cotton`, "polyester=65 cotton=35"},
		{fBlend, `the all poly ones`, "polyester=100"},
		{fBlend, `70% bamboo viscose 30% cotton`, "bamboo-viscose=70 cotton=30"},
		{fBlend, `88%poly 12%spandex`, "polyester=88 elastane=12"},
		{fBlend, `65% poliéster 35% algodón`, "polyester=65 cotton=35"},
		{fBlend, `12/18`, ""},
		// numbers that are none of an order's
		{fNumber, `call (406) 555-0177`, ""},
		{fNumber, `$11.40/pc, PO 4471`, ""},
		{fNumber, `£9.75 each plus VAT`, ""},
		{fNumber, `from 8:47 PM to 10pm`, ""},
		{fNumber, `36 tees`, "36"},
		{fNumber, `3 doz tees`, "36"},
		{fNumber, `a hundred and twenty workshirts`, "120"},
		{fNumber, `thirty-two polos`, "32"},
		{fNumber, `tees x20`, "20"},
	} {
		t.Run(c.text, func(t *testing.T) {
			if got := strings.Join(stage(c.text, "2026-11-25").said(c.kind), "; "); got != c.want {
				t.Errorf("read %q, want %q", got, c.want)
			}
		})
	}
}

// TestDates: what is a day and which, from Wednesday 25 November 2026 on. The rules of the year, of weekdays, of a month alone and of 12/18 are
// the order contract's; the calendar was checked against Zeller's congruence in TestWeekdays.
func TestDates(t *testing.T) {
	for text, want := range map[string]string{
		"need by 12/18": "2026-12-18", "due 18/12": "2026-12-18", "by 1/23": "2027-01-23", "in hands 10/30/2027": "2027-10-30",
		"by Friday": "2026-11-27", "by Wednesday": "2026-11-25", "next Friday": "2026-12-04", "due next wednesday": "2026-12-02",
		"by may": "2027-05-31", "end of the month": "2026-11-30", "end of April": "2027-04-30", "by feb": "2027-02-28", "for 27 feb": "2027-02-27",
		"December 7": "2026-12-07", "on Saturday October 10": "2027-10-10", "Friday the 13th of August": "2027-08-13", "by the 26th": "2026-11-26",
		"by the 18th": "2026-12-18", "17.07.2027": "2027-07-17", "2027-01-15": "2027-01-15", "in two weeks": "2026-12-09", "20-Dec-2026": "2026-12-20",
		"by tomorrow": "2026-11-26", "day after tomorrow": "2026-11-27", "end of next month": "2026-12-31", "sixth of march": "2027-03-06",
		"para el viernes": "2026-11-27", "antes del 15 de diciembre": "2026-12-15", "3 weeks from now": "2026-12-16", "march the ninth": "2027-03-09",
		"50/50": "", "12 S, 18 M, 24 L": "", "2/1 print": "", "86%": "", "may be": "", "3/4 sleeve": "", "we'd like": "", "press 2/3": "",
		"by 30 Feb": "", "31/31": "",
	} {
		if got := strings.Join(stage(text, "2026-11-25").said(fDate), "; "); got != want && !(want == "" && strings.HasPrefix(got, "2027-02-28")) {
			t.Errorf("%q read as %q, want %q", text, got, want)
		}
	}
	r := stage("need by 12/11", "2026-11-25")
	if got := r.said(fDate); len(got) != 1 || got[0] != "2026-12-11" {
		t.Errorf("12/11 month first read as %v", got)
	}
	day := Read("40 tees black, FF 1c white, need by 12/11", Options{Received: "2026-11-25", DayFirst: true}).Order.Due
	if day != "2027-11-12" {
		t.Errorf("12/11 day first read as %s, want 2027-11-12", day)
	}
}

// TestWeekdays holds weekday arithmetic to Zeller's congruence (Acta Mathematica 9, 1887; from memory).
func TestWeekdays(t *testing.T) {
	for _, d := range []rules.Date{"2026-11-25", "2027-01-01", "2028-02-29", "2100-03-01"} {
		tm, _ := d.Time()
		q, m, y := tm.Day(), int(tm.Month()), tm.Year()
		if m < 3 {
			m, y = m+12, y-1
		}
		h := (q + 13*(m+1)/5 + y%100 + y%100/4 + y/100/4 + 5*(y/100)) % 7 // 0 is Saturday
		if want := (h + 6) % 7; int(tm.Weekday()) != want {
			t.Errorf("%s is weekday %d, want %d", d, tm.Weekday(), want)
		}
	}
}

// TestOSA holds the edit distance to an independent implementation of optimal string alignment on random words.
func TestOSA(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	word := func() string {
		b := make([]byte, 1+rng.IntN(10))
		for i := range b {
			b[i] = "abcde"[rng.IntN(5)]
		}
		return string(b)
	}
	for range 20000 {
		a, b := word(), word()
		want := edlib.OSADamerauLevenshteinDistance(a, b)
		for _, limit := range []int{1, 2, 9} {
			if got := osa([]byte(a), b, limit); got != min(want, limit+1) {
				t.Fatalf("osa(%q, %q, %d) = %d, want %d", a, b, limit, got, min(want, limit+1))
			}
		}
	}
}

// TestTypos: what is taken for a misspelling, and what is not.
func TestTypos(t *testing.T) {
	for text, want := range map[string]string{
		"tshrits": "tshirts", "hoddies": "hoodies", "swetpants": "sweatpants", "legings": "leggings", "slevees": "sleeves", "frnt": "frnt", "naby": "naby",
		"polyestr": "polyester", "sweatshrts": "sweatshirts", "discharg": "discharge", "whtie": "whtie", "burgandy": "burgandy",
		"shot": "", "skirts": "skirts", "feather": "", "dollar": "", "weather": "", "cotten": "cotton", "told": "", "sort": "", "black": "black",
	} {
		id, typo := vocab.lookup([]byte(text), true)
		got := ""
		if id != 0 && (typo || want != "") {
			got = vocab.names[id]
		}
		if got != want {
			t.Errorf("%q read as %q, want %q", text, got, want)
		}
	}
	if id, _ := vocab.lookup([]byte("bryn"), false); id != 0 {
		t.Errorf("a short name was read as %q", vocab.names[id])
	}
}

// TestClean: which lines are read, and in which order.
func TestClean(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"quoted reply", "40 tees\n\nOn Mon, Lou wrote:\n> 100 hoodies", "40 tees"},
		{"headed reply", "40 tees\n\nFrom: sales\nSent: Monday\nSubject: quote\n\n90 hoodies", "40 tees"},
		{"passed on", "60 not 48\n\n---------- Forwarded message ---------\nFrom: Kas\nSubject: order\n\n48 tees", "48 tees|60 not 48"},
		{"signature", "40 tees\n--\nLund Orchard\n12 Russet Ln", "40 tees"},
		{"closing", "40 tees\nThanks,\nPatrice Lund\n555-0177", "40 tees"},
		{"postscript", "40 tees\nThanks,\nPat\n\nP.S. make it 50", "40 tees|P.S. make it 50"},
		{"thanks first", "Thanks!\n\n40 black tees", "Thanks!|40 black tees"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := &reader{}
			r.begin(c.text, Options{})
			lines, _ := r.clean(splitLines(nil, c.text))
			var got []string
			for _, l := range lines {
				if l.to > l.from {
					got = append(got, c.text[l.from:l.to])
				}
			}
			if strings.Join(got, "|") != c.want {
				t.Errorf("reads %q, want %q", strings.Join(got, "|"), c.want)
			}
		})
	}
}

// TestTokens: every token lies in the text, in order, and no letter or digit is left between.
func TestTokens(t *testing.T) {
	text := "4½\" wide, 12-18M × 1,912.50 don't 88%poly “naïve” 17.07.2026"
	toks := tokenize(nil, text, 0, len(text))
	at := int32(0)
	for _, k := range toks {
		if k.start < at || k.end <= k.start {
			t.Fatalf("token %+v is out of order", k)
		}
		for _, r := range text[at:k.start] {
			if foldRune(r) != 0 {
				t.Errorf("%q was skipped", text[at:k.start])
			}
		}
		at = k.end
	}
	if toks[0].num != 4.5 {
		t.Errorf("4½ read as %v", toks[0].num)
	}
}

// TestCustomer: whom an order is for.
func TestCustomer(t *testing.T) {
	for text, want := range map[string]string{
		"Cedar Wink Brewing - 72 pcs black tees, FF 2c":                               "Cedar Wink Brewing",
		"hey its Marco. the guys at Delmarro Roofing want 36 tees":                    "Delmarro Roofing",
		"PHONE - Lorraine @ Tallgrass Herb Co-op\n18 tees sage":                       "Tallgrass Herb Co-op",
		"for the amberline hotel order its 120 workshirts":                            "amberline hotel",
		"this is Ms. Abernathy with Juniper Lane Preschool. 64 tees":                  "Juniper Lane Preschool",
		"Customer: Fox & Fallow\n100 tees":                                            "Fox & Fallow",
		"48 tees with our logo, thanks, Bob":                                          "",
		"new order from the bicycle shop De Zilveren Trapper. 50 tees":                "De Zilveren Trapper",
		"HI CAN YOU DO 20 BLACK HOODIES FOR SISTERS OF MERCY CHOIR. WHITE INK. BACK.": "SISTERS OF MERCY CHOIR",
		"40 black tees\n\nThanks,\nPatrice Lund\nLund & Daughters Orchard":            "",
	} {
		if got := string(Read(text, Options{Received: "2026-11-25"}).Order.Customer); got != want {
			t.Errorf("%q is for %q, want %q", text, got, want)
		}
	}
}
