package page

import (
	"bytes"
	"fmt"
	"html/template"
	"path/filepath"
	"regexp"
	"strings"

	"playout/internal/draw"
	"playout/internal/picture"
)

// inline is a figure as an element of the page.
func (f *Figure) inline() (template.HTML, error) {
	if f.Scene != nil {
		svg := strings.Replace(string(f.Scene.Inline()), ` xmlns="http://www.w3.org/2000/svg"`, "", 1) // HTML implies it
		return template.HTML(svg), nil
	}
	svg, err := picture.Encode(f.Name+".svg", f.Drawing)
	if err != nil {
		return "", err
	}
	return template.HTML(f.embedded(string(svg))), nil
}

var (
	styleAttribute = regexp.MustCompile(`\sstyle="([^"]*)"`)
	sizeOfPicture  = regexp.MustCompile(`\s(width|height)="[0-9.]+(pt|cm|in)?"`)
	namespaces     = regexp.MustCompile(`\sxmlns(:[a-z]+)?="[^"]*"`)
	comments       = regexp.MustCompile(`(?s)<!--.*?-->`)
)

// embedded makes a file of package picture an element of the page: without prologue
// and size, named and described, and with attributes in the place of styles, which the
// page's policy forbids and its dark colours replace.
func (f *Figure) embedded(svg string) string {
	_, svg, _ = strings.Cut(svg, "<svg ")
	head, body, _ := strings.Cut(svg, ">")
	head = sizeOfPicture.ReplaceAllString(namespaces.ReplaceAllString(head, ""), "")
	head = strings.Replace(head, `role="img"`, fmt.Sprintf(`class="plot" role="img" aria-labelledby="%s-title %s-desc"`, f.Name, f.Name), 1)
	body = strings.Replace(body, "<title>", fmt.Sprintf(`<title id="%s-title">`, f.Name), 1)
	body = strings.Replace(body, "</title>", fmt.Sprintf(`</title><desc id="%s-desc">%s</desc>`, f.Name, draw.Escape(f.Desc)), 1)
	body = comments.ReplaceAllString(body, "")
	body = styleAttribute.ReplaceAllStringFunc(body, func(style string) string {
		var b strings.Builder
		for _, rule := range strings.Split(styleAttribute.FindStringSubmatch(style)[1], ";") {
			if name, value, ok := strings.Cut(rule, ":"); ok {
				value = strings.TrimSpace(value)
				if name = strings.TrimSpace(name); name == "fill" || name == "stroke" {
					value = strings.ToLower(value)
				}
				fmt.Fprintf(&b, ` %s="%s"`, name, value)
			}
		}
		return b.String()
	})
	return "<svg " + head + ">" + body
}

// Encode is a figure as a file of that name, .svg or .png.
func (f *Figure) Encode(name string) ([]byte, error) {
	if f.Drawing != nil {
		return picture.Encode(name, f.Drawing)
	}
	if err := picture.Check(name); err != nil {
		return nil, err
	}
	if strings.EqualFold(filepath.Ext(name), ".png") {
		return f.Scene.PNG(draw.Light, pngScale)
	}
	return bytes.Clone(f.Scene.SVG("")), nil
}

// pngScale is the dots of a PNG for a px: a scene of 360 px is 1080 dots wide.
const pngScale = 3
