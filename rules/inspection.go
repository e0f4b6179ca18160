package rules

import "math"

// Inspection is how many pieces of a finished run to look at, and how many may be bad (ISO 2859-1, single sampling, normal inspection,
// general level II).
type Inspection struct {
	Line   int     `json:"line"`   // index in Order.Lines
	Lot    int     `json:"lot"`    // pieces in the run
	AQL    float64 `json:"aql"`    // acceptable quality limit, percent
	Letter string  `json:"letter"` // sample size code letter of the lot
	Sample int     `json:"sample"` // pieces to look at: the whole lot where the plan asks for as many
	Accept int     `json:"accept"` // pass the run with up to this many bad pieces
	Reject int     `json:"reject"` // refuse it from this many on
}

var (
	letters     = []string{"A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "Q"}
	lotTops     = []int{8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10000, 35000, 150000, 500000, math.MaxInt}
	sampleSizes = []int{2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250}
	acceptances = []int{1, 2, 3, 5, 7, 10, 14, 21}
)

// zeroAt is the letter, by index, at which an AQL's plan accepts none. From it the whole column of table 2-A follows: the plan before it and
// the one after it point to it, the next points on to accept one, and from there the numbers run down the same for every AQL.
func zeroAt(aql float64) (z int, used float64) {
	for _, c := range []struct {
		aql float64
		z   int
	}{{1.0, 4}, {1.5, 3}, {2.5, 2}} {
		if aql <= c.aql {
			return c.z, c.aql
		}
	}
	return 1, 4.0
}

// Inspect is the sampling plan for a lot. An AQL other than 1, 1.5, 2.5 and 4 percent takes the next of these above it, at most 4. A lot
// of less than one piece has no plan: the zero Inspection.
func Inspect(lot int, aql float64) Inspection {
	if lot < 1 {
		return Inspection{}
	}
	letter := 0
	for lot > lotTops[letter] {
		letter++
	}
	z, used := zeroAt(aql)
	at, accept := letter, 0
	switch first := z + 3; {
	case letter <= z+1:
		at = z
	case letter < first:
		at, accept = first, acceptances[0]
	default:
		at = min(letter, first+len(acceptances)-1)
		accept = acceptances[at-first]
	}
	return Inspection{Lot: lot, AQL: used, Letter: letters[letter], Sample: min(lot, sampleSizes[at]), Accept: accept, Reject: accept + 1}
}
