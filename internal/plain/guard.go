package plain

import "strings"

// Guard keeps a spreadsheet from reading a text as a formula.
func Guard(s string) string {
	if s != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(s)[0]) {
		return "'" + s
	}
	return s
}
