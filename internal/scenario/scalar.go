package scenario

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"playout/model"
)

// number reads a finite decimal number.
func (d *decoder) number(n *node, path string, f field) (float64, bool) {
	if n.kind == broken {
		return 0, false
	}
	if n.kind != scalar || n.null {
		return 0, d.wrong(n, path, "needs a number, not "+n.describe(), f.such())
	}
	if n.plain && isDecimal(n.text) {
		x, err := strconv.ParseFloat(n.text, 64)
		if err == nil {
			return x, true
		}
		if errors.Is(err, strconv.ErrRange) {
			return 0, d.wrong(n, path, quote(n.text)+" is far too large", "write an ordinary number")
		}
	}
	return 0, d.wrong(n, path, quote(n.text)+" is not a number", mendNumber(n, f))
}

// isDecimal reports whether s is made of the characters of decimal numbers
// only: strconv also takes hexadecimals, infinities and underscores.
func isDecimal(s string) bool { return s != "" && strings.Trim(s, "+-.0123456789eE") == "" }

// mendNumber guesses what kept a text from being a number.
func mendNumber(n *node, f field) string {
	typed := strings.TrimSpace(n.text)
	s := plainDash.Replace(typed)
	lead := s[:len(s)-len(strings.TrimLeft(s, "+-.0123456789"))]
	_, err := strconv.ParseFloat(lead, 64)
	switch {
	case !n.plain && isDecimal(s):
		return "take the quotes away: " + clip(s)
	case s != typed && isDecimal(s):
		return "write the minus as the plain -: " + clip(s)
	case strings.Contains(strings.ToLower(s), "nan") || strings.Contains(strings.ToLower(s), "inf"):
		return "write an ordinary number"
	case strings.Count(s, ",") == 1 && isDecimal(strings.Replace(s, ",", ".", 1)):
		return afterPoint(strings.Replace(s, ",", ".", 1))
	case strings.Contains(s, "_") && isDecimal(strings.ReplaceAll(s, "_", "")):
		return "write the digits without underscores: " + clip(strings.ReplaceAll(s, "_", ""))
	case err == nil && !strings.ContainsAny(strings.TrimSuffix(s[len(lead):], "2"), "0123456789"):
		return f.inUnit(lead, s[len(lead):])
	}
	return f.such()
}

// whole reads a whole number. A leading zero is refused: YAML readers do not
// agree on what it means.
func (d *decoder) whole(n *node, path string, f field) (int, bool) {
	if n.kind == broken {
		return 0, false
	}
	if n.kind != scalar || n.null {
		return 0, d.wrong(n, path, "needs a whole number, not "+n.describe(), f.suchWhole())
	}
	x, err := strconv.Atoi(n.text)
	switch {
	case !n.plain || err != nil:
		return 0, d.wrong(n, path, quote(n.text)+" is not a whole number", mendWhole(n, err, f))
	case strconv.Itoa(x) != n.text:
		return 0, d.wrong(n, path, quote(n.text)+" begins with a sign or a zero", fmt.Sprintf("write %d", x))
	}
	return x, true
}

func mendWhole(n *node, err error, f field) string {
	if mend := ungroup(n.text); mend != "" && n.plain {
		return mend
	}
	if errors.Is(err, strconv.ErrRange) {
		return "it is far too large"
	}
	if x, err := strconv.ParseFloat(n.text, 64); err == nil && n.plain && isDecimal(n.text) && x == float64(int32(x)) {
		return fmt.Sprintf("write %d", int32(x))
	} else if err == nil && n.plain && isDecimal(n.text) {
		return "leave the decimals out"
	}
	if mend := mendNumber(n, f); mend != f.such() {
		return mend
	}
	return f.suchWhole()
}

// seed reads a whole number from 0 to 2^64 - 1.
func (d *decoder) seed(n *node, path string, v reflect.Value) bool {
	if n.kind == scalar && n.plain {
		if x, err := strconv.ParseUint(n.text, 10, 64); err == nil && (n.text == "0" || n.text[0] != '0') {
			v.SetUint(x)
			return true
		}
	}
	mend := "write a number such as 1"
	if n.kind == scalar && n.plain && ungroup(n.text) != "" {
		mend = ungroup(n.text)
	}
	return d.wrong(n, path, "needs a whole number from 0, not "+n.describe(), mend)
}

