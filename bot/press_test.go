package bot

import (
	"testing"

	"strikeoff/rules"
)

func TestScreens(t *testing.T) {
	for want, s := range map[string]*rules.ScreenSetup{
		"": nil,
		"3 screens: base 43/cm (109/in), colours 43 to 68/cm (109 to 173/in); 1 flash; 4 heads; about 9.4 g of ink a piece": {
			MeshCM: [2]int{43, 68}, MeshInch: [2]int{109, 173}, BaseCM: 43, Screens: 3, Passes: 1, Flashes: 1, Heads: 4, InkGrams: 9.42},
		"1 screen: 24/cm (61/in); 2 strokes a colour; 1 head": {MeshCM: [2]int{24, 24}, MeshInch: [2]int{61, 61}, Screens: 1, Passes: 2, Heads: 1},
		"54 to 77/cm (137 to 196/in)":                         {MeshCM: [2]int{54, 77}, MeshInch: [2]int{137, 196}, Passes: 1},
	} {
		if got := screens(s); got != want {
			t.Errorf("%+v:\n  %q, want\n  %q", s, got, want)
		}
	}
}

// The figures are those of ISO 2859-1, single sampling, normal inspection, level II, AQL 2.5: 72 pieces are letter E, 13 to look at, 1 and 2.
func TestInspection(t *testing.T) {
	o := rules.Order{Lines: rules.List[rules.Line]{{Quantity: rules.Said(72), Garment: "t-shirt", Colours: rules.List[string]{"navy"}}}}
	for want, in := range map[string]rules.Inspection{
		"72 t-shirts, navy: look at 13 of them; with up to 1 bad the run passes, with 2 it does not (ISO 2859-1, AQL 2.5 %)": {Lot: 72, Sample: 13, Accept: 1, Reject: 2, AQL: 2.5},
		"72 t-shirts, navy: look at every one; a single bad one refuses the run (ISO 2859-1, AQL 1 %)":                       {Lot: 72, Sample: 72, Reject: 1, AQL: 1},
		"3 pieces: look at 2 of them; a single bad one refuses the run (ISO 2859-1, AQL 4 %)":                                {Line: 7, Lot: 3, Sample: 2, Reject: 1, AQL: 4},
	} {
		if got := inspection(in, o); got != want {
			t.Errorf("%+v:\n  %q, want\n  %q", in, got, want)
		}
	}
}
