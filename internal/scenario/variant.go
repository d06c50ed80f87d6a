package scenario

import (
	"fmt"
	"path/filepath"

	"go.yaml.in/yaml/v4"
)

// Variant is the text of a file that extends the base and says the settings,
// with a title of its own. path is where the file is to be put: extends is
// written relative to it. Loading the file gives the scenario of With, but for
// the title.
func (b *Base) Variant(path, title string, settings ...Setting) ([]byte, error) {
	if len(b.files) == 0 || b.files[0] != b.file {
		return nil, fmt.Errorf("%s is no file that another could extend; save the scenario in a file first", b.file)
	}
	if _, err := b.With(settings...); err != nil {
		return nil, err
	}
	extends, err := relative(path, b.file)
	if err != nil {
		return nil, err
	}
	over, _, err := b.overlay(settings)
	if err != nil {
		return nil, err
	}
	root := &yaml.Node{Kind: yaml.MappingNode}
	root.Content = append(root.Content, word("extends"), word(filepath.ToSlash(extends)), word("title"), word(title))
	root.Content = append(root.Content, written(over).Content...)
	return yaml.Dump(root, yaml.WithLineWidth(-1))
}

// relative is the way to a file from the directory of another.
func relative(from, to string) (string, error) {
	from, err := filepath.Abs(from)
	if err != nil {
		return "", err
	}
	if to, err = filepath.Abs(to); err != nil {
		return "", err
	}
	return filepath.Rel(filepath.Dir(from), to)
}

// written turns a tree back into YAML.
func written(n *node) *yaml.Node {
	out := &yaml.Node{}
	switch n.kind {
	case mapping:
		out.Kind = yaml.MappingNode
		for _, v := range n.entries {
			out.Content = append(out.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: v.key.text}, written(v))
		}
	case list:
		out.Kind = yaml.SequenceNode
		for _, v := range n.items {
			out.Content = append(out.Content, written(v))
		}
	default:
		out.Kind, out.Value = yaml.ScalarNode, n.text
		if !n.plain {
			out.Tag = "!!str" // quoted where it would read as something else
		}
	}
	if n.flow {
		out.Style = yaml.FlowStyle
	}
	return out
}
