package main

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"playout/internal/reference"
	"playout/model"
)

// free are the parameters to fit; the others are physical or without influence
// on the tables.
var free = []string{
	"HeadRate", "GroundAim", "LoftAim", "Mishit", "LengthError", "LoftError", "FullPower", "FirmPass", "PressureError", "TouchPressure", "TouchHigh", "StealHold", "ClearDeep", "HeaderHold",
	"ChallengeRate", "DuelWon", "DuelLoose", "PutOut", "SeeOut", "FoulByDefence", "FoulByAttack", "RunInto", "AreaHaste",
	"Sharpness", "Stake", "Misjudge", "Unready", "FreeWorth", "ActTime", "GoalSide", "OneTouch", "FirstTime", "Alarm", "HoldShare", "HoldSpread", "Look", "Impatience",
	"HighTaste", "HighPressed", "HighForward", "SwitchTaste", "ForwardTaste", "NearTaste", "LossFear", "CrossTaste", "ShotTaste", "ShotShape", "ShotUrge",
	"CarrySpeed", "DriveOn", "TouchOn", "ShyOff", "JogSpeed", "RunSpeed", "OfferReach", "ComeNear",
	"LineLag", "LineFall", "ZoneReach", "MarkLeash", "TightWithin", "JockeyAt", "PressAt", "CloseSpeed", "PressSpeed", "TravelSpeed", "ShowOff", "FirstLineOff", "GoAlong", "ThreatReach", "StepOut", "DeepTight", "BallTight",
	"EngageRange", "LegsLag", "PullGain", "PressUp", "PressHold", "PressLoyal", "PressLeash",
	"DefenceEdge", "AreaEdge", "AimReaction", "FeetRate", "MeetWithin", "WatchReaction", "SetReaction", "Shield", "ArrivalSpeed", "RestWorth", "Stagger", "BlockChance", "StepUp", "LowCross", "HighDoubt", "HighGain", "AerialGap", "CrossSight", "CounterPress", "LossShape", "GiveGround", "OwnDoubt", "KeepTaste", "KeepTight",
}

// freePress are the levels of pressing of the library's blocks, by tercile: the
// line of engagement (m) and the intensity.
var freePress = []parameter{
	{"high.Height", 87.5, 75, 100, 5}, {"high.Intensity", 0.795, 0.45, 0.95, 0.08},
	{"middle.Height", 85, 60, 85, 5}, {"middle.Intensity", 0.401, 0.25, 0.55, 0.06},
	{"low.Height", 38, 35, 65, 5}, {"low.Intensity", 0.163, 0.05, 0.35, 0.05},
}

// parameter is one dimension of the search.
type parameter struct {
	name          string
	start, lo, hi float64
	span          float64 // half width of a full design
}

func freeParameters() []parameter {
	table := map[string]model.ParamInfo{}
	for _, p := range model.ParamTable() {
		table[p.Name] = p
	}
	var out []parameter
	for _, name := range free {
		p := table[name]
		whole := p.Hi - p.Lo
		span := min(max(0.2*math.Abs(p.Default), 0.05*whole), 0.12*whole)
		out = append(out, parameter{name, p.Default, p.Lo, p.Hi, span})
	}
	return append(out, freePress...)
}

// index is the place of every free parameter, by its name.
func (f *fitter) index() map[string]int {
	index := map[string]int{}
	for k, p := range f.free {
		index[p.name] = k
	}
	return index
}

// choose sets which parameters the designs move: those that -only names, or all. Fewer of
// them leave less of a step to luck.
func (f *fitter) choose() error {
	if f.only == "" {
		for k := range f.free {
			f.moving = append(f.moving, k)
		}
		return nil
	}
	index := f.index()
	for _, name := range strings.Split(f.only, ",") {
		k, ok := index[name]
		if !ok || slices.Contains(f.moving, k) {
			return fmt.Errorf("-only: %q is no free parameter or stands there twice; name those of free.go, each once", name)
		}
		f.moving = append(f.moving, k)
	}
	return nil
}

// params are the engine's constants at a point of the search.
func (f *fitter) params(x []float64) model.Params {
	par := model.DefaultParams()
	for k := range free {
		reflect.ValueOf(&par).Elem().FieldByName(free[k]).SetFloat(x[k])
	}
	return par
}

// blocks sets the pressing of the library's blocks at a point of the search.
func (f *fitter) blocks(x []float64) func(reference.Press, *model.Block) {
	at := x[len(free):]
	return func(p reference.Press, b *model.Block) {
		b.Press.Height, b.Press.Intensity = at[2*int(p)], at[2*int(p)+1]
	}
}

// load reads lines "name value" into x; whatever it cannot use it refuses, with
// the place.
func (f *fitter) load(x []float64) error {
	file, err := os.Open(f.from)
	if err != nil {
		return err
	}
	defer file.Close()
	index := f.index()
	seen := map[string]bool{}
	in := bufio.NewScanner(file)
	for n := 1; in.Scan(); n++ {
		words := strings.Fields(in.Text())
		if len(words) == 0 {
			continue
		}
		at := fmt.Sprintf("%s:%d", f.from, n)
		if len(words) != 2 {
			return fmt.Errorf("%s: %q; write a name and its value, such as Sharpness 0.2", at, in.Text())
		}
		k, ok := index[words[0]]
		if !ok || seen[words[0]] {
			return fmt.Errorf("%s: %s is no free parameter or stands there twice; name those of free.go, each once", at, words[0])
		}
		seen[words[0]] = true
		value, err := strconv.ParseFloat(words[1], 64)
		if p := f.free[k]; err != nil || !(value >= p.lo && value <= p.hi) {
			return fmt.Errorf("%s: %s is %s; give a number from %v to %v", at, words[0], words[1], p.lo, p.hi)
		}
		x[k] = value
	}
	if err := in.Err(); err != nil {
		return fmt.Errorf("%s: %w", f.from, err)
	}
	if len(seen) == 0 {
		return fmt.Errorf("%s: no parameter in it; write lines such as Sharpness 0.2", f.from)
	}
	return nil
}
