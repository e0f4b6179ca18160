package rules

import (
	"encoding/json"
	"reflect"
	"testing"
)

// A plan is written as encoding/json would write it from the types themselves, whatever is in it. A field that was added to a type and
// not to its shape in planjson.go shows here.
func TestPlanJSON(t *testing.T) {
	type plain Plan // without MarshalJSON
	same := func(p Plan) {
		t.Helper()
		want, err := json.Marshal(plain(p))
		if err != nil {
			t.Fatal(err)
		}
		got, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(want) {
			t.Fatalf("a plan is written as\n%s\nand not as\n%s\nDoes planjson.go lack a field?", got, want)
		}
	}
	same(Plan{})
	for n := range 3 {
		var p Plan
		fill(reflect.ValueOf(&p).Elem(), n)
		same(p)
	}
	for _, pair := range [][2]reflect.Type{
		{reflect.TypeFor[Plan](), reflect.TypeFor[planShape]()},
		{reflect.TypeFor[LinePlan](), reflect.TypeFor[lineShape]()},
		{reflect.TypeFor[PrintPlan](), reflect.TypeFor[printShape]()},
		{reflect.TypeFor[Choice](), reflect.TypeFor[choiceShape]()},
		{reflect.TypeFor[Setup](), reflect.TypeFor[setupShape]()},
		{reflect.TypeFor[Question](), reflect.TypeFor[questionShape]()},
	} {
		if pair[0].NumField() != pair[1].NumField() {
			t.Errorf("%v has %d fields and its shape in planjson.go %d", pair[0], pair[0].NumField(), pair[1].NumField())
		}
	}
}

// fill puts something into everything: n elements into every list, and into strings what JSON has to escape.
func fill(v reflect.Value, n int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), n)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(v.Index(i), n)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), n)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), n)
	case reflect.String:
		v.SetString("a <b> & \"c\" \u2028 138 °C")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(7)
	case reflect.Float64:
		v.SetFloat(0.5)
	default:
		panic("fill knows no " + v.Kind().String())
	}
}

func BenchmarkPlanJSON(b *testing.B) {
	o := Order{Lines: List[Line]{{Quantity: Said(72), Garment: "t-shirt", Fabric: "tri-blend", Colours: List[string]{"navy"},
		Prints: List[Print]{{Place: "front", Inks: List[string]{"white"}, InkCount: Said(1)}, {Place: "left-chest"}}}}}
	p := Decide(o, Shop{}, Record{Today: "2026-11-25"})
	whole, err := json.Marshal(p)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(whole)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := json.Marshal(p); err != nil {
			b.Fatal(err)
		}
	}
}
