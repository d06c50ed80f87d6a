package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"runtime"
	"strconv"

	"playout/internal/plain"
	"playout/model"
	"playout/sim"
)

// madeBy marks a directory as an export.
const madeBy = "playout export"

// Caution goes with every export.
const Caution = "Simulated possessions, not observed ones: a model's estimate, to compare ideas with, not a forecast of a match and no record of one."

// Manifest is what an export was made from and what is in it.
type Manifest struct {
	MadeBy          string     `json:"made_by"`
	Data            string     `json:"data"`
	Version         string     `json:"version"`
	Revision        int        `json:"engine_revision"`
	Arch            string     `json:"goarch"`
	Seed            uint64     `json:"seed"`
	Possessions     int        `json:"possessions"`
	Asked           int        `json:"possessions_asked"`
	Filmed          int        `json:"possessions_filmed"`
	FilmedAsked     int        `json:"possessions_filmed_asked"`
	Partial         bool       `json:"partial"`
	TickS           float64    `json:"tick_s"`
	FramesPerSecond int        `json:"frames_per_second"`
	PitchLengthM    float64    `json:"pitch_length_m"`
	PitchWidthM     float64    `json:"pitch_width_m"`
	CDF             string     `json:"common_data_format,omitempty"`
	MatchID         string     `json:"match_id,omitempty"`
	SlotS           int        `json:"slot_s,omitempty"`
	Title           string     `json:"scenario_title"`
	ScenarioSHA256  string     `json:"scenario_sha256"`
	Scenario        string     `json:"scenario"`
	Files           []FileNote `json:"files"`
}

// FileNote is what a manifest says of a file.
type FileNote struct {
	Name        string `json:"name"`
	Says        string `json:"says"`
	Rows        int64  `json:"rows"`
	Possessions int    `json:"possessions"` // it covers the first so many
	Bytes       int64  `json:"bytes"`
	SHA256      string `json:"sha256"`
}

// newManifest is the manifest before anything is played.
func newManifest(sc *model.Scenario, cfg *Config) *Manifest {
	sum := sha256.Sum256(cfg.Scenario)
	asked := sc.Possessions
	if !cfg.tables() {
		asked = cfg.filmed(sc)
	}
	return &Manifest{
		MadeBy: madeBy, Data: Caution, Version: cfg.Version, Revision: sim.Revision, Arch: runtime.GOARCH,
		Seed: sc.Seed, Asked: asked, FilmedAsked: cfg.filmed(sc), TickS: sim.TickSeconds, FramesPerSecond: framesPerSecond,
		PitchLengthM: sc.Pitch.Length, PitchWidthM: sc.Pitch.Width,
		Title: plain.Clean(sc.Title), ScenarioSHA256: hex.EncodeToString(sum[:]), Scenario: string(cfg.Scenario),
	}
}

// notes are what is known of a run before it is played, for the metadata of files.
func (m *Manifest) notes() []note {
	return []note{
		{"data", m.Data}, {"version", m.Version}, {"engine_revision", strconv.Itoa(m.Revision)}, {"goarch", m.Arch},
		{"seed", strconv.FormatUint(m.Seed, 10)}, {"possessions_asked", strconv.Itoa(m.Asked)},
		{"tick_s", strconv.FormatFloat(m.TickS, 'g', -1, 64)},
		{"scenario_title", m.Title}, {"scenario_sha256", m.ScenarioSHA256}, {"scenario", m.Scenario},
	}
}

func (m *Manifest) encode() ([]byte, error) { return indented(m) }

// indented is JSON for people and programs.
func indented(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(v)
	return b.Bytes(), err
}

var errNoExport = errors.New("is no manifest of an export")

func readManifest(path string) (*Manifest, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	m := &Manifest{}
	if err := json.Unmarshal(data, m); err != nil {
		return nil, err
	}
	if m.MadeBy != madeBy {
		return nil, errNoExport
	}
	return m, nil
}
