package rules

import "fmt"

var _ = rows("run-inspection",
	says("a hundred", tee("cotton 100", "white", "black"), func(_ string, _ *sheet, p Plan) string {
		if len(p.Inspection) != 1 || p.Inspection[0].Sample != 20 || p.Inspection[0].Accept != 1 || p.Inspection[0].Letter != "F" {
			return fmt.Sprintf("inspection %+v", p.Inspection)
		}
		return ""
	}),
	quiet("no number", tee("cotton 100", "white", "black", uncounted)),
)
