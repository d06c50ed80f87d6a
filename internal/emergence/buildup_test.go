package emergence

import "testing"

// Law 4: the keeper who comes up as a spare man between split centre-backs makes
// leaving the own third easier against a first line of two; against one of three,
// less so. Varied: the places of keeper and centre-backs, against a 3-4-3 and then
// against a 4-4-2, which have the same midfield, over 12 s, with the full-backs up the
// pitch throughout. With the centre-backs split in both variants the keeper's coming up is
// worth 0.04 against two and 0.05 against three (revision 10, 16,000 build-ups, standard
// errors 0.005): what is worth less against three is the split.
func TestKeeperSpareMan(t *testing.T) {
	compareEffects(t, [2]string{"04-line-three", "04-spare-three"}, [2]string{"04-line-two", "04-spare-two"}, 32000,
		claim{what: "out of the own third", of: per(exit), says: rises},
	)
}

// Law 5: a wide midfielder who jumps to the wide centre-back leaves the man outside
// him free; one who stays lets the centre-back carry. Varied: the place of number 11
// in the block.
func TestWideMidfielder(t *testing.T) {
	compare(t, "05-stays", "05-jumps", 1200,
		claim{what: "nearest opponent of the wing-back at reception, m", of: receptions(2), says: rises},
		claim{what: "carried by the wide centre-back, m", of: carried(3), says: falls},
	)
}
