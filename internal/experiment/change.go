package experiment

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode"

	"playout/model"
)

// Change is a part of a scenario in which a variant differs from the reference.
type Change struct {
	Part string   // such as "attack plan"
	What []string // the values in it that differ, such as "tempo 2.8 to 1"; may be empty
}

func (c Change) String() string {
	if len(c.What) == 0 {
		return c.Part
	}
	return c.Part + " (" + strings.Join(c.What, ", ") + ")"
}

// sideWords name the sides in Change.Part.
var sideWords = [2]string{"attack", "defence"}

// Changes lists where scenario b differs from a in what is played: titles and
// names, the seed and the number of possessions are no part of that.
func Changes(a, b *model.Scenario) []Change {
	var out []Change
	add := func(part string, x, y any) {
		if !reflect.DeepEqual(x, y) {
			out = append(out, Change{part, values(reflect.ValueOf(x), reflect.ValueOf(y))})
		}
	}
	add("pitch", a.Pitch, b.Pitch)
	add("start", a.Start, b.Start)
	number := func(part string, x, y float64) {
		if x != y {
			out = append(out, Change{part, []string{fromTo("", x, y)}})
		}
	}
	number("clock", a.Clock, b.Clock)
	number("after_loss", a.AfterLoss, b.AfterLoss)
	for s := range a.Teams {
		x, y := &a.Teams[s], &b.Teams[s]
		side := sideWords[s]
		out = append(out, playerChanges(side, x.Players, y.Players)...)
		add(side+" structure", x.Structure, y.Structure)
		add(side+" plan", x.Plan, y.Plan)
		if (len(x.Runs) > 0 || len(y.Runs) > 0) && !reflect.DeepEqual(x.Runs, y.Runs) {
			out = append(out, Change{Part: side + " runs"})
		}
		add(side+" block", x.Block, y.Block)
	}
	return out
}

// OnlyDefence reports whether all changes are of the side without the ball.
func OnlyDefence(changes []Change) bool {
	for _, c := range changes {
		if !strings.HasPrefix(c.Part, sideWords[model.Defence]+" ") {
			return false
		}
	}
	return len(changes) > 0
}

// playerChanges names the players who differ, by shirt number; names do not play.
func playerChanges(side string, a, b []model.Player) []Change {
	var who []string
	for i := range a {
		x, y := a[i], b[i]
		x.Name, y.Name = "", ""
		if x == y {
			continue
		}
		number := strconv.Itoa(y.Number)
		what := playerValues(&x, &y)
		if what != "" {
			number += " " + what
		}
		who = append(who, number)
	}
	if len(who) == 0 {
		return nil
	}
	return []Change{{side + " players", who}}
}

// playerValues says what changed about a player when it is one quality.
func playerValues(x, y *model.Player) string {
	what := ""
	for a := range model.NumAttributes {
		if x.Percentile[a] == y.Percentile[a] {
			continue
		}
		if what != "" {
			return ""
		}
		what = fromTo(a.String(), x.Percentile[a], y.Percentile[a])
	}
	return what
}

// values lists the numbers that differ between two structs of one type, by the
// names the scenario file has for them; other fields are named only.
func values(x, y reflect.Value) []string {
	var out []string
	for i := range x.NumField() {
		f, g := x.Field(i), y.Field(i)
		if reflect.DeepEqual(f.Interface(), g.Interface()) {
			continue
		}
		name := snake(x.Type().Field(i).Name)
		switch f.Kind() {
		case reflect.Float64:
			out = append(out, fromTo(name, f.Float(), g.Float()))
		case reflect.Struct:
			for _, inner := range values(f, g) {
				out = append(out, name+" "+inner)
			}
		default:
			out = append(out, name)
		}
	}
	return out
}

// fromTo says how a number changes, to four significant digits.
func fromTo(name string, x, y float64) string {
	number := func(x float64) string {
		if math.IsInf(x, 0) {
			return "none"
		}
		return strconv.FormatFloat(x, 'g', 4, 64)
	}
	return strings.TrimSpace(fmt.Sprintf("%s %s to %s", name, number(x), number(y)))
}

// snake turns LineHeight into line_height.
func snake(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) {
			if i > 0 {
				b.WriteByte('_')
			}
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}
