// Package report turns the result of a run into figures with intervals and
// prints them: as tables for a terminal, as Markdown, as CSV and as JSON.
//
// Summarise computes every figure once; the writers only choose and format.
// One summary gives the same bytes every time. It is the only package that
// imports the table writer.
package report
