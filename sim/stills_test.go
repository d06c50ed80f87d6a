package sim

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A still is a single scene and what the trade says of it: in which order the
// carrier's options come. The orders are common practice, no source, and were
// written down before the engine was asked, except those marked "later"; they
// are tested as order, never as numbers, and for the mirror image as well.
// Everybody is average and plays with both feet, the carrier has had the ball
// for a second and judges without error, and the opponent nearest to him is set
// to block.
type still struct {
	name    string
	ours    string // places of the team on the ball, as "GK -46,0 LB -30,20 ..."; "CF 10,0,6,0" moves at 6 m/s
	theirs  string // the same of the other team, in small letters
	carrier string
	face    r2.Vec // where his body points; zero: forward
	run     string // who is on a run in behind, "" nobody
	order   []order
}

// quantity is what two options are compared by.
type quantity string

const (
	odds   quantity = "log odds" // of choosing it
	chance quantity = "chance"   // of success
	worth  quantity = "worth"    // goals if it comes off
)

// order says that option first comes before option then: its quantity is
// greater. Options are named as in parseOption.
type order struct {
	by          quantity
	first, then string
	in          string // still whose option then is meant; "" this one
	fails       string // why the engine is known to have it the other way round
}

// before says that the carrier takes first rather than then.
func before(first, then string) order { return order{by: odds, first: first, then: then} }

// safer says that first comes off more often than then.
func safer(first, then string) order { return order{by: chance, first: first, then: then} }

// dearer says that first is worth more than then if both come off.
func dearer(first, then string) order { return order{by: worth, first: first, then: then} }

// than takes option then from another still.
func (o order) than(in string) order { o.in = in; return o }

// known marks an order that the engine is known to miss, with the reason. The
// test fails as soon as it is met, so that the mark does not outlive its reason.
func (o order) known(reason string) order { o.fails = reason; return o }

func (o order) String() string {
	s := fmt.Sprintf("%s: %q before %q", o.by, o.first, o.then)
	if o.in != "" {
		s += fmt.Sprintf(" of %q", o.in)
	}
	return s
}

// Why orders are known to be missed.
const (
	length  = "passes pay for every metre (NearTaste), which the lengths of passes in the data ask for; standing and carrying pay nothing"
	feared  = "a loss in the own half is feared by its full price, as losses there ask, and the ball back to the keeper is the safest of all"
	counted = "the ball at one's feet is worth the shot that may follow in full, the shot itself is weighed down (ShotTaste), as the shots from range ask"
	hurried = "beyond his man a dribbler has a moment only, and the final third is worth what there is time for"
	blurred = "a cross is judged coarsely, as the data's completion asks, so a packed box deters too little"
)

func TestStills(t *testing.T) {
	for i := range allStills {
		s := &allStills[i]
		t.Run(s.name, func(t *testing.T) {
			for _, o := range s.order {
				other := s
				if o.in != "" {
					other = stillNamed(t, o.in)
				}
				for _, side := range []float64{1, -1} {
					here, there := s.world(t, side), other.world(t, side)
					a, b := here.best(t, o.first, o.by), there.best(t, o.then, o.by)
					switch met := a > b; {
					case !met && o.fails == "":
						t.Errorf("%v: %.4g and %.4g, side %+g\n%s", o, a, b, side, here.listed())
					case met && o.fails != "":
						t.Errorf("%v: met now, side %+g; take its mark away", o, side)
					}
				}
			}
		})
	}
}

// An offside team-mate is no option; level with the last line he is one. Law 11.
func TestStillOffside(t *testing.T) {
	s := stillNamed(t, "one offside, one level")
	for _, side := range []float64{1, -1} {
		w := s.world(t, side)
		if got := w.best(t, "pass CF", odds); !math.IsInf(got, -1) {
			t.Errorf("a pass to the man offside has log odds %g", got)
		}
		if got := w.best(t, "pass LW", odds); math.IsInf(got, -1) {
			t.Error("no pass to the man level with the last line")
		}
	}
}

var allStills = slices.Concat(wingStills, goalStills, buildUpStills)

func stillNamed(t *testing.T, name string) *still {
	t.Helper()
	i := slices.IndexFunc(allStills, func(s still) bool { return s.name == name })
	if i < 0 {
		t.Fatalf("no still %q", name)
	}
	return &allStills[i]
}
