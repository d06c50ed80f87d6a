package factorial

import "testing"

// TestDesign checks what makes a design a Plackett-Burman one: every column holds
// as many +1 as -1, and any two columns are orthogonal; with its mirror image every
// product of two columns is orthogonal to every column too.
func TestDesign(t *testing.T) {
	for _, k := range []int{1, 13, 16, 17} {
		testFolded(t, k)
	}
}

func testFolded(t *testing.T, k int) {
	t.Helper()
	runs := Design(k, true)
	if want := map[int]int{1: 2, 13: 32, 16: 32, 17: 64}[k]; len(runs) != want {
		t.Fatalf("%d runs for %d factors, want %d", len(runs), k, want)
	}
	for a := range k {
		for b := range k {
			sum, product, triple := 0.0, 0.0, 0.0
			for _, r := range runs {
				sum += r[a]
				product += r[a] * r[b]
				triple += r[a] * r[b] * r[(a+b)%k]
			}
			if sum != 0 || a != b && product != 0 || triple != 0 {
				t.Errorf("columns %d and %d: sum %v, product %v, with a third %v", a, b, sum, product, triple)
			}
		}
	}
}

// Without the mirror image the columns balance and are orthogonal.
func TestPlain(t *testing.T) {
	runs := Design(7, false)
	if len(runs) != 8 {
		t.Fatalf("%d runs", len(runs))
	}
	for a := range 7 {
		for b := range 7 {
			sum, product := 0.0, 0.0
			for _, r := range runs {
				sum += r[a]
				product += r[a] * r[b]
			}
			if sum != 0 || a != b && product != 0 {
				t.Errorf("columns %d and %d: sum %v, product %v", a, b, sum, product)
			}
		}
	}
}
