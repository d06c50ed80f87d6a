// Package replay shows one possession that has been filmed: as an account in
// words, as a picture that moves (SVG, HTML, GIF) and as a strip of its key moments
// (PNG). All of them are made from one Story, so that they tell the same.
package replay
