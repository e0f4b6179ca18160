package rules

import "encoding/json"

// A plan is written down several times for every order. Each List that writes itself is read over again by encoding/json at every level
// above it, five deep here, so a plan is first copied into shapes whose lists are plain and never nil. The result is the same, byte for
// byte; a test holds the shapes to the types they stand for.

type planShape struct {
	Lines       []lineShape     `json:"lines"`
	Migration   []Migration     `json:"migration"`
	Cautions    []Caution       `json:"cautions"`
	Summary     string          `json:"summary"`
	Checklist   []Check         `json:"checklist"`
	WashTest    bool            `json:"wash_test"`
	TestPrint   bool            `json:"test_print"`
	Questions   []questionShape `json:"questions"`
	Assumptions []Assumption    `json:"assumptions"`
	Inspection  []Inspection    `json:"inspection"`
	Schedule    *Schedule       `json:"schedule"`
}

type lineShape struct {
	Prints []printShape `json:"prints"`
}

type printShape struct {
	Pick    Method        `json:"pick"`
	Choices []choiceShape `json:"choices"`
}

type choiceShape struct {
	Method  Method     `json:"method"`
	Verdict Verdict    `json:"verdict"`
	Score   float64    `json:"score"`
	Why     []Reason   `json:"why"`
	Setup   setupShape `json:"setup"`
	Expect  Expect     `json:"expect"`
	Effort  *Effort    `json:"effort"`
}

type setupShape struct {
	Base      Base         `json:"base"`
	Additives []Additive   `json:"additives"`
	Heat      *Heat        `json:"heat"`
	Screen    *ScreenSetup `json:"screen"`
}

type questionShape struct {
	Field string   `json:"field"`
	Text  string   `json:"text"`
	Quick []string `json:"quick"`
}

// MarshalJSON writes the plan, its empty lists as [].
func (p Plan) MarshalJSON() ([]byte, error) {
	return json.Marshal(planShape{Lines: shaped(p.Lines, shapeLine), Migration: whole(p.Migration), Cautions: whole(p.Cautions), Summary: p.Summary,
		Checklist: whole(p.Checklist), WashTest: p.WashTest, TestPrint: p.TestPrint, Questions: shaped(p.Questions, shapeQuestion),
		Assumptions: whole(p.Assumptions), Inspection: whole(p.Inspection), Schedule: p.Schedule})
}

func shapeLine(l LinePlan) lineShape { return lineShape{shaped(l.Prints, shapePrint)} }

func shapePrint(p PrintPlan) printShape { return printShape{p.Pick, shaped(p.Choices, shapeChoice)} }

func shapeChoice(c Choice) choiceShape {
	return choiceShape{c.Method, c.Verdict, c.Score, whole(c.Why), setupShape{c.Setup.Base, whole(c.Setup.Additives), c.Setup.Heat, c.Setup.Screen},
		c.Expect, c.Effort}
}

func shapeQuestion(q Question) questionShape { return questionShape{q.Field, q.Text, whole(q.Quick)} }

// whole is a list as a plain slice that is never nil.
func whole[T any](l List[T]) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// shaped copies a list into another shape.
func shaped[T, S any](l List[T], shape func(T) S) []S {
	out := make([]S, len(l))
	for i, v := range l {
		out[i] = shape(v)
	}
	return out
}
