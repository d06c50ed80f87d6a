// Package page lays an answer out as one HTML file that needs nothing else: no
// network, no script, no font of its own. It reads on a phone and a laptop, light
// and dark, and prints to A4. The same pages go out as Markdown with their pictures
// beside them.
//
// A Page is made from the documents of package report, the scenes of package draw
// and the figures of package picture; nothing is computed here that a command does
// not print as well. Every text passes through html/template or through the escaping
// of draw. On a page the attack plays up, so that one drawing serves a phone, a
// laptop and paper. One page gives the same bytes every time.
package page
