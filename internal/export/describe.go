package export

import (
	"fmt"
	"strings"

	"playout/internal/plain"
)

// Column is a column of a table as the documentation has it.
type Column struct{ Name, Type, Unit, Says string }

// Table is a table as the documentation has it.
type Table struct {
	Name, Says string
	Columns    []Column
}

// Tables are all tables with all their columns.
func Tables() []Table {
	return []Table{described(&possessionTable), described(&actionTable), described(&playerTable), described(&frameTable), described(&optionTable)}
}

func described[R any](t *table[R]) Table {
	out := Table{Name: t.name, Says: t.says}
	for _, c := range t.columns {
		out.Columns = append(out.Columns, Column{c.name, kindNames[c.kind], c.unit, c.says})
	}
	return out
}

// lineWidth is that of the help, in columns.
const lineWidth = 80

// Describe is the documentation of the tables: each column with its unit, or else
// its type, and what it says.
func Describe() string {
	var b strings.Builder
	for i, t := range Tables() {
		if i > 0 {
			b.WriteString("\n")
		}
		for _, line := range plain.Wrap(strings.ToUpper(t.Name)+": "+t.Says, lineWidth) {
			b.WriteString(line + "\n")
		}
		for _, c := range t.Columns {
			unit := c.Unit
			if unit == "" {
				unit = c.Type
			}
			left := fmt.Sprintf("  %-34s %-7s ", c.Name, unit)
			for _, line := range plain.Wrap(c.Says, lineWidth-len(left)) {
				b.WriteString(left + line + "\n")
				left = strings.Repeat(" ", len(left))
			}
		}
	}
	return b.String()
}
