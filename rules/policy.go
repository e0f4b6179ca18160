package rules

// policy is all that the trade knows here, in the order in which it is weighed: to read it is to read what the program holds. A later rule
// sees what the earlier ones did. Within a print, first come the reasons that let a method in or keep it out, then setup and heat, then
// what the customer wants and what the work costs, then what test prints taught and people chose.
var policy = number([]*rule{
	// what each method is good for
	usualChoice,
	// cloth against method
	sublimationNeedsPolyester, sublimationNeedsLight, sublimationHasNoWhite,
	waterBasedOnCloth, waterBasedNeedsContrast, waterBasedSoft,
	dischargeNeedsCotton, dischargeNeedsDye, dischargeDyeAnswers,
	dtgNeedsCotton, dtgBase,
	plastisolCover, cottonPolyTests, triBlendDeposit, migrationBlocked, transferBlocked,
	stretchClothStretches, nylonBonds, acrylicGentle, woolGentle, otherCellulose, strangeBlend,
	fleeceSurface, pileSurface, shapedGarment, awkwardPlace,
	patternedGround, overdyedGround,
	// art against method
	effectsNeedScreens, heavyEffectOnThin, photoArt, manyColours, allOver, solidCoverage, tonalPrint,
	// heat
	cureHeat, transferHeat, dtfHeat, sublimationHeat, dtgHeat,
	// what is not known
	fabricUnsaid, colourUnsaid, printUnsaid, inkUnsaid, quantityUnsaid, severalColours,
	// what is wanted, and what the work costs
	softHand, vintageLook, durableWish, brightWish, stretchWish, breathableWish, ecoWish, rushWish, workItTakes,
	// people and test prints
	shopMethods, testTaught, onPress, askedMethod,
	// once the pick stands
	dischargeChemistry, hotPress, europeanLimits, childrensGoods, infantGoods, sleepwearBurns, flameResistant, hiVis, medicalGoods, foodGoods, swimGoods,
	uniformWash, sportGoods, migrationWarned,
	checkList, oddSize,
	oddOrder, mixedOrder, runInspection, dueDate,
})

// number tells each rule its place.
func number(rs []*rule) []*rule {
	for i, r := range rs {
		r.at = i
	}
	return rs
}
