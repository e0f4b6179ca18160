package rules

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// A plan is written as encoding/json would write it from the types themselves, whatever is in it. A field that was added to a type and
// has no line in planjson.go shows here.
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
}

// An order is written as encoding/json writes it.
func TestOrderJSON(t *testing.T) {
	orders := 0
	same := func(o Order) {
		t.Helper()
		orders++
		want, err := json.Marshal(o)
		if err != nil {
			t.Fatal(err)
		}
		got, err := o.AppendJSON([]byte("x"))
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != "x"+string(want) {
			t.Fatalf("an order is written as\n%s\nand not as\nx%s\nDoes orderjson.go lack a field?", got, want)
		}
	}
	same(Order{})
	for n := range 3 {
		var o Order
		fill(reflect.ValueOf(&o).Elem(), n)
		same(o)
	}
	if orders == 0 {
		t.Fatal("no order was tried")
	}
}

// What the pen writes is what encoding/json writes, for every text and number; a number that JSON cannot write is an error.
func TestPen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Reason{Text: rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) })).Draw(t, "text"),
			Points: rapid.Float64().Draw(t, "points")}
		want, errWant := json.Marshal(r)
		got, err := written(nil, func(w *pen) { penReason(w, r) })
		if (err == nil) != (errWant == nil) || err == nil && string(got) != string(want) {
			t.Fatalf("the pen writes %s, %v; encoding/json %s, %v", got, err, want, errWant)
		}
	})
	if _, err := (Plan{Lines: List[LinePlan]{{Prints: List[PrintPlan]{{Choices: List[Choice]{{Score: math.NaN()}}}}}}}).AppendJSON(nil); err == nil {
		t.Error("a score that is no number was written")
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
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range n {
			k, e := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fill(k, n)
			fill(e, n)
			v.SetMapIndex(k, e)
		}
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
		if _, err := p.AppendJSON(nil); err != nil {
			b.Fatal(err)
		}
	}
}
