// Package scenarios holds the scenario files that are shipped with the program,
// the library of blocks that scenarios may name, and stills.
package scenarios

import (
	"embed"
	"fmt"
	"strings"
)

//go:embed blocks/*.yaml
var blocks embed.FS

// Still is the text of a still to start from: twenty-two places and who has the ball.
//
//go:embed stills/far-side-free.yaml
var Still []byte

// BlockNames lists the blocks of the library in alphabetical order.
func BlockNames() []string {
	entries, err := blocks.ReadDir("blocks")
	if err != nil {
		panic("scenarios: no blocks embedded")
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return names
}

// Block returns the YAML text of a block of the library.
func Block(name string) ([]byte, error) {
	data, err := blocks.ReadFile("blocks/" + name + ".yaml")
	if err != nil {
		return nil, fmt.Errorf("no library block %q", name)
	}
	return data, nil
}
