package emergence

import "testing"

// Law 5: a wide midfielder who jumps to the wide centre-back leaves the man outside
// him free; one who stays lets the centre-back carry. Varied: the place of number 11
// in the block.
func TestWideMidfielder(t *testing.T) {
	compare(t, "05-stays", "05-jumps", 1200,
		claim{what: "nearest opponent of the wing-back at reception, m", of: receptions(2), says: rises},
		claim{what: "carried by the wide centre-back, m", of: carried(3), says: falls},
	)
}
