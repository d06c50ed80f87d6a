// Package hinge says what the result of a scenario hangs on: which of the things
// that a coach does not know for sure, or can change, move it most.
//
// Inputs are numbers of the scenario by their path, each with a span. When there are
// many, screening finds the few that move the figure (elementary effects); then the
// variance of the figure over all spans at once is shared out among those few and the
// rest together (package sensitivity). Every row of a design is played with luck of its
// own that its cells share, possession by possession, so that neither chance
// passes for an effect nor one streak of luck decides the answer.
package hinge