// text reads a name or title. Characters that do not print are refused, save
// the two joiners that some scripts need inside words.
func (d *decoder) text(n *node, path string, v reflect.Value, f field) bool {
	const nonJoiner, joiner = 0x200c, 0x200d
	switch {
	case n.kind != scalar:
		return d.wrong(n, path, "needs text, not "+n.describe(), "write it on one line, in quotes where it holds : or #")
	case n.number:
		return d.wrong(n, path, clip(n.text)+" is not read as text", "put it in quotes: "+strconv.Quote(clip(n.text)))
	case f.maxRunes > 0 && utf8.RuneCountInString(n.text) > f.maxRunes:
		return d.wrong(n, path, fmt.Sprintf("is longer than %d characters", f.maxRunes), "shorten it")
	}
	for _, r := range n.text {
		if !unicode.IsPrint(r) && r != nonJoiner && r != joiner {
			return d.wrong(n, path, fmt.Sprintf("holds %U, a character that does not print", r), "delete it; keep the text on one line")
		}
	}
	v.SetString(n.text)
	return true
}

// word reads one of a list of words.
func (d *decoder) word(n *node, path string, v reflect.Value, known []string) bool {
	if n.kind != scalar || n.null {
		return d.wrong(n, path, "needs a word, not "+n.describe(), "write one of "+strings.Join(known, ", "))
	}
	if i := slices.Index(known, n.text); i >= 0 {
		v.SetUint(uint64(i))
		return true
	}
	mend := "write one of " + strings.Join(known, ", ")
	if near := nearWord(n.text, known); near != "" {
		mend = "did you mean " + near + "?"
	}
	return d.wrong(n, path, "unknown word "+quote(n.text), mend)
}

// shape reads rows such as 4-3-3.
func (d *decoder) shape(n *node, path string, shape *model.Shape) bool {
	if n.kind != scalar || n.null {
		return d.wrong(n, path, "needs a shape, not "+n.describe(), "write rows from the last line to the first, such as 4-3-3")
	}
	if utf8.RuneCountInString(n.text) > clipWidth {
		return d.wrong(n, path, quote(n.text)+" is not a shape", "write rows from the last line to the first, such as 4-3-3")
	}
	s, err := model.ParseShape(n.text)
	if plain := plainDash.Replace(n.text); err != nil && plain != n.text {
		return d.wrong(n, path, quote(n.text)+" has a dash of typesetting", "write it with the plain -: "+clip(plain))
	}
	if err != nil {
		what, mend, _ := strings.Cut(err.Error(), "; ")
		return d.wrong(n, path, what, mend)
	}
	*shape = s
	return true
}

// point reads [x, y].
func (d *decoder) point(n *node, path string, p *point, f field) bool {
	mend := "write [x, y] in metres from the centre spot, x towards the goal attacked, y to the left"
	if meant := pointOf(n); meant != "" {
		mend = "write " + meant
	}
	if n.kind != list {
		return d.wrong(n, path, "needs a place, not "+n.describe(), mend)
	}
	if len(n.items) != len(p) {
		return d.wrong(n, path, fmt.Sprintf("a place is 2 numbers, not %d", len(n.items)), mend)
	}
	part := field{unit: f.unit} // a range is that of a number
	if part.unit == "" {
		part.unit = "m"
	}
	ok := true
	for i, item := range n.items {
		x, fine := d.number(item, path, part)
		p[i], ok = x, ok && fine
	}
	return ok
}

// behaviour reads a word, {pin: last_line} or {pin: 5}.
func (d *decoder) behaviour(n *node, path string, b *behaviour) bool {
	if n.kind != mapping {
		return d.decode(n, path, reflect.ValueOf(&b.Kind).Elem(), field{})
	}
	pin := n.get(model.Pin.String())
	if pin == nil || len(n.entries) != 1 {
		return d.wrong(n, path, "is not a behaviour", "write a word, or {pin: last_line}, {pin: midfield_line} or {pin: 5} (an opponent)")
	}
	b.Kind = model.Pin
	if pin.kind == scalar && pin.number && !pin.null {
		number, ok := d.whole(pin, path+".pin", field{})
		b.Opponent = number
		return ok
	}
	return d.decode(pin, path+".pin", reflect.ValueOf(&b.Line).Elem(), field{})
}
