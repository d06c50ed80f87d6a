// Package layering checks that the project's imports point one way.
package layering

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// may lists, for each package, the packages of the project it may import.
var may = map[string][]string{
	"model":                {},
	"internal/stats":       {},
	"internal/zerosum":     {},
	"internal/factorial":   {},
	"internal/parts":       {"internal/plain"},
	"sim":                  {"model", "internal/stats"},
	"scenarios":            {},
	"internal/scenario":    {"model", "scenarios"},
	"internal/picture":     {},
	"internal/plain":       {},
	"internal/draw":        {"model", "internal/plain"},
	"internal/terms":       {"model", "sim"},
	"internal/replay":      {"model", "sim", "internal/plain", "internal/terms", "internal/draw"},
	"internal/explain":     {"model", "sim", "internal/stats", "internal/experiment", "internal/scenario"},
	"internal/page":        {"model", "sim", "internal/terms", "internal/experiment", "internal/plain", "internal/draw", "internal/picture", "internal/report", "internal/explain"},
	"internal/reference":   {"model", "sim", "internal/stats", "internal/scenario"},
	"internal/experiment":  {"model", "sim", "internal/stats", "internal/parts", "internal/factorial"},
	"internal/report":      {"model", "sim", "internal/stats", "internal/reference", "internal/experiment", "internal/picture", "internal/zerosum", "internal/hinge", "internal/search", "internal/plain", "internal/terms", "internal/explain", "internal/draw"},
	"internal/calibrate":   {"model", "sim", "internal/reference", "internal/factorial"},
	"internal/layering":    {},
	"internal/emergence":   {},
	"cmd/playout":          {"model", "sim", "scenarios", "internal/scenario", "internal/report", "internal/stats", "internal/reference", "internal/experiment", "internal/parts", "internal/picture", "internal/hinge", "internal/search", "internal/explain", "internal/draw", "internal/replay", "internal/page", "internal/still", "internal/export", "internal/plain"},
	"internal/sensitivity": {"internal/stats"},
	"internal/hinge":       {"model", "internal/scenario", "internal/experiment", "internal/sensitivity"},
	"internal/evolution":   {"internal/stats"},
	"internal/search":      {"model", "internal/scenario", "internal/experiment", "internal/evolution"},
	"internal/still":       {"model", "sim", "internal/scenario"},
	"internal/export":      {"model", "sim", "internal/plain"},
}

// sole names outside packages that only these packages may import.
var sole = map[string][]string{
	"golang.org/x/exp/rand":             {"sim"},
	"gonum.org/v1/plot":                 {"internal/picture", "internal/draw"},
	"github.com/olekukonko/tablewriter": {"internal/report", "internal/plain"},
	"github.com/spf13/cobra":            {"cmd/playout"},
	"go.yaml.in/yaml/v4":                {"internal/scenario"},
	"github.com/invopop/jsonschema":     {"internal/scenario"},
}

// TestImports reads every file of the project; tests may import what they like
// of the project, except that the rules on outside packages hold for them too.
func TestImports(t *testing.T) {
	root := filepath.Join("..", "..")
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && path != root) {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(path, ".go") {
			return nil
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(rel)
		seen[pkg] = true
		if _, known := may[pkg]; !known {
			t.Errorf("package %s is not in the table of layers: say what it may import", pkg)
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			if own, ok := strings.CutPrefix(name, "playout/"); ok && !strings.HasSuffix(path, "_test.go") && !slices.Contains(may[pkg], own) {
				t.Errorf("%s imports %s, which lies above it", path, own)
			}
			for outside, owners := range sole {
				if (name == outside || strings.HasPrefix(name, outside+"/")) && !slices.Contains(owners, pkg) {
					t.Errorf("%s imports %s; only %s may", path, name, strings.Join(owners, " and "))
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(seen) < 5 {
		t.Fatalf("only %d packages found", len(seen))
	}
}
