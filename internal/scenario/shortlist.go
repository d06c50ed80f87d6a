package scenario

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"playout/model"
)

// maxCandidates is the longest shortlist.
const maxCandidates = 60

// shortlistKeys are the columns of a shortlist besides the attributes.
var shortlistKeys = []string{"name", "foot", "position", "top_speed", "peak_acceleration"}

// Shortlist reads a CSV file of candidates for the place of one player, given by
// his index in the team. The first line names the columns: name, and any of foot,
// position, top_speed, peak_acceleration and the attributes of scenario files. Each
// further line is a man who plays in that place, with the present player's behaviour:
// whatever his line does not say is as the present player's, so that candidates differ
// by what is known of them. A position says with whom his percentiles compare him. Read
// reads files, as in LoadFrom. The error is an *Error.
func Shortlist(path string, read func(string) ([]byte, error), sc *model.Scenario, side model.Side, index int) ([]model.Player, error) {
	data, err := read(path)
	if err != nil {
		return nil, unread(path, err)
	}
	s := shortlist{src: &source{name: path, text: bytes.TrimPrefix(data, []byte("\ufeff"))}, sc: sc, side: side, index: index}
	if what, mend, at := unreadable(s.src); what != "" {
		s.faults.add(at, "", strings.Replace(what, "YAML", "a table", 1), strings.ReplaceAll(mend, "scenario", "shortlist"))
	} else {
		s.read()
	}
	if err := s.faults.err(nil); err != nil {
		return nil, err
	}
	return s.found, nil
}

// shortlist is one file being read.
type shortlist struct {
	src    *source
	sc     *model.Scenario
	side   model.Side
	index  int
	keys   []*node // of the columns
	found  []model.Player
	faults faults
}

func (s *shortlist) read() {
	r := csv.NewReader(bytes.NewReader(s.src.text))
	r.FieldsPerRecord = -1 // counted below, with a better message
	head, err := r.Read()
	if err != nil {
		s.broken(err)
		return
	}
	s.header(s.cells(r, head))
	if len(s.faults) > 0 {
		return // every line would seem wrong
	}
	seen := map[string]bool{}
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			s.broken(err)
			return
		}
		cells := s.cells(r, record)
		if !slices.ContainsFunc(cells, func(n *node) bool { return n.text != "" }) {
			continue // as spreadsheets write empty lines
		}
		if len(s.found) == maxCandidates {
			s.faults.add(cells[0], "", fmt.Sprintf("more than %d candidates", maxCandidates), "shorten the list")
			return
		}
		s.candidate(cells, seen)
	}
	if len(s.found) == 0 && len(s.faults) == 0 {
		s.faults.add(s.src.end(), "", "nobody is on the list", "add a line for each candidate")
	}
}

// cells are the fields of the line just read, each with its place.
func (s *shortlist) cells(r *csv.Reader, record []string) []*node {
	out := make([]*node, len(record))
	for i, text := range record {
		line, bytecol := r.FieldPos(i)
		out[i] = s.place(line, bytecol)
		out[i].text, out[i].plain = strings.TrimSpace(text), true
	}
	return out
}

// place is a node at a line and a column that counts bytes.
func (s *shortlist) place(line, bytecol int) *node {
	before := s.src.line(line)
	before = before[:min(max(bytecol-1, 0), len(before))]
	return &node{src: s.src, line: line, col: utf8.RuneCountInString(before) + 1}
}

// broken reports what keeps the text from being a table.
func (s *shortlist) broken(err error) {
	var p *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		s.faults.add(s.src.start(), "", "the file is empty", "begin with a line of column names: name,foot,pace")
	case errors.As(err, &p):
		s.faults.add(s.place(p.Line, p.Column), "", "a quote is not closed, or stands inside a cell without quotes",
			`put quotes round the whole cell and double those inside it: "the ""Fox"""`)
	default:
		s.faults.add(s.src.start(), "", "cannot be read: "+clean(err.Error()), "save it as comma-separated values (CSV)")
	}
}

