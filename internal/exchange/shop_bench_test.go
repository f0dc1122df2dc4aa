package exchange

import (
	"fmt"
	"strings"
	"testing"

	"foldwright/internal/ledger"
)

// A rack far larger than any shop's: what reading costs for each set.
func BenchmarkReadShop(b *testing.B) {
	var file strings.Builder
	file.WriteString("shop: Large\nzone: UTC\nclasses: [{name: wide, diameter: 35, length: 700}]\ntools: [{tool: slit, class: wide, left: 8, right: 12}]\nsets:\n")
	const sets = 100_000
	for i := range sets {
		fmt.Fprintf(&file, "- {label: W%d, class: wide, tools: [slit @ %d, slit @ %d], slot: A%d}\n", i, 100+i%100, 300+i%200, i)
	}
	data := []byte(file.String())
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ReadShop("large.yaml", data); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/sets, "ns/set")
}

// A job by itself, as the API reads and writes it.
func BenchmarkWriteJob(b *testing.B) {
	s, err := ReadShop("demo.yaml", read(b, "../demo/shop.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		WriteThing(ledger.OfJob, s.Jobs[7], s)
	}
}

func BenchmarkReadJob(b *testing.B) {
	s, err := ReadShop("demo.yaml", read(b, "../demo/shop.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	text := WriteThing(ledger.OfJob, s.Jobs[7], s)
	for b.Loop() {
		if _, err := ReadThing(ledger.OfJob, text, s); err != nil {
			b.Fatal(err)
		}
	}
}
