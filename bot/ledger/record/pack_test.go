package record

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"
	"testing"

	"strikeoff/bot/job"
	"strikeoff/rules"
	"strikeoff/rules/fibre"
)

var makePhrases = flag.Bool("phrases", false, "write phrases.dict, where there is none")

// samples are the plans of invented orders, through every class of fabric.
func samples(t *testing.T) (plans [][]byte) {
	t.Helper()
	colours := []string{"black", "navy", "red", "white", "natural"}
	garments := []rules.Garment{"t-shirt", "hoodie", "polo", "jersey", "tote"}
	for i, class := range []fibre.Class{fibre.AllCotton, fibre.CVC, fibre.FiftyFifty, fibre.PolyCotton, fibre.TriBlend, fibre.PolyViscose,
		fibre.AllPolyester, fibre.AllNylon, fibre.AllAcrylic, fibre.AllWool, fibre.AllLinen, fibre.Other, ""} {
		for k, colour := range colours {
			o := rules.Order{Due: "2026-12-18", Lines: rules.List[rules.Line]{{Quantity: rules.Said(12 << k), Garment: garments[(i+k)%len(garments)], Fabric: class,
				Colours: rules.List[string]{colour}, Prints: rules.List[rules.Print]{{Place: "front", WidthMM: rules.Said(250.0), Inks: rules.List[string]{"white"}, InkCount: rules.Said(1)}}}}}
			if k == 4 {
				o.Uses, o.Wishes = rules.List[rules.Use]{"children", "athletic"}, rules.List[rules.Wish]{"soft-hand", "durable"}
				o.Lines[0].Prints[0].Effects = rules.List[rules.Effect]{"puff"}
			}
			b, err := rules.Decide(o, rules.Shop{}, rules.Record{Today: "2026-11-25"}).AppendJSON(nil)
			check(t, err)
			plans = append(plans, b)
		}
	}
	return plans
}

// written gathers the phrases that plans share: what stands between braces, the commonest last, where they are found at the least cost.
func written(plans [][]byte) []byte {
	count := map[string]int{}
	for _, p := range plans {
		begin := 0
		for i, c := range p {
			switch c {
			case '{':
				begin = i
			case '}':
				count[string(p[begin:i+1])]++
			}
		}
	}
	list := slices.SortedFunc(maps.Keys(count), func(a, b string) int {
		return cmp.Or(count[a]-count[b], len(a)-len(b), cmp.Compare(a, b))
	})
	var out []byte
	for _, s := range list {
		if count[s] > 1 && len(s) > 40 {
			out = append(out, s...)
			out = append(out, ',')
		}
	}
	out = append(out, plans[0]...)
	const most = 65536 // of s2
	return out[max(0, len(out)-most+64):]
}

// Ensure a plan takes about a tenth of its room, and comes back as it was. The phrases are never written again: packed records hang on them.
func TestPack(t *testing.T) {
	plans := samples(t)
	if *makePhrases {
		if _, err := os.Stat("phrases.dict"); err == nil {
			t.Fatal("phrases.dict stands already: records hang on it. Give another text a mark of its own")
		}
		check(t, os.WriteFile("phrases.dict", written(plans), 0o644))
		return
	}
	in, out := 0, 0
	for _, p := range plans {
		b := pack(p)
		in, out = in+len(p), out+len(b)
		back, err := unpack(b)
		check(t, err)
		if !bytes.Equal(back, p) {
			t.Fatal("a packed plan came back another")
		}
	}
	t.Logf("%d plans: %d bytes each, %d packed", len(plans), in/len(plans), out/len(plans))
	if out*5 > in {
		t.Errorf("%d bytes are packed into %d: the phrases fit no more", in, out)
	}
	if short := []byte(`{"v":2}`); !bytes.Equal(pack(short), short) {
		t.Error("a short record was packed")
	}
}

// Ensure that damage to a packed record is told, and never panics.
func FuzzUnpack(f *testing.F) {
	whole := pack(bytes.Repeat([]byte(`{"rule":"usual-choice","text":"The workhorse"}`), 40))
	f.Add(whole)
	f.Add(whole[:len(whole)/2])
	f.Add([]byte{packed, 0xff, 0xff, 0xff, 0xff, 0x0f})
	f.Add([]byte(`{"v":1}`))
	f.Fuzz(func(t *testing.T, b []byte) {
		got, err := unpack(b)
		if err != nil && !errors.Is(err, job.ErrCorrupt) {
			t.Errorf("error = %v, want ErrCorrupt", err)
		}
		if err == nil && len(b) > 0 && b[0] == packed && len(got) > mostUnpacked {
			t.Errorf("%d bytes came out", len(got))
		}
		if again, err := unpack(pack(b)); len(b) >= leastPack && (err != nil || !bytes.Equal(again, b)) {
			t.Errorf("packed and unpacked: %v", err)
		}
	})
}

func BenchmarkPack(b *testing.B) {
	o := rules.Order{Lines: rules.List[rules.Line]{{Quantity: rules.Said(72), Garment: "t-shirt", Fabric: fibre.TriBlend, Colours: rules.List[string]{"navy"},
		Prints: rules.List[rules.Print]{{Place: "front", Inks: rules.List[string]{"white"}, InkCount: rules.Said(1)}}}}}
	plan, err := json.Marshal(rules.Decide(o, rules.Shop{}, rules.Record{Today: "2026-11-25"}))
	if err != nil {
		b.Fatal(err)
	}
	small := pack(plan)
	for name, f := range map[string]func(){"pack": func() { pack(plan) }, "unpack": func() { _, _ = unpack(small) }} {
		b.Run(fmt.Sprintf("%s %d bytes", name, len(plan)), func(b *testing.B) {
			b.SetBytes(int64(len(plan)))
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
		})
	}
}
