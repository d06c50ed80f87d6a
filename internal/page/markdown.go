package page

import (
	"fmt"
	"strings"

	"playout/internal/report"
)

// Markdown is the page as Markdown; pictures are the names of the files of its
// figures, relative to it, by the figures' names.
func (p *Page) Markdown(pictures map[string]string) ([]byte, error) {
	var b strings.Builder
	again := p.Repeat.tame()
	esc := report.EscapeMarkdown
	paragraph := func(text string) {
		if text != "" {
			b.WriteString(esc(text) + "\n\n")
		}
	}
	b.WriteString("# " + esc(p.Title) + "\n\n")
	if p.Warning != "" {
		b.WriteString("**" + esc(p.Warning) + "**\n\n")
	}
	paragraph(p.Question)
	b.WriteString("**" + esc(p.Answer) + "**\n\n")
	for _, text := range p.More {
		paragraph(text)
	}
	for _, s := range p.Sections {
		b.WriteString("## " + esc(s.Title) + "\n\n")
		paragraph(s.Lead)
		for _, f := range s.Figures {
			if name := pictures[f.Name]; name != "" {
				fmt.Fprintf(&b, "![%s](<%s>)\n\n", esc(sentences(f.Title, f.Desc)), name)
			}
			paragraph(sentences(f.Title, f.Caption))
		}
		for _, text := range s.Text {
			paragraph(text)
		}
		for _, t := range s.Tables {
			text, err := t.Markdown("###")
			if err != nil {
				return nil, err
			}
			b.WriteString(text + "\n")
		}
	}
	b.WriteString("## What to keep in mind\n\n")
	for _, text := range again.Cautions {
		paragraph(text)
	}
	b.WriteString("## How to get the same answer again\n\n")
	paragraph("With the same version: " + again.Facts)
	b.WriteString(fenced(again.Command))
	for _, t := range p.Appendix {
		text, err := t.Markdown("##")
		if err != nil {
			return nil, err
		}
		b.WriteString(text + "\n")
	}
	for _, f := range again.Files {
		paragraph("The scenario in full: " + f.Name)
		b.WriteString(fenced(f.Text))
	}
	return []byte(strings.TrimRight(b.String(), "\n") + "\n"), nil
}

// fenced is a text as code, in a fence longer than any in it.
func fenced(text string) string {
	fence := "```"
	for strings.Contains(text, fence) {
		fence += "`"
	}
	return fence + "\n" + strings.TrimRight(text, "\n") + "\n" + fence + "\n\n"
}
