package model

import (
	"fmt"
	"strconv"
	"strings"
)

// Shape is the rows of ten outfield players from the last line to the first,
// as in "4-3-3". Two to five rows of one to six players.
type Shape []int

// ParseShape reads a shape. The error says what is wrong with it and how to
// mend it.
func ParseShape(s string) (Shape, error) {
	parts := strings.Split(strings.TrimSpace(s), "-")
	if len(parts) < 2 || len(parts) > 5 {
		return nil, fmt.Errorf("shape %q has %d rows; write two to five rows such as 4-3-3", s, len(parts))
	}
	var shape Shape
	sum := 0
	for _, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil || n < 1 || n > 6 {
			return nil, fmt.Errorf("shape %q: row %q is not a number from 1 to 6; write rows such as 4-3-3", s, part)
		}
		shape = append(shape, n)
		sum += n
	}
	if sum != 10 {
		return nil, fmt.Errorf("shape %q adds up to %d outfield players; the rows must add up to 10", s, sum)
	}
	return shape, nil
}

func (s Shape) String() string {
	parts := make([]string, len(s))
	for i, n := range s {
		parts[i] = strconv.Itoa(n)
	}
	return strings.Join(parts, "-")
}
