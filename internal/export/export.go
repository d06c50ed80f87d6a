package export

import (
	"context"
	"errors"
	"runtime"

	"playout/model"
)

// Format is a form that data can be had in.
type Format string

// Formats.
const (
	Parquet Format = "parquet"
	CSV     Format = "csv"
	CDF     Format = "cdf" // Common Data Format
)

// Formats are all of them.
var Formats = []Format{Parquet, CSV, CDF}

// Config says what is exported.
type Config struct {
	Formats  []Format
	Sample   int  // possessions that are filmed, the first ones: for CDF, frames and options
	Frames   bool // table frames
	Options  bool // table options
	Workers  int  // 0: one for each processor
	Progress func(done, of int)
	Version  string // of the program
	Scenario []byte // the scenario as text with every value said, for the manifest

	create func(path string) (file, error) // a test's disk
}

func (cfg *Config) has(f Format) bool {
	for _, g := range cfg.Formats {
		if f == g {
			return true
		}
	}
	return false
}

// tables reports whether there are any.
func (cfg *Config) tables() bool { return cfg.has(Parquet) || cfg.has(CSV) }

// filmed is how many possessions are filmed.
func (cfg *Config) filmed(sc *model.Scenario) int {
	if cfg.has(CDF) || cfg.tables() && (cfg.Frames || cfg.Options) {
		return min(cfg.Sample, sc.Possessions)
	}
	return 0
}

// exporter is an export under way.
type exporter struct {
	sc    *model.Scenario
	cfg   *Config
	stage *stage
	m     *Manifest
	names *roster
	tell  narrator

	players     sheet[playerRow]
	possessions sheet[possessionRow]
	actions     sheet[actionRow]
	frames      sheet[frameRow]
	options     sheet[optionRow]
	cdf         *cdf
}

// Export plays the scenario's possessions and writes them into dir. The scenario
// must be valid. When the context ends first, what is whole is kept, the manifest
// says Partial and the context's error is returned with it; after any other error
// there is no manifest and dir is as it was found.
func Export(ctx context.Context, sc *model.Scenario, dir string, cfg Config) (*Manifest, error) {
	if cfg.Workers <= 0 {
		cfg.Workers = runtime.GOMAXPROCS(0)
	}
	st, err := openStage(dir)
	if err != nil {
		return nil, err
	}
	if cfg.create != nil {
		st.create = cfg.create
	}
	x := &exporter{sc: sc, cfg: &cfg, stage: st, m: newManifest(sc, &cfg), names: newRoster(sc)}
	m, err := x.run(ctx)
	if m == nil {
		st.discard()
	}
	return m, err
}

func (x *exporter) run(ctx context.Context) (*Manifest, error) {
	interrupted := func(err error) bool { return ctx.Err() != nil && errors.Is(err, ctx.Err()) }
	err := x.playTables(ctx)
	cut := err
	if err != nil && !interrupted(err) {
		return nil, err
	}
	if err == nil {
		if err = x.playFilms(ctx); err != nil && !interrupted(err) {
			return nil, err
		}
		cut = err
	}
	if cut != nil && x.m.Possessions == 0 && x.m.Filmed == 0 {
		return nil, cut
	}
	x.m.Partial = cut != nil
	if err := x.seal(); err != nil {
		return nil, err
	}
	return x.m, cut
}

// seal writes what is known only at the end, and gives the files their names.
func (x *exporter) seal() error {
	if x.cdf != nil {
		x.cdf.eventOut.covers, x.cdf.frameOut.covers = x.m.Filmed, x.m.Filmed
		if err := errors.Join(x.object("match.json", "Common Data Format: the match sheet", x.cdf.matchSheet()),
			x.object("meta.json", "Common Data Format: what the match is", x.cdf.meta(x.cfg.Version))); err != nil {
			return err
		}
	}
	for _, o := range x.stage.outputs {
		if err := o.close(); err != nil {
			return x.stage.cannotWrite(err)
		}
		x.m.Files = append(x.m.Files, FileNote{o.name, o.says, o.rows, o.covers, o.bytes, o.digest()})
	}
	o, err := x.stage.output(manifestName, "")
	if err != nil {
		return err
	}
	text, err := x.m.encode()
	if err != nil {
		return err
	}
	if _, err = o.Write(text); err == nil {
		err = o.close()
	}
	if err != nil {
		return x.stage.cannotWrite(err)
	}
	return x.stage.publish()
}

// object writes a file that holds one JSON object.
func (x *exporter) object(name, says string, v object) error {
	o, err := x.stage.output(name, says)
	if err != nil {
		return err
	}
	o.rows, o.covers = 1, x.m.Filmed
	text, err := indented(v)
	if err != nil {
		return err
	}
	if _, err := o.Write(text); err != nil {
		return x.stage.cannotWrite(err)
	}
	return nil
}
