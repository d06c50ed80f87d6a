package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"playout/internal/export"
	"playout/internal/plain"
	"playout/internal/scenario"
	"playout/model"
)

// exportSample is how many possessions are filmed when it is not said.
const exportSample = 100

// exportOptions are the flags of playout export.
type exportOptions struct {
	possessions, seed, workers, sample whole
	to                                 string
	formats                            exportFormats
	frames, options, quiet             bool
}

func newExportCmd() *cobra.Command {
	o := &exportOptions{
		possessions: whole{min: 1, max: model.MaxPossessions},
		seed:        whole{max: math.MaxUint64},
		workers:     whole{min: 1, max: maxWorkers},
		sample:      whole{min: 1, max: model.MaxPossessions, value: exportSample},
		formats:     exportFormats{list: []export.Format{export.Parquet}},
	}
	cmd := &cobra.Command{
		Use:   "export FILE --to DIR",
		Short: "Write build-ups as data for notebooks: Parquet, CSV, Common Data Format",
		Long: `Export plays the scenario in FILE ("-": standard input) and writes its build-ups
into a directory: one row for each, one for each action on the ball, and on
request where everybody was at every tenth of a second (--frames) and what the
carrier could have done (--options) in the first --sample of them. --format cdf
writes events and frames of that sample in the Common Data Format.

The directory may hold an earlier export, which is replaced, and nothing else. The
same scenario, seed and version give the same bytes with any number of workers.
Memory does not grow with the number of build-ups.

Ctrl-C keeps the build-ups that are whole; the manifest then says partial, and the
exit status is 130. After any other failure nothing is written.

Every file and column: playout help data.`,
		Example: `  playout export plan.yaml --to data
  playout export plan.yaml --to data --format parquet,csv --possessions 1000
  playout export plan.yaml --to data --frames --options --sample 20
  playout export plan.yaml --to match --format cdf --sample 50`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.to, "to", "", "write into this `directory`; it is made if there is none")
	f.Var(&o.formats, "format", "one or several of "+exportFormatNames()+" (default parquet)")
	f.Var(&o.possessions, "possessions", "build-ups to play (default: the file's)")
	f.Var(&o.sample, "sample", fmt.Sprintf("film the first so many: for cdf, --frames, --options (default %d)", exportSample))
	f.BoolVar(&o.frames, "frames", false, "a table of where everybody was at every tick of the sample")
	f.BoolVar(&o.options, "options", false, "a table of what the carrier could do at every decision of the sample")
	f.Var(&o.seed, "seed", "names the luck (default: the file's)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
	return cmd
}

func (o *exportOptions) run(cmd *cobra.Command, file string) error {
	if o.to == "" {
		return usagef("give the directory to write into: --to DIR")
	}
	if (o.frames || o.options) && !o.formats.tables() {
		return usagef("--frames and --options are tables, and --format cdf alone has none; give --format cdf,parquet")
	}
	sc, _, err := scenario.LoadFiles(file)
	if err != nil {
		return err
	}
	if o.possessions.set {
		sc.Possessions = int(o.possessions.value)
	}
	if o.seed.set {
		sc.Seed = o.seed.value
	}
	text, err := scenario.Canonical(sc)
	if err != nil {
		return err
	}
	cfg := export.Config{
		Formats: o.formats.list, Sample: int(o.sample.value), Frames: o.frames, Options: o.options,
		Workers: int(o.workers.value), Version: version(), Scenario: text,
	}
	m, err := o.export(cmd, sc, cfg)
	if m == nil {
		return err
	}
	if failed := writeExported(cmd.OutOrStdout(), sc, o.to, m); failed != nil {
		return failed
	}
	return err
}

// export exports with a progress line until it is done or cut short.
func (o *exportOptions) export(cmd *cobra.Command, sc *model.Scenario, cfg export.Config) (*export.Manifest, error) {
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	cfg.Progress = show
	m, err := export.Export(ctx, sc, o.to, cfg)
	switch {
	case err == nil:
		return m, nil
	case ctx.Err() == nil || !errors.Is(err, context.Cause(ctx)) && !errors.Is(err, ctx.Err()):
		return nil, err
	case m == nil:
		return nil, fmt.Errorf("%w before the first build-up was over; nothing was written", errInterrupted)
	}
	return m, fmt.Errorf("%w: the export is partial", errInterrupted)
}

// writeExported lists what was written.
func writeExported(w io.Writer, sc *model.Scenario, dir string, m *export.Manifest) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%d build-ups are in %s", plain.Clean(sc.Title), m.Possessions, plain.Clean(dir))
	if m.FilmedAsked > 0 {
		fmt.Fprintf(&b, ", the first %d of them filmed", m.Filmed)
	}
	b.WriteString(".\n")
	if m.Partial {
		fmt.Fprintf(&b, "PARTIAL: interrupted; %d build-ups were asked for, %d of them filmed.\n", m.Asked, m.FilmedAsked)
	}
	b.WriteString("\n")
	table := tabwriter.NewWriter(&b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(table, "  rows\tkB\t\n")
	for _, f := range m.Files {
		fmt.Fprintf(table, "%d\t%d\t  %s\n", f.Rows, (f.Bytes+999)/1000, f.Name)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(&b, "\nRun: seed %d, version %s, engine revision %d, %s. Columns: playout help data.\n", m.Seed, m.Version, m.Revision, m.Arch)
	for _, line := range plain.Wrap(export.Caution, 80) {
		b.WriteString(line + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// exportFormats is a flag that takes a list of formats.
type exportFormats struct{ list []export.Format }

func (f *exportFormats) Set(s string) error {
	f.list = nil
	for _, name := range strings.Split(s, ",") {
		found := false
		for _, known := range export.Formats {
			found = found || name == string(known)
		}
		if !found {
			return fmt.Errorf("give one or several of %s, such as parquet,cdf", exportFormatNames())
		}
		f.list = append(f.list, export.Format(name))
	}
	return nil
}

func (f *exportFormats) tables() bool {
	for _, g := range f.list {
		if g != export.CDF {
			return true
		}
	}
	return false
}

func (f *exportFormats) String() string { return "" }

func (f *exportFormats) Type() string { return "names" }

func exportFormatNames() string {
	names := make([]string, len(export.Formats))
	for i, f := range export.Formats {
		names[i] = string(f)
	}
	return strings.Join(names, ", ")
}
