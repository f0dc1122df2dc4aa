package settings

import "testing"

// BenchmarkSettings is one whole question: fold the sheet of a 16-page section with a perforation and a score, try every
// feed, turn and choice of plates on three units, and write the best way out.
func BenchmarkSettings(b *testing.B) {
	j, folded := docket(b, 860*mm, 610*mm, "up 1/2, left, up 1/2, left, up 1/2", "perforate fold 2", "score fold 3 with 0.7 mm")
	f, h := combination(), house()
	b.ReportAllocs()
	for b.Loop() {
		again, err := j.Scheme.Apply(folded.Sheet)
		if err != nil {
			b.Fatal(err)
		}
		if _, miss := Best(j, again, f, h); miss != nil {
			b.Fatal(miss.Why())
		}
	}
	b.ReportMetric(60/b.Elapsed().Seconds()*float64(b.N), "settings/min")
}

// BenchmarkAllWays writes every way out instead.
func BenchmarkAllWays(b *testing.B) {
	j, folded := docket(b, 860*mm, 610*mm, "up 1/2, left, up 1/2, left, up 1/2", "perforate fold 2", "score fold 3 with 0.7 mm")
	f, h := combination(), house()
	b.ReportAllocs()
	for b.Loop() {
		ways, miss := Ways(j, folded, f, h)
		if miss != nil || len(ways) == 0 {
			b.Fatal(miss)
		}
	}
}

// BenchmarkMiss is a job that no way fits, with the second walk for the nearest miss.
func BenchmarkMiss(b *testing.B) {
	j, folded := docket(b, 860*mm, 610*mm, "up 1/2, left, up 1/2, left, down 1/2, left, up 1/2")
	f, h := combination(), house()
	b.ReportAllocs()
	for b.Loop() {
		if _, miss := Best(j, folded, f, h); miss == nil {
			b.Fatal("it can")
		}
	}
}
