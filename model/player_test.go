package model

import (
	"math"
	"testing"
)

// TestAbility checks percentiles against quantiles of the normal distribution
// (standard tables: the 84.134th percentile lies one standard deviation above
// the mean, the 2.275th two below).
func TestAbility(t *testing.T) {
	p := AveragePlayer(7, RW)
	base := p.Ability()
	for a, sc := range Scales {
		if want := sc.Mean[Forwards]; math.Abs(base.Value[a]-want) > 1e-12 {
			t.Errorf("%v at the 50th percentile: %v, want the mean %v", Attribute(a), base.Value[a], want)
		}
	}
	p.Percentile[Pace], p.Percentile[ShortPassing] = 84.1345, 2.2750
	got := p.Ability()
	if want := Scales[Pace].Mean[Forwards] + Scales[Pace].SD; math.Abs(got.TopSpeed-want) > 1e-4 {
		t.Errorf("pace one sd up: %v m/s, want %v", got.TopSpeed, want)
	}
	if want := Scales[ShortPassing].Mean[Forwards] - 2*Scales[ShortPassing].SD; math.Abs(got.Value[ShortPassing]-want) > 1e-4 {
		t.Errorf("short passing two sd down: %v rad, want %v", got.Value[ShortPassing], want)
	}
	p.TopSpeed = 8.9
	if got := p.Ability().TopSpeed; got != 8.9 {
		t.Errorf("a known top speed of 8.9 m/s became %v", got)
	}
	for _, extreme := range []float64{0, 100} {
		for a := range p.Percentile {
			p.Percentile[a] = extreme
		}
		for a, v := range p.Ability().Value {
			if math.IsInf(v, 0) || math.IsNaN(v) {
				t.Errorf("%v at percentile %v is %v", Attribute(a), extreme, v)
			}
		}
	}
}

// TestParamTable checks that every parameter lies in its admissible range and
// says its unit and source.
func TestParamTable(t *testing.T) {
	for _, p := range ParamTable() {
		if p.Unit == "" || p.Source == "" {
			t.Errorf("%s lacks a unit or a source", p.Name)
		}
		if !(p.Lo <= p.Default && p.Default <= p.Hi) {
			t.Errorf("%s is %v, outside %v to %v", p.Name, p.Default, p.Lo, p.Hi)
		}
	}
}

// A measured value and the percentile it stands for give the same ability.
func TestPercentileOfMeasuredValue(t *testing.T) {
	p := AveragePlayer(7, RW)
	p.TopSpeed, p.PeakAccel = 9.5, 6.0
	before := p.Ability()
	for _, a := range []Attribute{Pace, Acceleration, TakeOn} {
		p.SetPercentile(a, p.PercentileOf(a))
	}
	after := p.Ability()
	if p.TopSpeed != 0 || p.PeakAccel != 0 || math.Abs(after.TopSpeed-before.TopSpeed) > 1e-9 || math.Abs(after.Accel-before.Accel) > 1e-9 {
		t.Errorf("%+v became %+v", before, after)
	}
	if x := p.PercentileOf(TakeOn); x != AveragePercentile {
		t.Errorf("take-on percentile %v", x)
	}
}
