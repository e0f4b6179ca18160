package intake

import (
	"strings"
	"testing"
)

// BenchmarkRead reads the request of median length among the cases.
func BenchmarkRead(b *testing.B) {
	c := median(b)
	o := Options{Received: c.Received}
	b.ReportAllocs()
	b.SetBytes(int64(len(c.Text)))
	for b.Loop() {
		Read(c.Text, o)
	}
}

// BenchmarkReadAll reads every request in turn; the time is for one.
func BenchmarkReadAll(b *testing.B) {
	list := cases(b, "orders")
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		c := &list[n%len(list)]
		Read(c.Text, Options{Received: c.Received})
		n++
	}
}

// BenchmarkAmend reads an amendment.
func BenchmarkAmend(b *testing.B) {
	o := Options{Received: "2026-11-25"}
	was := Read("Tin Lantern Cycles - 48 black tees, 100% cotton, FF 2c white + PMS 123, 12x14, need by 1/23", o)
	b.ReportAllocs()
	for b.Loop() {
		Amend(was, "actually make it 60, navy instead", o)
	}
}

// BenchmarkLength shows that time grows with length and no faster.
func BenchmarkLength(b *testing.B) {
	for _, kb := range []int{1, 10, 100} {
		name := map[int]string{1: "1KB", 10: "10KB", 100: "100KB"}[kb]
		b.Run(name, func(b *testing.B) {
			text := long(b, kb<<10)
			o := Options{Received: "2026-11-25"}
			b.ReportAllocs()
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				Read(text, o)
			}
		})
	}
}

// long is real requests one after the other, n bytes of them.
func long(tb testing.TB, n int) string {
	var s strings.Builder
	for s.Len() < n { // as letters without end
		for _, c := range cases(tb, "orders") {
			if strings.Contains(c.Text, ">") || strings.Contains(c.Text, "From:") || strings.Contains(c.Text, "--") {
				continue // what is quoted is not read and would flatter the figure
			}
			s.WriteString(c.Text)
			s.WriteString("\n\n")
		}
	}
	return s.String()[:n]
}

// median is the case whose text is neither longer nor shorter than most.
func median(tb testing.TB) labelled {
	list := cases(tb, "orders")
	for range list {
		for i := 1; i < len(list); i++ {
			if len(list[i].Text) < len(list[i-1].Text) {
				list[i], list[i-1] = list[i-1], list[i]
			}
		}
	}
	return list[len(list)/2]
}
