package export

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"playout/internal/plain"
)

// The Parquet files by readers that share no code with the writer, where they are
// installed: pyarrow or DuckDB under python3; hyparquet and hyparquet-compressors
// under node, found by NODE_PATH. They have to read what stands in the CSV files.
func TestIndependentReaders(t *testing.T) {
	os.Getenv("NODE_PATH") // so that the result of the test hangs on it
	sc := scenarioOf(30)
	sc.Teams[0].Players[4].Name, sc.Teams[1].Name = "=1+1", "Ünï \"quoted\", \U0001F642"
	cfg := everything()
	cfg.Sample = 2
	dir, _ := exported(t, sc, cfg)
	for _, reader := range [][]string{{"python3", "read.py"}, {"node", "read.mjs"}} {
		t.Run(reader[0], func(t *testing.T) {
			if _, err := exec.LookPath(reader[0]); err != nil {
				t.Skipf("there is no %s here", reader[0])
			}
			for _, table := range Tables() {
				out, err := exec.Command(reader[0], filepath.Join("testdata", reader[1]), filepath.Join(dir, table.Name+".parquet")).Output()
				var exit *exec.ExitError
				if errors.As(err, &exit) && exit.ExitCode() == 3 {
					t.Skipf("%s has no reader of Parquet here", reader[0])
				}
				if errors.As(err, &exit) {
					t.Fatalf("%s: %v\n%s", table.Name, err, exit.Stderr)
				}
				if err != nil {
					t.Fatal(err)
				}
				head, rows := rowsOf(t, files(t, dir)[table.Name+".csv"])
				lines, n := bufio.NewScanner(bytes.NewReader(out)), 0
				lines.Buffer(nil, 1<<20)
				for ; lines.Scan(); n++ {
					var row []any
					if err := json.Unmarshal(lines.Bytes(), &row); err != nil || len(row) != len(head) || n >= len(rows) {
						t.Fatalf("%s, row %d: %d values, %v", table.Name, n, len(row), err)
					}
					for i, v := range row {
						if want := rows[n][head[i]]; !same(v, want) {
							t.Fatalf("%s, row %d, %s: %v, in CSV %q", table.Name, n, head[i], v, want)
						}
					}
				}
				if n != len(rows) || n == 0 {
					t.Errorf("%s: %d rows, in CSV %d", table.Name, n, len(rows))
				}
			}
		})
	}
}

// same reports whether a value of JSON is what a cell of CSV says.
func same(v any, cell string) bool {
	switch v := v.(type) {
	case nil:
		return cell == ""
	case bool:
		return cell == strconv.FormatBool(v)
	case float64:
		x, err := strconv.ParseFloat(cell, 64)
		return err == nil && x == v
	case string:
		return cell == plain.Guard(v)
	}
	return false
}
