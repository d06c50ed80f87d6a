// Package export writes possessions as data: flat tables in Parquet and CSV, and
// the files of the Common Data Format (Anzer et al. 2025, arXiv 2505.15820) for the
// possessions that are filmed.
//
// # Tables
//
// A table is a list of columns, each with its unit and what it says; the writers
// and the documentation (Describe) are made from it, so that neither can name a
// column that the other lacks. Values are rounded where they enter a table, so that
// Parquet and CSV hold the same numbers.
//
// # One export, one match
//
// The Common Data Format knows matches, not possessions. All filmed possessions of
// an export are one match: home starts every possession with the ball and attacks
// to the right, away is the block. Possession n begins n slots after the kick-off
// of a synthetic clock; a slot is a whole number of minutes that no possession
// outlasts. The number of a frame is its tick on that clock, so frames increase,
// leave gaps where nothing is played, and give the time of an event. Every event
// and frame carries the number of its possession in a key of its own, which the
// schemas permit.
//
// # Promises
//
// The same scenario, seed and version give the same bytes for any number of workers
// (on one architecture). Memory does not grow with the number of possessions. Files
// are written aside and take their names once all of them are whole.
package export
