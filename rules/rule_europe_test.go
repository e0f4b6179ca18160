package rules

var _ = rows("european-limits",
	says("children", tee("cotton 100", "white", "red", for_(Children)), warns("europe", "75 mg/kg", "30 mg/kg")),
	says("discharge", tee("cotton 100", "black", "white", asking(Discharge)), warns("europe", "formaldehyde")),
	quiet("grown-ups", tee("cotton 100", "white", "red")),
)