func (s *shortlist) header(cells []*node) {
	known := append(slices.Clone(shortlistKeys), attributeNames...)
	if len(cells) == 1 {
		for sep, what := range map[string]string{";": "semicolons", "\t": "tabs"} {
			if strings.Contains(cells[0].text, sep) {
				s.faults.add(cells[0], "", "the columns are separated by "+what, "separate them by commas, with points for the decimals")
				return
			}
		}
	}
	for i, c := range cells {
		switch {
		case c.text == "" && i > 0 && len(cells) > len(s.keys):
			s.faults.add(c, "", fmt.Sprintf("column %d has no name", i+1), "name it, or take it away")
		case !slices.Contains(known, c.text):
			mend := "the columns are " + strings.Join(known, ", ")
			if near := Nearest(c.text, known); near != "" {
				mend = "did you mean " + near + "?"
			}
			s.faults.add(c, "", "unknown column "+quote(c.text), mend)
		case slices.ContainsFunc(s.keys, func(k *node) bool { return k.text == c.text }):
			s.faults.add(c, "", "column "+c.text+" stands there twice", "take one of them away")
		}
		s.keys = append(s.keys, c)
	}
	if len(s.faults) == 0 && !slices.ContainsFunc(cells, func(n *node) bool { return n.text == "name" }) {
		s.faults.add(cells[0], "", "there is no column name", "add one: a candidate needs a name")
	}
}

// candidate reads one line with the decoder of scenario files, as if it were a player
// of a variant.
func (s *shortlist) candidate(cells []*node, seen map[string]bool) {
	if len(cells) != len(s.keys) {
		s.faults.add(cells[0], "", fmt.Sprintf("%d cells in this line, %d columns in the first", len(cells), len(s.keys)),
			"give every column a cell, if an empty one; put a cell that holds a comma in quotes")
		return
	}
	row := &node{src: s.src, line: cells[0].line, col: cells[0].col, kind: mapping}
	for i, c := range cells {
		if c.text != "" {
			c.key = s.keys[i]
			row.entries = append(row.entries, c)
		}
	}
	name := row.get("name")
	if name == nil {
		s.faults.add(row, "", "a candidate without a name", "fill the column name")
		return
	}
	if seen[name.text] {
		s.faults.add(name, "", quote(name.text)+" is on the list twice", "tell them apart, or take one away")
		return
	}
	seen[name.text] = true
	var doc playerDoc
	d := decoder{faults: &s.faults}
	fields, inline := fieldsOf(reflect.TypeFor[playerDoc]())
	v := reflect.ValueOf(&doc).Elem()
	before := len(s.faults)
	for _, c := range row.entries {
		if i := slices.IndexFunc(fields, func(f field) bool { return f.name == c.key.text }); i >= 0 {
			d.decode(c, c.key.text, v.Field(fields[i].index), fields[i])
		} else {
			d.inline(c, c.key.text, v.Field(inline))
		}
	}
	if len(s.faults) > before {
		return
	}
	p := replaced(s.sc.Teams[s.side].Players[s.index], &doc)
	s.validate(row, p)
	s.found = append(s.found, p)
}

// replaced is the present player with what is known of another man.
func replaced(p model.Player, doc *playerDoc) model.Player {
	set(&p.Name, doc.Name)
	set(&p.Foot, doc.Foot)
	set(&p.Position, doc.Position)
	for a, x := range doc.Percentiles {
		set(&p.Percentile[a], x)
	}
	// The present player's measured values are not those of a man whose percentile is known.
	if doc.Percentiles[model.Pace] != nil {
		p.TopSpeed = 0
	}
	if doc.Percentiles[model.Acceleration] != nil {
		p.PeakAccel = 0
	}
	set(&p.TopSpeed, doc.TopSpeed)
	set(&p.PeakAccel, doc.PeakAccel)
	return p
}

// validate applies the rules of scenarios to the candidate in his place.
func (s *shortlist) validate(row *node, p model.Player) {
	at := fmt.Sprintf("%s.players[%d].", s.side, s.index)
	for _, f := range s.sc.WithPlayer(s.side, s.index, p).Validate() {
		key := strings.TrimPrefix(f.Path, at)
		if n := row.get(key); n != nil {
			s.faults.add(n, "", strings.ReplaceAll(key, "_", " ")+": "+f.What, f.Mend)
		} else {
			s.faults.add(row, "", f.What, f.Mend)
		}
	}
	for _, key := range []string{"top_speed", "peak_acceleration"} { // in the model 0 means "not known"
		if n := row.get(key); n != nil && (key == "top_speed" && p.TopSpeed == 0 || key == "peak_acceleration" && p.PeakAccel == 0) {
			s.faults.add(n, "", strings.ReplaceAll(key, "_", " ")+": nobody's is 0", "leave the cell empty when it is not known")
		}
	}
}
