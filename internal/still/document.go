package still

import (
	"playout/internal/scenario"
	"playout/model"
)

// The types below are the file format; see internal/scenario for what the tags mean.

type document struct {
	Title    *string        `yaml:"title" jsonschema:"maxLength=200"`
	Scenario *string        `yaml:"scenario"`
	Pitch    *pitchDoc      `yaml:"pitch"`
	Ball     *ballDoc       `yaml:"ball" jsonschema:"required"`
	Attack   map[int]manDoc `yaml:"attack" jsonschema:"required"`
	Defence  map[int]manDoc `yaml:"defence" jsonschema:"required"`
}

type pitchDoc struct {
	Length *float64 `yaml:"length" unit:"m"`
	Width  *float64 `yaml:"width" unit:"m"`
}

type ballDoc struct {
	Player *int     `yaml:"player,scalar" jsonschema:"required"`
	Facing *heading `yaml:"facing"`
}

type manDoc struct {
	At       *scenario.Point `yaml:"at,list" jsonschema:"required"`
	Running  *heading        `yaml:"running"`
	Speed    *float64        `yaml:"speed" unit:"m/s"`
	Velocity *scenario.Point `yaml:"velocity" unit:"m/s"`
	Foot     *model.Foot     `yaml:"foot"`
}

// heading is a word or the place that somebody faces or makes for.
type heading struct {
	Way   *way            `yaml:"way,scalar"`
	Place *scenario.Point `yaml:"place,list"`
}

// way is a direction by name.
type way uint8

const (
	toGoal way = iota
	toOwnGoal
	toLeft
	toRight
	toBall
)

// Words are the names of ways in their order.
func (way) Words() []string { return []string{"goal", "own_goal", "left", "right", "ball"} }
