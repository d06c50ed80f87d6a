package scenario

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// measures holds the units that people write behind a number: the unit of the format
// that each is measured in, and how much of that it is.
var measures = map[string]struct {
	base string
	in   float64
}{
	"m": {"m", 1}, "metre": {"m", 1}, "metres": {"m", 1}, "meter": {"m", 1}, "meters": {"m", 1},
	"cm": {"m", 0.01}, "km": {"m", 1000}, "yd": {"m", 0.9144}, "yds": {"m", 0.9144}, "yard": {"m", 0.9144}, "yards": {"m", 0.9144},
	"ft": {"m", 0.3048}, "foot": {"m", 0.3048}, "feet": {"m", 0.3048},
	"s": {"s", 1}, "sec": {"s", 1}, "secs": {"s", 1}, "second": {"s", 1}, "seconds": {"s", 1}, "ms": {"s", 0.001},
	"min": {"s", 60}, "mins": {"s", 60}, "minute": {"s", 60}, "minutes": {"s", 60},
	"m/s": {"m/s", 1}, "mps": {"m/s", 1}, "km/h": {"m/s", 1 / 3.6}, "kmh": {"m/s", 1 / 3.6}, "kph": {"m/s", 1 / 3.6}, "mph": {"m/s", 0.44704},
	"m/s^2": {"m/s^2", 1}, "m/s²": {"m/s^2", 1}, "m/s2": {"m/s^2", 1},
	"percentile": {"percentile", 1}, "times": {"times", 1}, "x": {"times", 1},
}

// base is the unit of a field as a key of measures, "" for a share or a ratio.
func (f field) base() string {
	if strings.Contains(f.unit, " per ") {
		return ""
	}
	word, _, _ := strings.Cut(f.unit, " ")
	return word
}

// ranged reports whether the range of a number is known where it is read.
func (f field) ranged() bool { return f.lo < f.hi }

func (f field) holds(x float64) bool { return !f.ranged() || f.lo <= x && x <= f.hi }

// example is a number that the field can take, if its range is known.
func (f field) example(usual ...float64) string {
	for _, x := range usual {
		if f.ranged() && f.holds(x) {
			return strconv.FormatFloat(x, 'g', -1, 64)
		}
	}
	if f.ranged() {
		return strconv.FormatFloat(f.lo, 'g', -1, 64)
	}
	return "1"
}

// such proposes a number.
func (f field) such() string {
	if f.hi == 1 {
		return "write a number such as 0.5"
	}
	return "write a number such as " + f.example(50, 1, 8, 5, 100)
}

// suchWhole proposes a whole number.
func (f field) suchWhole() string {
	if !f.ranged() {
		return "write a number such as 10"
	}
	return "write a number such as " + f.example(10, 1)
}

// inUnit says how to write a number that came with a unit. The number alone is proposed
// only where it keeps its value.
func (f field) inUnit(number, unit string) string {
	x, err := strconv.ParseFloat(number, 64)
	unit = strings.ToLower(strings.TrimSpace(unit))
	m, known := measures[unit]
	base := f.base()
	switch {
	case err != nil:
	case unit == "%" && base == "percentile", known && m.base == base && m.in == 1:
		return "write the number alone, without a unit: " + clip(number)
	case unit == "%" && f.ranged() && (f.hi == 1 || base == "times") && f.holds(x/100):
		return "write it as a number: " + strconv.FormatFloat(math.Round(x*1e4)/1e6, 'g', -1, 64)
	case known && m.base == base && f.holds(x*m.in):
		return fmt.Sprintf("write the number alone, in %s: %s", base, short(x*m.in))
	}
	if base == "" {
		return strings.Replace(f.such(), "number", "number alone", 1)
	}
	mend := "write a number alone, in " + f.unit
	if f.ranged() {
		mend += fmt.Sprintf(", from %v to %v", f.lo, f.hi)
	}
	return mend
}

// short writes a converted number with as many digits as a scenario needs.
func short(x float64) string {
	if math.Abs(x) < 1 {
		return strconv.FormatFloat(math.Round(x*1000)/1000, 'g', -1, 64)
	}
	return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
}

var grouped = regexp.MustCompile(`^[0-9]{1,3}([,.'’ \x{a0}\x{2009}\x{202f}][0-9]{3})+$`)

// ungroup says how to write a whole number whose digits stand in groups of three, "" for
// another text.
func ungroup(s string) string {
	if !grouped.MatchString(s) {
		return ""
	}
	digits := strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
	if whole, _, _ := strings.Cut(s, "."); whole != s && strings.Count(s, ".") == 1 && len(whole)+3 == len(digits) {
		return "write " + digits + ", or " + whole + " if the point parts decimals"
	}
	return "write the digits without gaps: " + digits
}

// plainDash puts the plain dash for the dashes and the minus of typesetting.
var plainDash = strings.NewReplacer("‐", "-", "‑", "-", "‒", "-", "–", "-", "—", "-", "−", "-")
