package scenario

import (
	"strings"
	"testing"
)

// Every mistake has one message that names the place and the way out.
func TestFaults(t *testing.T) {
	const point = "write [x, y] in metres from the centre spot, x towards the goal attacked, y to the left"
	for _, c := range []struct{ name, text, want string }{
		// Keys.
		{"unknown key", "title: x\ndefence:\n  block:\n    lineheight: 31\n", `4:5: defence, block: unknown key "lineheight" | did you mean line_height?`},
		{"swapped letters", "pitch: {lenght: 105}", `1:9: pitch: unknown key "lenght" | did you mean length?`},
		{"capital", "Title: x", `1:1: unknown key "Title" | did you mean title?`},
		{"key one level up", "defence:\n  line_height: 31\n", `2:3: defence: unknown key "line_height" | line_height belongs in defence, block; check the indentation`},
		{"key of the top", "attack: {seed: 1}", `1:10: attack: unknown key "seed" | seed belongs at the top of the file, without indentation`},
		{"block beside a title", "title: x\nblock: 4-4-2-low", `2:1: unknown key "block" | block belongs in defence; check the indentation`},
		{"key of a block at the top", "title: x\nline_height: 31", `2:1: unknown key "line_height" | line_height belongs in defence, block; check the indentation`},
		{"percentile of nobody", "attack: {pace: 70}", `1:10: attack: unknown key "pace" | pace belongs in a player; check the indentation`},
		{"far from any key", "pitch: {grass: long}", `1:9: pitch: unknown key "grass" | the keys here are length, width`},
		{"key twice", "seed: 1\nclock: 60\nseed: 2\n", `3:1: key "seed" is given twice, first on line 1 | keep one of the two`},
		{"key is a mapping", "? {a: 1}\n: 2\n", "1:3: a key must be a word or a number, not a mapping (keys with values) | write key: value"},
		{"merge key", "attack: {<<: {name: x}}", `1:10: attack: unknown key "<<" | the keys here are name, level, players, structure, plan, runs, block`},

		// Numbers.
		{"word for number", "clock: long", `1:8: clock: "long" is not a number | write a number such as 50`},
		{"list for number", "clock: [90]", "1:8: clock: needs a number, not a list | write a number such as 50"},
		{"unit", "clock: 90 s", `1:8: clock: "90 s" is not a number | write the number alone, without a unit: 90`},
		{"percent", "attack: {level: 60%}", `1:17: attack, level: "60%" is not a number | write the number alone, without a unit: 60`},
		{"percent of a share", "attack: {plan: {risk: 40%}}", `1:23: attack, plan, risk: "40%" is not a number | write it as a number: 0.4`},
		{"yards", "pitch: {length: 115 yd}", `1:17: pitch, length: "115 yd" is not a number | write the number alone, in m: 105.2`},
		{"kilometres an hour", eleven(map[int]string{9: "{number: 9, position: LW, top_speed: 32 km/h}"}), `11:44: attack, player 9, top_speed: "32 km/h" is not a number | write the number alone, in m/s: 8.9`},
		{"unit beyond the range", "clock: 15 min", `1:8: clock: "15 min" is not a number | write a number alone, in s, from 5 to 600`},
		{"unit of another kind", "clock: 90 yd", `1:8: clock: "90 yd" is not a number | write a number alone, in s, from 5 to 600`},
		{"unit of a ratio", "defence: {block: {follow: 1 m}}", `1:27: defence, block, follow: "1 m" is not a number | write a number alone such as 0.5`},
		{"word for a small number", "attack: {plan: {tempo: yes}}", `1:24: attack, plan, tempo: "yes" is not a number | write a number such as 1`},
		{"word for a row", "defence: {block: {slots: {7: {row: high}}}}", `1:36: defence, block, slots, player 7, row: "high" is not a whole number | write a number such as 1`},
		{"minus of typesetting", "start: {from: settled, ball: [−30, 2]}", `1:31: start, ball: "−30" is not a number | write the minus as the plain -: -30`},
		{"groups of digits", "possessions: 1,000", `1:14: possessions: "1,000" is not a whole number | write the digits without gaps: 1000`},
		{"gaps between digits", "possessions: 10 000", `1:14: possessions: "10 000" is not a whole number | write the digits without gaps: 10000`},
		{"points between digits", "possessions: 10.000", `1:14: possessions: "10.000" is not a whole number | write 10000, or 10 if the point parts decimals`},
		{"groups in a seed", "seed: 1,000", `1:7: seed: needs a whole number from 0, not "1,000" | write the digits without gaps: 1000`},
		{"decimal comma", "clock: 90,5", `1:8: clock: "90,5" is not a number | write the decimals after a point: 90.5`},
		{"decimal comma in braces", "pitch: {length: 100,5, width: 68}", `1:17: length is 100, and 5 is a key by itself: in braces a comma parts keys | write the decimals after a point: 100.5`},
		{"decimal comma at the end of braces", "attack: {plan: {tempo: 1,25}}", `1:24: tempo is 1, and 25 is a key by itself: in braces a comma parts keys | write the decimals after a point: 1.25`},
		{"decimal comma in a place", "start: {from: settled, ball: [-30,5, 10]}", `1:30: start, ball: a place is 2 numbers, not 3 | write [-30.5, 10]`},
		{"two decimal commas in a place", "start: {from: settled, ball: [-30,5, 10,2]}", `1:30: start, ball: a place is 2 numbers, not 4 | write [-30.5, 10.2]`},
		{"a second number with a decimal comma", "start: {from: settled, ball: [-30, 1,5]}", `1:30: start, ball: a place is 2 numbers, not 3 | write [-30, 1.5]`},
		{"a place with x and y", "start: {from: settled, ball: {x: -10, y: 3}}", `1:30: start, ball: needs a place, not a mapping (keys with values) | write [-10, 3]`},
		{"a place with a decimal comma", "start: {from: settled, ball: {x: 10,5, y: 3}}", `1:30: start, ball: needs a place, not a mapping (keys with values) | write [10.5, 3] (+1)`},
		{"quoted", "clock: '90'", `1:8: clock: "90" is not a number | take the quotes away: 90`},
		{"not a number", "clock: .nan", `1:8: clock: ".nan" is not a number | write an ordinary number`},
		{"infinite", "clock: -.Inf", `1:8: clock: "-.Inf" is not a number | write an ordinary number`},
		{"hexadecimal", "clock: 0x5A", `1:8: clock: "0x5A" is not a number | write a number such as 50`},
		{"too large for a machine", "clock: 1e999", `1:8: clock: "1e999" is far too large | write an ordinary number`},
		{"very large", "pitch: {length: 1e300}", "1:17: pitch, length: 1e+300 is outside 90 to 120 m (Law 1) | give a value from 90 to 120 m (Law 1)"},
		{"not whole", "possessions: 10.5", `1:14: possessions: "10.5" is not a whole number | leave the decimals out`},
		{"quoted whole number", "possessions: '10'", `1:14: possessions: "10" is not a whole number | take the quotes away: 10`},
		{"exponent", "possessions: 1e4", `1:14: possessions: "1e4" is not a whole number | write 10000`},
		{"underscore", "possessions: 10_000", `1:14: possessions: "10_000" is not a whole number | write the digits without underscores: 10000`},
		{"leading zero", "possessions: 010", `1:14: possessions: "010" begins with a sign or a zero | write 10`},
		{"more than an int", "possessions: 99999999999999999999", `1:14: possessions: "99999999999999999999" is not a whole number | it is far too large`},
		{"no possessions", "possessions: 0", "1:14: possessions: 0 possessions | ask for 1 to 100000000"},
		{"negative seed", "seed: -1", `1:7: seed: needs a whole number from 0, not "-1" | write a number such as 1`},

		// Text and words.
		{"number for text", "attack: {name: 1899}", `1:16: attack, name: 1899 is not read as text | put it in quotes: "1899"`},
		{"two lines of text", "title: |\n  a\n  b\n", "1:8: title: holds U+000A, a character that does not print | delete it; keep the text on one line"},
		{"escape sequence", `title: "\e[31mred"`, "1:8: title: holds U+001B, a character that does not print | delete it; keep the text on one line"},
		{"text turned around", "title: a\u202eb", "1:8: title: holds U+202E, a character that does not print | delete it; keep the text on one line"},
		{"long text", "attack: {name: " + strings.Repeat("x", 61) + "}", "1:16: attack, name: is longer than 60 characters | shorten it"},
		{"unknown word", "start: {from: corner}", `1:15: start, from: unknown word "corner" | write one of mix, goal_kick, keeper, centre_back, settled, regain`},
		{"nearly a word", "start: {from: goal-kick}", `1:15: start, from: unknown word "goal-kick" | did you mean goal_kick?`},
		{"no value", "attack:\n  plan:\n", "2:8: attack, plan: has no value | give it one, or leave the line out"},
		{"block not indented", "attack:\n  plan:\n  tempo: 1\n  risk: 0.3\n", "2:8: attack, plan: has no value: what follows is not indented | move tempo and risk, with any lines within, to two columns right of plan"},
		{"block at the margin", "attack:\n  plan:\ntempo: 1\ntitle: x\n", "2:8: attack, plan: has no value: what follows is not indented | move tempo, with any lines within, to two columns right of plan"},
		{"team not indented", "attack:\nplan:\n  tempo: 1\ndefence: {level: 60}\n", "1:8: attack: has no value: what follows is not indented | move plan, with any lines within, to two columns right of attack"},
		{"a still", "title: x\nball: 8\nattack: {1: [-45, 0]}\n", "1:1: this file is a still: it says where players stand at one moment | give it to playout still, and a scenario here"},
		{"a block", "shape: 4-4-2\nline_height: 28\n", "1:1: this file is a block by itself, not a scenario | put a line defence: above it and below that a line block: indented by two spaces; indent all the rest by four"},
		{"word for mapping", "pitch: big", `1:8: pitch: needs keys with values, not "big" | write it as {key: value, ...} or as indented lines key: value`},
		{"word for start", "start: goal_kick", `1:8: start: needs keys with values, not "goal_kick" | write start: {from: goal_kick}`},
		{"list for start", "start: [goal kick]", `1:8: start: needs keys with values, not a list | write start: {from: goal_kick}`},
		{"block for team", "defence: 4-4-2-low", `1:10: defence: needs keys with values, not "4-4-2-low" | write defence: {block: 4-4-2-low}`},
		{"level for team", "attack: 60", `1:9: attack: needs keys with values, not "60" | write attack: {level: 60}`},
		{"shape for structure", "attack: {structure: 4-1-2-3}", `1:21: attack, structure: needs keys with values, not "4-1-2-3" | write structure: {build_up: 4-1-2-3}`},
		{"another word", "start: {from: goalkeeper}", `1:15: start, from: unknown word "goalkeeper" | did you mean keeper?`},
		{"word for list", "attack: {plan: {find: 10}}", `1:23: attack, plan, find: needs a list, not "10" | write it in brackets: [10]`},

		// Pitch, start.
		{"short pitch", "pitch: {length: 60}", "1:17: pitch, length: 60 is outside 90 to 120 m (Law 1) | give a value from 90 to 120 m (Law 1)"},
		{"square pitch", "pitch: {length: 90, width: 90}", "1:28: pitch, width: the goal line must be shorter than the touchline (Law 1) | make the width smaller than the length"},
		{"one coordinate", "start: {from: settled, ball: [-30]}", "1:30: start, ball: a place is 2 numbers, not 1 | " + point},
		{"three coordinates", "start: {from: settled, ball: [-30, 5, 0]}", "1:30: start, ball: a place is 2 numbers, not 3 | " + point},
		{"ball off the pitch", "start: {from: settled, ball: [0, 40]}", "1:30: start, ball: (0, 40) is off the pitch | keep x within 52.5 and y within 34.0 either side of the centre spot"},
		{"ball without settled", "start: {from: keeper, ball: [0, 0]}", "1:29: start, ball: a place of the ball counts only with from: settled | write from: settled, or take ball away"},
		{"settled without ball", "start: {from: settled}", "1:15: start, from: a settled start needs the place of the ball | add ball: [x, y] in metres from the centre spot"},
		{"start with a stranger", "start: {player: 44}", "1:17: start, player: player 44 does not play | name the shirt number of a player of the attack"},

		// Players.
		{"percentile 140", eleven(map[int]string{9: "{number: 9, position: LW, pace: 140}"}), "11:39: attack, player 9, pace: 140 is not a percentile | give a percentile from 0 to 100 (50 is the league average)"},
		{"level 140", "attack: {level: 140}", "1:17: attack, level: 140 is not a percentile | give a percentile from 0 to 100 (50 is the league average)"},
		{"top speed", eleven(map[int]string{9: "{number: 9, position: LW, top_speed: 32}"}), "11:44: attack, player 9, top_speed: 32 is outside 6 to 10.5 m/s | give a value from 6 to 10.5 m/s"},
		{"top speed 0", eleven(map[int]string{9: "{number: 9, position: LW, top_speed: 0}"}), "11:44: attack, player 9, top_speed: nobody's top speed is 0 | give it in m/s, or leave it out to take the pace percentile"},
		{"ten players", strings.Replace(eleven(nil), "    - {number: 11, position: RW}\n", "", 1), "2:3: attack, players: lists 10 players | list exactly 11, the keeper first; to change a few players of another file, begin with extends:"},
		{"twelve players", eleven(nil) + "    - {number: 12, position: CF}\n", "2:3: attack, players: has 12 entries; 11 is the most | take some away"},
		{"one number twice", eleven(map[int]string{7: "{number: 6, position: LCM}"}), "9:16: attack, player 6, number: shirt number 6 is taken | give every player of a team his own number"},
		{"no number", eleven(map[int]string{7: "{position: LCM}"}), "9:7: attack, player 7 of the list: has no number | add number:"},
		{"no position", eleven(map[int]string{7: "{number: 7}"}), "9:7: attack, player 7: has no position | add position: with a code of match sheets, such as LCB, CDM or RW"},
		{"second keeper", eleven(map[int]string{7: "{number: 7, position: GK}"}), "9:29: attack, player 7, position: the first player, and only he, is the keeper | put the player with position GK first"},
		{"lower-case position", eleven(map[int]string{7: "{number: 7, position: lcm}"}), `9:29: attack, player 7, position: unknown word "lcm" | did you mean LCM?`},
		{"pins a stranger", eleven(map[int]string{10: "{number: 10, position: CF, behaviour: {pin: 44}}"}), "12:45: attack, player 10, behaviour: pins opponent 44, who does not play | name the shirt number of an opponent"},
		{"half a behaviour", eleven(map[int]string{10: "{number: 10, position: CF, behaviour: {hold: 1}}"}), "12:45: attack, player 10, behaviour: is not a behaviour | write a word, or {pin: last_line}, {pin: midfield_line} or {pin: 5} (an opponent)"},

		// Structure, block.
		{"eleven outfield players", "attack: {structure: {build_up: 4-3-4}}", `1:32: attack, structure, build_up, shape: shape "4-3-4" adds up to 11 outfield players | the rows must add up to 10`},
		{"dashes of typesetting", "attack: {structure: {build_up: 4–3–3}}", `1:32: attack, structure, build_up, shape: "4–3–3" has a dash of typesetting | write it with the plain -: 4-3-3`},
		{"block with such dashes", "defence: {block: 4–4–2-low}", `1:18: there is no library block "4–4–2-low" | did you mean 4-4-2-low?`},
		{"shape of one row", "defence: {block: {shape: '10'}}", `1:26: defence, block, shape: shape "10" has 1 rows | write two to five rows such as 4-3-3`},
		{"two in one place", "attack:\n  structure:\n    build_up: {6: [-20, 0], 7: [-20, 0.2]}\n", "3:32: attack, structure, build_up, player 7: players 6 and 7 stand in one place | move one of them at least 1 m"},
		{"off the pitch", "attack: {structure: {final_third: {6: [60, 0]}}}", "1:39: attack, structure, final_third, player 6: player 6 stands at (60.0, 0.0), off the pitch | keep x within 52.5 and y within 34.0 either side of the centre spot"},
		{"place of a stranger", "attack: {structure: {build_up: {44: [0, 0]}}}", "1:37: attack, structure, build_up, player 44: he does not play | use the shirt number of a player of this team"},
		{"library block", "defence: {block: 4-4-2-medium}", `1:18: there is no library block "4-4-2-medium" | did you mean 4-4-2-mid?`},
		{"keeper in the block", "defence: {block: {slots: {1: {row: 1}}}}", "1:30: defence, block, slots, player 1: has no place in the block | use the shirt number of an outfield player of this team"},
		{"row 4 of 3", "defence: {block: {slots: {7: {row: 4}}}}", "1:36: defence, block, slots, player 7, row: row 4 of a 4-4-2 block | use 1 (the last line) to 3"},
		{"one place of the block", "defence: {block: {slots: {3: {side: 0}, 4: {side: 0.01}}}}", "1:44: defence, block, slots, player 4: players 3 and 4 stand in one place of the block | move one of them at least 1 m"},
		{"no room in the block", "defence: {block: {width: 3}}", "1:26: defence, block, width: 3 is outside 15 to 68 m between the outer players | give a value from 15 to 68 m between the outer players"},
		{"trigger", "defence: {block: {press: {triggers: [backpass]}}}", `1:38: defence, block, press, triggers, entry 1: unknown word "backpass" | did you mean back_pass?`},

		// Plan, runs.
		{"spelling of centre", "attack: {plan: {lanes: {center: 2}}}", `1:25: attack, plan, lanes: unknown key "center" | did you mean centre?`},
		{"find a stranger", "attack: {plan: {find: [10, 44]}}", "1:28: attack, plan, find, entry 2: player 44 does not play | name the shirt number of a player of this team"},
		{"run for a stranger", "attack: {runs: [{run: overlap, player: 23}]}", "1:40: attack, runs, entry 1, player: player 23 does not play | name the shirt number of a player of this team"},
		{"run of the keeper", "attack: {runs: [{run: overlap, player: 1}]}", "1:40: attack, runs, entry 1, player: the keeper makes no runs | name an outfield player"},
		{"run with himself", "attack: {runs: [{run: overlap, player: 2, with: [2]}]}", "1:50: attack, runs, entry 1, with, entry 1: the runner cannot be the player on the ball | name a team-mate"},
		{"run without a runner", "attack: {runs: [{run: overlap}]}", "1:17: attack, runs, entry 1: has no player | add player:"},
		{"chance 3", "attack: {runs: [{run: overlap, player: 2, chance: 3}]}", "1:51: attack, runs, entry 1, chance: 3 is outside 0 to 1 | give a value from 0 to 1"},

		// YAML.
		{"empty", "", "0:0: the file is empty | start with a line such as title: our build-up; every other key has a default"},
		{"only comments", "# nothing\n", "0:0: the file is empty | start with a line such as title: our build-up; every other key has a default"},
		{"only a separator", "---", "0:0: the file is empty | start with a line such as title: our build-up; every other key has a default"},
		{"a word", "hello", `1:1: a scenario is made of keys with values, not "hello" | start with a line such as title: our build-up; every other key has a default`},
		{"a list", "- a", "1:1: a scenario is made of keys with values, not a list | start with a line such as title: our build-up; every other key has a default"},
		{"second document", "title: a\n---\ntitle: b\n", "2:1: a second document begins here | keep one in a file, and remove the line ---"},
		{"anchor", "title: &a x", "1:8: an anchor (&name) cannot be used here | write the value without it, or use extends: to build on another file"},
		{"alias bomb", "pitch: &a [x, x]\nstart: &b [*a, *a]\nclock: [*b, *b]\n", "1:8: an anchor (&name) cannot be used here | write the value without it, or use extends: to build on another file (+4)"},
		{"alias to itself", "attack: &a [*a]", "1:9: an anchor (&name) cannot be used here | write the value without it, or use extends: to build on another file"},
		{"alias of nothing", "title: *a", "1:8: an alias (*name) cannot be used here | write the value out, or use extends: to build on another file"},
		{"tag", "title: !!binary YWJj", "1:8: a tag (!name) cannot be used here | write the value without it"},
		{"tag that is none", "title: !%zz x", "1:9: a tag (!name) cannot be used here | write the value without it; put text that begins with ! in quotes"},
		{"anchor that is none", "title: & x", "1:9: an anchor (&name) or alias (*name) cannot be used here | put text that begins with & or * in quotes"},
		{"comment too near", "title: 'x'#y", "1:11: a # right behind a value | put a space before a comment, and text with # in quotes"},
		{"text block", "title: |x\n  y\n", "1:9: text in a block (| or >) is not needed here | write it on one line, in quotes where it holds : or #"},
		{"question mark", "title: ? y\n", "1:8: a key cannot begin here | check the indentation; put text that begins with ? in quotes"},
		{"behind the end", "title: x\n... y\n", "2:5: text after the end of the scenario | check the indentation, and that every line is key: value"},
		{"directive", "%FOO\ntitle: x\n", "1:5: lines that begin with % have no place here | remove the line, or put the text in quotes"},
		{"deep", "title: " + strings.Repeat("[", 50) + strings.Repeat("]", 50), "1:8: title: needs text, not a list | write it on one line, in quotes where it holds : or # (+1)"},
		{"too deep for the reader", "title: " + strings.Repeat("[", 20000), "1:10008: values are nested too deep | check the brackets and the indentation"},
		{"open brackets", "title: [[[", "1:11: the file ends in the middle of a value | close what is open: brackets, braces or quotes"},
		{"open list", "attack:\n  runs: [\n  plan: 3\n", "2:9: a comma is missing, or the list is not closed | put a comma between the entries and ] at the end"},
		{"missing comma", "pitch: {length: 105 width: 68}", "1:26: a comma is missing, or the braces are not closed | put a comma between the entries and } at the end"},
		{"open quote", "title: \"abc\nattack:\n  name: x\n", "1:8: a quote is opened and never closed | close it, or take it away"},
		{"colon in text", "title: a: b", "1:9: a colon where none can be | check the indentation of this line and the one before; put text with a colon in quotes"},
		{"no colon", "attack:\n  players:\n    - number: 1\n      position GK\n    - number: 2\n", "4:7: a key without a colon | write key: value, with a space after the colon"},
		{"no-break space", "title: x\nclock:\u00a090\nseed: 1\n", "2:7: a no-break space behind the colon | write a plain space in its place"},
		{"no-break space in a value", "attack:\n  plan:\n    tempo:\u00a01\n", "3:11: a no-break space behind the colon | write a plain space in its place"},
		{"no-break space in a comment", "# plan:\u00a0x\nclok: 90 # a:\u00a0b\n", `2:1: unknown key "clok" | did you mean clock?`},
		{"indentation", "attack:\n  plan:\n    tempo: 3\n   risk: 2\n", "4:4: this line does not fit the lines before it | check its indentation: keys of one mapping begin in the same column"},
		{"tab", "attack:\n\tname: x\n", "2:1: a tab in the indentation | indent with spaces"},
		{"reserved character", "title: @x", "1:8: a value cannot begin with this character | put the text in quotes"},
		{"backslash", `title: "a\qb"`, "1:10: a backslash that means nothing | use single quotes around text with a backslash"},

		// Bytes.
		{"byte order mark", "\ufeffclok: 3", `1:1: unknown key "clok" | did you mean clock?`},
		{"CRLF", "title: x\r\npitch:\r\n  lenght: 3\r\n", `3:3: pitch: unknown key "lenght" | did you mean length?`},
		{"binary", "title: \x00\x01", "1:8: U+0000, a character that YAML does not take | delete it; write plain text"},
		{"second byte order mark", "title: a\ufeff", "1:9: U+FEFF, a character that YAML does not take | delete it; write plain text"},
		{"Latin-1", "title: caf\xe9", "1:11: this is not text (UTF-8) | write plain text; save it as UTF-8"},
		{"UTF-16", "\xff\xfet\x00", "0:0: the file is UTF-16 text | save it as UTF-8"},
		{"2 MiB", strings.Repeat("# x\n", 1<<19), "0:0: the file is larger than 1024 KiB | a few kB are enough; is this the right file?"},
		{"too many values", "title: [" + strings.Repeat("1,", 60000) + "]", "1:100006: the file holds far more values than it can need | is this the right file?"},

		// Several at once: the first in the file, and how many more.
		{"several", "titel: a\nclock: 999999\nattack:\n  level: 140\n  plan: {tempo: fast}\n", `1:1: unknown key "titel" | did you mean title? (+3)`},
		{"value before key", "clock: 999999\ntitel: a\n", "1:8: clock: 999999 is outside 5 to 600 s | give a value from 5 to 600 s (+1)"},
		{"extends from memory", "extends: other.yaml", "1:10: extends: this text does not come from a file, so no other file can be found from it | write the scenario out in full"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := LoadBytes("x.yaml", []byte(c.text))
			if got := strings.TrimPrefix(brief(err), "x.yaml:"); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}
