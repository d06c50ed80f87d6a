package experiment

import (
	"testing"
)

func BenchmarkKey(b *testing.B) {
	c := pair()[0]
	for b.Loop() {
		if _, err := keyOf(c, 1); err != nil {
			b.Fatal(err)
		}
	}
}
