package reference

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
)

//go:embed data/*.csv
var data embed.FS

// rows reads a table: its header line and the rows as maps from column to cell.
func rows(name string) []map[string]string {
	f, err := data.Open("data/" + name + ".csv")
	if err != nil {
		panic(fmt.Sprintf("reference: %v", err))
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 2 {
		panic(fmt.Sprintf("reference: table %s: %v", name, err))
	}
	out := make([]map[string]string, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := make(map[string]string, len(line))
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		out = append(out, row)
	}
	return out
}

// number reads a cell of a shipped table; a cell that is none is a fault of the
// build.
func number(row map[string]string, column string) float64 {
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		panic(fmt.Sprintf("reference: column %s: %v", column, err))
	}
	return x
}
