// Package source names where figures and rules come from: a published standard or text with its clause or page, or common practice.
package source

// CommonPractice is the basis of a rule or figure that the trade holds without one published source.
const CommonPractice = "common practice"

// Invented is the basis of a figure made up so that a shop without settings of its own gets an answer.
const Invented = "invented default, to be replaced by the shop's own figure"

// The published sources, each in the words in which it is shown. None of the full standards was opened: extracts, previews and legal
// texts were.
const (
	CIEDE2000       = "Sharma, Wu & Dalal, Color Research & Application 30(1), 2005 (CIEDE2000)"
	KubelkaMunk     = "Kubelka & Munk, 1931"
	DisperseDyes    = "diffusion model of disperse dyes, after dyeing texts"
	DischargeDyes   = "dischargeability by dye chemistry: patent EP 0021351 and dyeing texts"
	GreyChange      = "ISO 105-A02 grey scale for change in colour"
	GreyStain       = "ISO 105-A03 grey scale for staining"
	GradeChange     = "ISO 105-A05"
	GradeStain      = "ISO 105-A04"
	Rub             = "ISO 105-X12 or AATCC TM8"
	Laundering      = "ISO 105-C06 or AATCC TM61"
	HomeWash        = "ISO 6330"
	DryHeat         = "ISO 105-P01"
	Sampling        = "ISO 2859-1, single sampling, normal inspection, level II"
	CareLabels      = "ISO 3758"
	Mesh            = "wire-cloth geometry; wet deposit after a trade-magazine table of April 2000"
	ChildrenLead    = "US 15 USC 1278a and 16 CFR 1303 (lead), 16 CFR 1307 (phthalates), 16 CFR 1200.2 (who is a child)"
	Sleepwear       = "US 16 CFR 1615 and 1616"
	Burning         = "US 16 CFR 1610"
	Reach           = "EU REACH Annex XVII, entry 72 (Reg. 2018/1513)"
	JapanInfant     = "Japan Law 112 (1973)"
	FormaldehydeAir = "US OSHA 29 CFR 1910.1048"
	HiVis           = "EN ISO 20471:2013; ANSI/ISEA 107"
	FlameResistant  = "NFPA 2112 Annex A; ASTM F1506 appendix; EN ISO 11612"
)

// All lists every basis that a rule may give.
var All = []string{CommonPractice, Invented, CIEDE2000, KubelkaMunk, DisperseDyes, DischargeDyes, GreyChange, GreyStain, GradeChange,
	GradeStain, Rub, Laundering, HomeWash, DryHeat, Sampling, CareLabels, Mesh, ChildrenLead, Sleepwear, Burning, Reach, JapanInfant,
	FormaldehydeAir, HiVis, FlameResistant}
