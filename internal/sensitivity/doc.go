// Package sensitivity says which of several uncertain inputs the result of a
// model hangs on, when they all vary at once. It knows nothing of football.
//
// Inputs are numbers in [0, 1], independent and uniform; the caller maps them to
// its own spans. A design is a list of rows, a row a few points that differ from
// each other in some inputs only:
//
//	Stars      for screening: a point, and the same with one input moved half its
//	           span (Morris 1991; radial as in Campolongo et al. 2011). Effects
//	           reads them.
//	Saltelli   for variance-based indices: points A and B, and for every factor A
//	           with that factor's inputs taken from B (Saltelli 2010). Indices
//	           reads them.
//
// # Noise
//
// A simulator with chance in it gives f(x) + error. Squares of such values count
// the error as if it were an effect: total indices come out too large, those of an
// idle input well above 0. So the caller plays every point several times and passes
// the results, its replicates, one by one. Within a row replicate r of every point
// has the same luck, so that differences are sharp; between replicates, and between
// rows, the luck is independent. Then
//
//	E[u_r v_s] = E[u] E[v]   for replicates r ≠ s
//
// and every product in the estimators is the mean over all pairs of different
// replicates: unbiased for the product of the true values, whatever the errors are
// and however they hang together within a row. With one replicate the
// function is taken to be exact. Independent luck in every row lets intervals from
// the spread between rows cover the design's chance and the simulator's at once.
//
// # References
//
// Morris (1991), Technometrics 33, 161-174. Campolongo, Cariboni and Saltelli
// (2007), Environmental Modelling and Software 22, 1509-1518. Campolongo, Saltelli
// and Cariboni (2011), Computer Physics Communications 182, 978-988. Jansen (1999),
// Computer Physics Communications 117, 35-43. Saltelli et al. (2010), Computer
// Physics Communications 181, 259-270. Archer, Saltelli and Sobol' (1997), Journal of
// Statistical Computation and Simulation 58, 99-120. All from memory.
package sensitivity
