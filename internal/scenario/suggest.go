package scenario

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"playout/model"
	"playout/scenarios"
)

// Nearest returns the candidate that word was probably meant to be, or "". At
// most a third of its characters may be wrong.
func Nearest(word string, candidates []string) string {
	if len(word) > clipWidth {
		return ""
	}
	best, least := "", max(1, len(word)/3)+1
	for _, c := range candidates {
		if d := distance(plainForm(word), plainForm(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// plainForm takes away what people mix up: case, and dashes and spaces for
// underscores.
func plainForm(s string) string {
	return underscored.Replace(plainDash.Replace(strings.ToLower(s)))
}

var underscored = strings.NewReplacer("-", "_", " ", "_")

// distance counts the letters to insert, delete, replace or swap with their
// neighbour to turn a into b (optimal string alignment).
func distance(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

// akin are words for what the format calls otherwise.
var akin = map[string]string{
	"goalkeeper": model.FromKeeper.String(), "gk": model.FromKeeper.String(), "goalie": model.FromKeeper.String(),
	"cb": model.FromCentreBack.String(), "defender": model.FromCentreBack.String(),
}

// inKeys says how to write a mapping of type t for which a word, a number or a list
// stands whose key is plain to see, "" where it is not.
func inKeys(n *node, t reflect.Type) string {
	word := n
	if n.kind == list && len(n.items) == 1 {
		word = n.items[0]
	}
	if n.key == nil || word.kind != scalar || word.null || word.text == "" || len(word.text) > clipWidth {
		return ""
	}
	write := func(key, value string) string {
		return fmt.Sprintf("write %s: {%s: %s}", clip(n.key.text), key, clip(value))
	}
	text := plainDash.Replace(word.text)
	rows := strings.Contains(text, "-") && strings.Trim(text, "-0123456789") == ""
	switch t {
	case reflect.TypeFor[startDoc]():
		known := vocabulary[reflect.TypeFor[model.StartKind]()]
		if near := nearWord(text, known); near != "" {
			return write("from", near)
		}
	case reflect.TypeFor[teamDoc]():
		if near := Nearest(text, scenarios.BlockNames()); near != "" {
			return write("block", near)
		}
		if word.number && isDecimal(text) {
			return write("level", text)
		}
	case reflect.TypeFor[structureDoc]():
		if rows {
			return write(model.BuildUp.String(), text)
		}
	}
	return ""
}

// nearWord is the word of a list that another was probably meant to be, or "".
func nearWord(word string, known []string) string {
	if other := akin[plainForm(word)]; slices.Contains(known, other) {
		return other
	}
	return Nearest(word, known)
}

// mendKey says what to do about an unknown key among the known ones: a near
// word, the place where the key belongs, or the list of what there is.
func (d *decoder) mendKey(key string, known []string, path string) string {
	home, elsewhere := d.homes[key]
	switch {
	case elsewhere && home == "":
		return key + " belongs at the top of the file, without indentation"
	case elsewhere:
		// A block at the top is most likely the opponent's.
		ofBlock := key == "block" || strings.HasPrefix(home, "attack, block")
		if strings.HasPrefix(path, model.Defence.String()) || path == "" && ofBlock {
			home = strings.Replace(home, model.Attack.String(), model.Defence.String(), 1)
		}
		return key + " belongs in " + home + "; check the indentation"
	}
	if near := Nearest(key, known); near != "" {
		return "did you mean " + near + "?"
	}
	return "the keys here are " + strings.Join(known, ", ")
}

// homesOf maps every key of a format to the first place it belongs in.
func homesOf(t reflect.Type) map[string]string {
	if t != reflect.TypeFor[document]() {
		out := map[string]string{}
		home(t, "", out)
		return out
	}
	return scenarioHomes()
}

var scenarioHomes = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	home(reflect.TypeFor[document](), "", out)
	for _, name := range attributeNames {
		out[name] = "a player"
	}
	return out
})

func home(t reflect.Type, at string, out map[string]string) {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return
	}
	fields, _ := fieldsOf(t)
	for _, f := range fields {
		if _, seen := out[f.name]; !seen {
			out[f.name] = at
		}
		home(f.typ, strings.TrimPrefix(at+", "+f.name, ", "), out)
	}
}
