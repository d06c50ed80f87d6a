package main

import (
	"errors"
	"fmt"
	"strconv"
)

// whole is a flag that takes a whole number from min to max.
type whole struct {
	value    uint64
	set      bool // given on the command line
	min, max uint64
}

func (f *whole) Set(s string) error {
	x, err := strconv.ParseUint(s, 10, 64)
	if err != nil || x < f.min || x > f.max {
		return fmt.Errorf("give a whole number from %d to %d", f.min, f.max)
	}
	f.value, f.set = x, true
	return nil
}

func (f *whole) String() string {
	if !f.set {
		return ""
	}
	return strconv.FormatUint(f.value, 10)
}

func (f *whole) Type() string { return "number" }

// halfWidth is a flag that takes the half-width of an interval of a share; 0
// when it is not given.
type halfWidth float64

func (f *halfWidth) Set(s string) error {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || !(x > 0 && x < 0.5) { // also refuses NaN
		return errors.New("give a share above 0 and below 0.5, such as 0.01 for one build-up in 100")
	}
	*f = halfWidth(x)
	return nil
}

func (f *halfWidth) String() string {
	if *f == 0 {
		return ""
	}
	return strconv.FormatFloat(float64(*f), 'g', -1, 64)
}

func (f *halfWidth) Type() string { return "share" }
