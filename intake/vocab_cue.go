package intake

// cue is a class of words that steer reading.
type cue uint8

const (
	cNo cue = iota
	cInsteadOf
	cGone
	cFix
	cReset
	cPast
	cBut
	cSame
	cAs
	cAll
	cEach
	cOnly
	cBlank
	cPcs
	cQty
	cColourWord
	cInkWord
	cPrintWord
	cWide
	cTall
	cMM
	cCM
	cInch
	cCover
	cFull
	cSwatch
	cBoth
	cToday
	cTomorrow
	cDayAfterTomorrow
	cNext
	cThis
	cWeek
	cNextWeek
	cEndWeek
	cEndNextWeek
	cEndMonth
	cEndNextMonth
	cMonth
	cDays
	cEnd
	cMid
	cEarly
	cHand
	cDue
	cEvent
	cShip
	cAgo
	cMovedFrom
	cTo
	cFor
	cOf
	cWant
	cClient
	cBehalf
	cFrom
	cHere
	cGreet
	cAsk
	cOrderVerb
	cTalk
	cPer
	cPrice
	cIDWord
	cAge
	cDegree
	cTime
	cSized
	cOn
	cWith
	cAdd
	cStill
	cNoDate
	cYouth
	cAdult
	cHeather
	cPS
	cPure
	cPercent
	cBlendWord
	cOnes
	cGarmentWord
	cSeller
	cSuits
	cInterj
	cNothing
	cNewPrint
	cRest
	cSport
	cSell
	cVenue
	cAway
	cWorker
	cDamage
	cUnfit
	cEndYear
	cDamaged
	cFoodWork
	cShop
	cOccasion
	cSportWord
	cPupil
	cRefuse
	cEven
	cCues
)

// cueNames are the classes as the word file names them.
var cueNames = map[string]cue{"no": cNo, "instead-of": cInsteadOf, "gone": cGone, "fix": cFix, "reset": cReset, "past": cPast, "but": cBut, "same": cSame,
	"as": cAs, "all": cAll, "each": cEach, "only": cOnly, "blank": cBlank, "pcs": cPcs, "qty": cQty, "colourword": cColourWord, "inkword": cInkWord,
	"printword": cPrintWord, "wide": cWide, "tall": cTall, "mm": cMM, "cm": cCM, "in": cInch, "cover": cCover, "full": cFull, "swatch": cSwatch,
	"both": cBoth, "today": cToday, "tomorrow": cTomorrow, "day-after-tomorrow": cDayAfterTomorrow, "next": cNext, "this": cThis, "week": cWeek,
	"nextweek": cNextWeek, "endweek": cEndWeek, "endnextweek": cEndNextWeek, "endmonth": cEndMonth, "endnextmonth": cEndNextMonth, "month": cMonth,
	"days": cDays, "end": cEnd, "mid": cMid, "early": cEarly, "hand": cHand, "due": cDue, "event": cEvent, "ship": cShip, "ago": cAgo,
	"moved-from": cMovedFrom, "to": cTo, "for": cFor, "of": cOf, "want": cWant, "client": cClient, "behalf": cBehalf, "from": cFrom, "here": cHere,
	"greet": cGreet, "ask": cAsk, "order-verb": cOrderVerb, "talk": cTalk, "per": cPer, "price": cPrice, "idword": cIDWord, "age": cAge,
	"degree": cDegree, "time": cTime, "sized": cSized, "on": cOn, "with": cWith, "add": cAdd, "like-orig": cStill, "dates-not": cNoDate,
	"yth": cYouth, "adult": cAdult, "heather": cHeather, "ps": cPS, "pure": cPure, "percent": cPercent, "blendword": cBlendWord, "ones": cOnes,
	"garmentword": cGarmentWord, "seller": cSeller, "suits": cSuits, "interj": cInterj, "nothing": cNothing, "newprint": cNewPrint, "rest": cRest,
	"sport": cSport, "sell": cSell, "venue": cVenue, "away": cAway, "worker": cWorker, "damage": cDamage, "unfit": cUnfit, "endyear": cEndYear, "damaged": cDamaged, "foodwork": cFoodWork, "shop": cShop, "occasion": cOccasion, "sportword": cSportWord, "pupil": cPupil, "refuse": cRefuse, "even": cEven}

// cueSet is a set of classes.
type cueSet [2]uint64

func (s *cueSet) add(c cue)     { s[c>>6] |= 1 << (c & 63) }
func (s cueSet) has(c cue) bool { return s[c>>6]&(1<<(c&63)) != 0 }
