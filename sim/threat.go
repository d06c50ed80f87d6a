package sim

// threatGrid is the worth of a location, in goals: the chance that the
// possession ends in a goal when the ball is at the centre of a cell, as a
// Markov chain over own successful moves (converged). 16 columns from the own
// goal line to the opponents' (6.5625 m each), 6 rows from the middle of the
// pitch to a touchline (5.667 m each), symmetric in y.
//
// Source: computed from Pappalardo L. et al. (2019), "A public data set of
// spatio-temporal match events in soccer competitions", Scientific Data 6:236,
// CC BY 4.0; men's first divisions of Spain, Italy and France 2017/18.
var threatGrid = [16][6]float64{
	{0.01031, 0.01261, 0.01156, 0.01090, 0.01000, 0.00871},
	{0.01443, 0.01426, 0.01325, 0.01244, 0.01154, 0.01024},
	{0.01502, 0.01473, 0.01384, 0.01322, 0.01239, 0.01120},
	{0.01496, 0.01493, 0.01481, 0.01425, 0.01351, 0.01205},
	{0.01605, 0.01600, 0.01584, 0.01539, 0.01477, 0.01375},
	{0.01734, 0.01743, 0.01723, 0.01665, 0.01614, 0.01521},
	{0.01855, 0.01856, 0.01835, 0.01806, 0.01734, 0.01621},
	{0.01993, 0.01987, 0.01964, 0.01909, 0.01832, 0.01725},
	{0.02137, 0.02186, 0.02141, 0.02097, 0.02032, 0.01908},
	{0.02387, 0.02360, 0.02312, 0.02277, 0.02196, 0.02086},
	{0.02617, 0.02561, 0.02595, 0.02532, 0.02458, 0.02323},
	{0.02849, 0.02876, 0.02892, 0.02933, 0.02860, 0.02646},
	{0.03809, 0.03437, 0.03318, 0.03301, 0.03320, 0.03061},
	{0.08547, 0.06677, 0.04637, 0.04030, 0.03650, 0.03504},
	{0.15394, 0.10999, 0.06287, 0.04721, 0.03946, 0.03783},
	{0.40859, 0.14523, 0.05965, 0.04647, 0.04269, 0.07045},
}
