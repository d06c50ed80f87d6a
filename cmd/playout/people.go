package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// peopleOptions are the flags of playout people.
type peopleOptions struct {
	experimentOptions
	slot                       whole
	side                       sideFlag
	shortlist, figure, picture string
	allSlots                   bool
}

const (
	// peoplePossessions is how many build-ups each candidate plays when nothing is said.
	peoplePossessions = 4000
	// A profile's variants all tell of every attribute, so each of them needs only a part
	// of the build-ups of a candidate.
	profileShare, allProfileShare = 2, 8
)

func newPeopleCmd() *cobra.Command {
	o := &peopleOptions{experimentOptions: newExperimentOptions(), slot: whole{min: 1, max: 99}}
	cmd := &cobra.Command{
		Use:   "people FILE --slot NUMBER",
		Short: "Put candidates into a place of the team, and say what the place asks for",
		Long: `People plays the scenario with each candidate of a shortlist in the place of one
player, all with the same luck, and ranks them against the man who has the place.
Candidates that cannot be told apart share places.

It also says what the place asks for: what ten percentiles more of each attribute
of the man would change, and another strong foot. --all-slots asks that of all
eleven places. Without --shortlist it says only this.

The shortlist is a table (CSV, commas): the first line names the columns, name and
any of foot, position, top_speed (m/s), peak_acceleration (m/s^2) and the
attributes of scenario files as percentiles; then a line for each candidate. What
a line does not say is taken from the man who has the place. A position says with
whom the percentiles compare a candidate; he plays where the place is.

The candidates are ranked by xG for minus xG against (--figure net_xg); final
third entries are shown beside it.

Ctrl-C stops and prints the answer so far, marked PARTIAL, or puts it into the
file of --output. Exit status: 0 whole answer, 1 no answer, 2 wrong use, 130
partial answer.`,
		Example: `  playout people plan.yaml --slot 7 --shortlist players.csv
  playout people plan.yaml --slot 7 --figure box
  playout people plan.yaml --slot 6 --side defence --all-slots --format csv`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.people(cmd, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(&o.slot, "slot", "shirt number of the man who has the place")
	f.Var(&o.side, "side", "his team: attack or defence")
	f.StringVar(&o.shortlist, "shortlist", "", "candidates: a `file` of comma-separated values")
	f.BoolVar(&o.allSlots, "all-slots", false, "ask of every place what it asks for")
	f.StringVar(&o.figure, "figure", "net_xg", "the `name` of the figure that ranks (playout help metrics)")
	o.addTo(cmd, fmt.Sprintf("build-ups of each candidate (default: %d); a variant of the profile plays a part of it", peoplePossessions))
	addPicture(cmd, &o.picture)
	return keepsParts(cmd, cellsDepend)
}

// sideFlag is a flag that takes a team.
type sideFlag model.Side

func (f *sideFlag) Set(s string) error {
	for _, side := range []model.Side{model.Attack, model.Defence} {
		if s == side.String() {
			*f = sideFlag(side)
			return nil
		}
	}
	return errors.New("give attack or defence")
}

func (f *sideFlag) String() string { return model.Side(*f).String() }

func (f *sideFlag) Type() string { return "team" }

func (o *peopleOptions) people(cmd *cobra.Command, file string) error {
	r, err := o.question(cmd, file)
	if err != nil {
		return err
	}
	cells := r.cells()
	profile := experiment.ProfileCells(r.Scenario, r.Side, r.Traits)
	r.Played.Variants, r.Profile.Variants = len(cells), len(profile)
	if err := checkSize(len(cells)+len(profile), int(r.Played.Asked)); err != nil {
		return err
	}
	s := sessionOf(cmd)
	if o.shortlist != "" && o.output != "" && sameTarget(o.shortlist, o.output) {
		return usagef("--output is %q, from which the shortlist is read; name another file", o.output)
	}
	if err := prepareOutput(cmd, &o.output, s.files()); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, s.files()); err != nil {
		return err
	}
	if err := o.play(cmd, r, cells, profile); err != nil {
		return err
	}
	answer := report.NewPeople(r.PeopleRun)
	var text bytes.Buffer
	if err := answer.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	if err := drawTo(o.picture, answer.Picture()); err != nil {
		return err
	}
	if err := deliver(cmd, o.output, text.Bytes()); err != nil {
		return err
	}
	if r.Played.Partial || r.Profile.Partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}

// question is what is asked: the place, the candidates and the traits.
type question struct{ report.PeopleRun }

func (o *peopleOptions) question(cmd *cobra.Command, file string) (*question, error) {
	if !o.slot.set {
		return nil, usagef("--slot is missing: the shirt number of the man whose place it is, such as --slot 7")
	}
	figure, err := judged(o.figure)
	if err != nil {
		return nil, err
	}
	beside, err := experiment.FigureNamed("final_third")
	if figure.Name == beside.Name {
		beside, err = experiment.FigureNamed("net_xg")
	}
	if err != nil {
		return nil, err
	}
	s := sessionOf(cmd)
	sc, err := s.scenario(file)
	if err != nil {
		return nil, err
	}
	r := &question{report.PeopleRun{Scenario: sc, Side: model.Side(o.side), Figures: [2]experiment.Figure{figure, beside}}}
	team := &sc.Teams[r.Side]
	if r.Index = team.ByNumber(int(o.slot.value)); r.Index < 0 {
		return nil, usagef("--slot is %d, but the numbers of the %s are %s", o.slot.value, r.Side, numbers(team))
	}
	now := team.Players[r.Index]
	r.People = []model.Player{now}
	if o.shortlist != "" {
		found, err := scenario.Shortlist(o.shortlist, s.read, sc, r.Side, r.Index)
		if err != nil {
			return nil, err
		}
		r.People = append(r.People, found...)
	} else if cmd.Flags().Changed("shortlist") {
		return nil, usagef("--shortlist names no file; leave it out to ask only what the place asks for")
	}
	for foot := range model.NumFeet {
		if foot != now.Foot {
			r.Feet = append(r.Feet, foot)
		}
	}
	places := []int{r.Index}
	share := profileShare
	if o.allSlots {
		places, share = nil, allProfileShare
		for i := range team.Players {
			places = append(places, i)
		}
	}
	r.Traits = experiment.Traits(team, places)
	r.Played = report.Played{Seed: sc.Seed, Asked: peoplePossessions, Version: version(), Revision: sim.Revision}
	if o.seed.set {
		r.Played.Seed = o.seed.value
	}
	if o.possessions.set {
		r.Played.Asked = int64(o.possessions.value)
	}
	r.Profile = r.Played
	r.Profile.Asked = max(r.Played.Asked/int64(share), 2)
	return r, nil
}

// numbers lists the shirt numbers of a team.
func numbers(t *model.Team) string {
	var out []string
	for _, p := range t.Players {
		out = append(out, strconv.Itoa(p.Number))
	}
	return strings.Join(out, ", ")
}

// cells are the man who has the place, the candidates, and him with other feet.
func (r *question) cells() []experiment.Cell {
	var cells []experiment.Cell
	for _, p := range r.People {
		cells = append(cells, experiment.Cell{Name: p.Name, Scenario: r.Scenario.WithPlayer(r.Side, r.Index, p)})
	}
	for _, foot := range r.Feet {
		p := r.People[0]
		p.Foot = foot
		cells = append(cells, experiment.Cell{Name: "foot: " + foot.String(), Scenario: r.Scenario.WithPlayer(r.Side, r.Index, p)})
	}
	return cells
}

// play plays the candidates, then the profile, under one progress line. When it is cut
// short there, the candidates are whole.
func (o *peopleOptions) play(cmd *cobra.Command, r *question, cells, profile []experiment.Cell) error {
	s := sessionOf(cmd)
	first := len(cells) * int(r.Played.Asked)
	of := first + len(profile)*int(r.Profile.Asked)
	var rest *experiment.Results
	results, err := o.playing(cmd, func(ctx context.Context, progress func(done, of int)) (*experiment.Results, error) {
		part := func(before int) func(done, of int) {
			if progress == nil {
				return nil
			}
			return func(done, _ int) { progress(before+done, of) }
		}
		cfg := experiment.Config{Seed: r.Played.Seed, Possessions: int(r.Played.Asked), Workers: int(o.workers.value), Progress: part(0)}
		results, err := s.play(ctx, cells, cfg)
		if err != nil {
			return results, err
		}
		cfg.Possessions, cfg.Progress = int(r.Profile.Asked), part(first)
		rest, err = s.play(ctx, profile, cfg)
		return results, err
	})
	if err != nil {
		return err
	}
	r.Played.Possessions, r.Played.Partial = int64(results.Paired()), !results.Complete()
	r.Cells = func(i int) []experiment.Outcome { return results.Outcomes(i)[:results.Paired()] }
	r.Profile.Partial = rest == nil || !rest.Complete()
	if rest != nil {
		r.Profile.Possessions = int64(rest.Paired())
		for i := range profile {
			r.Runs = append(r.Runs, rest.Outcomes(i)[:rest.Paired()])
		}
	}
	return nil
}
