package sim

import "gonum.org/v1/gonum/spatial/r2"

// Stills of the build-up; see wingStills for the drawings.
var buildUpStills = []still{
	{
		// A receiver between the lines, the lane to him open:
		//
		//	LCB         rcm     rcb
		//	                 RCM
		//	RCB*  lcf   lcm     lcb
		//	RB
		name:    "between the lines, no screen",
		carrier: "RCB",
		ours: `RCB -18,-8 LCB -18,10 RB -8,-28 LB -8,28 CDM -12,3 RCM 5,-4,0,0 LCM 2,14 LW 14,28 RW 14,-29 CF 17,3
			GK -38,0`,
		theirs: `lcf -9,-2 rcf -9,7 lcm -1,-12 rcm -1,5 lm 0,-22 rm 0,17 lcb 17,-6 rcb 17,5 lb 17,-18 rb 17,17 gk 44,0`,
		order: []order{
			before("feet RCM", "pass LCB"),
			before("feet RCM", "pass GK").known(feared),
			before("feet RCM", "high CF"),
			dearer("feet RCM", "pass LCB"),
			safer("feet RCM", "feet RCM").than("between the lines, screened"),
		},
	},
	{
		// The same with a midfielder in the lane:
		//
		//	LCB         rcm     rcb
		//	             lcm RCM
		//	RCB*  lcf           lcb
		//	RB
		name:    "between the lines, screened",
		carrier: "RCB",
		ours: `RCB -18,-8 LCB -18,10 RB -8,-28 LB -8,28 CDM -12,3 RCM 5,-4,0,0 LCM 2,14 LW 14,28 RW 14,-29 CF 17,3
			GK -38,0`,
		theirs: `lcf -9,-2 rcf -9,7 lcm 0,-5 rcm -1,5 lm 0,-22 rm 0,17 lcb 17,-6 rcb 17,5 lb 17,-18 rb 17,17 gk 44,0`,
		order: []order{
			before("pass LCB", "feet RCM"),
			before("pass RB", "feet RCM"),
			safer("pass LCB", "feet RCM"),
			safer("pass RB", "feet RCM"),
		},
	},
	{
		// The keeper against a first line of two: one comes at him, one holds the
		// left centre-back, the right one is free.
		//
		//	      LCB lcf
		//	GK*  rcf    CDM rcm
		//	      RCB
		name:    "keeper against two, centre-back free",
		carrier: "GK",
		ours: `GK -46,0 LCB -37,17 RCB -37,-17 CDM -27,0 LB -22,30 RB -22,-30 LCM -8,10 RCM -8,-10 LW 6,28 RW 6,-28
			CF 8,0`,
		theirs: `rcf -38,3,-3,-1 lcf -36,15 rcm -25.5,1.5 lcm -14,-6 rm -18,26 lm -14,-21 rcb 9,3 lcb 6,-7 rb 6,20 lb 6,-22
			gk 40,0`,
		order: []order{
			before("pass RCB", "pass LCB"),
			before("pass RCB", "pass CDM"),
			before("pass RCB", "high CF"),
			before("pass RCB", "stand").known(length),
			safer("pass RCB", "pass CDM"),
			safer("pass RCB", "high CF"),
			safer("pass RCB", "pass RCB").than("keeper against two, both covered"),
		},
	},
	{
		// Both centre-backs are held, so the first line is parted: the free man is
		// behind it.
		//
		//	      LCB lcf
		//	GK*          CDM      rcm
		//	      RCB rcf
		name:    "keeper against two, both covered",
		carrier: "GK",
		ours: `GK -46,0 LCB -37,17 RCB -37,-17 CDM -27,0 LB -22,30 RB -22,-30 LCM -8,10 RCM -8,-10 LW 6,28 RW 6,-28
			CF 8,0`,
		theirs: `rcf -36,15 lcf -36,-15 rcm -13,5 lcm -13,-6 rm -18,26 lm -18,-26 rcb 9,3 lcb 6,-7 rb 6,20 lb 6,-22
			gk 40,0`,
		order: []order{
			before("pass CDM", "pass LCB"),
			before("pass CDM", "pass RCB"),
			before("stand", "pass LCB"), // nobody comes: he has time
			before("stand", "pass RCB"),
			safer("pass CDM", "pass RCB"),
		},
	},
	{
		// Open grass ahead and nobody near: bring it forward.
		//
		//	LCB
		//	RCB*                 lcm
		//	RB
		name:    "open grass",
		carrier: "RCB",
		ours: `RCB -14,-9 LCB -15,9 RB -6,-28 LB -6,28 CDM -8,4 RCM 6,-10 LCM 6,12 LW 20,28 RW 20,-28 CF 22,0
			GK -38,0`,
		theirs: `rcf -6,9 lcf -6,3 rcm 7,10 lcm 7,-8.5 lm 8,-20 rm 8,18 rcb 23,5 lcb 23,-4 lb 22,-19 rb 22,19 gk 45,0`,
		order: []order{
			before("carry on", "stand"),
			before("carry on", "carry back"),
			before("carry on", "pass LCB"),
			before("carry on", "pass GK"),
			before("carry on", "pass RCM"), // marked
		},
	},
	{
		// A centre-back is pressed; a free man square across his own goal, a free man
		// wide: the ball across the goal is dearer when it is lost.
		//
		//	    LCB
		//	GK         lcf
		//	    RCB* rcf
		//	       RB
		name:    "pressed, square across the goal or wide",
		carrier: "RCB",
		ours: `RCB -38,-10 LCB -38,10 RB -33,-28 LB -30,30 CDM -26,2 GK -48,0 RCM -12,-10 LCM -10,10 LW 4,28 RW 4,-28
			CF 8,0`,
		theirs: `lcf -34,-9,-3,0 rcf -30,1 lcm -22,-3 rcm -20,6 lm -20,-21 rm -18,20 rcb 9,4 lcb 6,-6 lb 2,-22 rb 4,20
			gk 40,0`,
		order: []order{
			before("pass RB", "pass LCB"),
			before("pass RB", "take on"),
			before("pass RB", "carry on").known(length),
			before("pass RB", "pass CDM"),
			before("pass RB", "stand"),
		},
	},
	{
		// A centre-back is pressed, the man ahead has an opponent at his back, the
		// keeper is free: back to him.
		//
		//	     LCB rcf
		//	GK      RCB*lcf  CDM lcm
		//	           RB lm
		name:    "pressed, keeper free",
		carrier: "RCB",
		ours: `RCB -30,-9 LCB -31,10 RB -24,-29 LB -24,29 CDM -19,-2 GK -46,-1 RCM -6,-10 LCM -6,10 LW 8,28 RW 8,-28
			CF 10,0`,
		theirs: `lcf -26.5,-8,-2,0 rcf -29,8 lcm -17.8,-2 rcm -10,7 lm -22.5,-28 rm -14,20 rcb 11,4 lcb -4.5,-9 lb 6,-26 rb 8,20
			gk 40,0`,
		order: []order{
			before("pass GK", "pass CDM"),
			before("pass GK", "pass LCB"),
			before("pass GK", "take on"),
			before("pass GK", "carry on").known(length),
			before("pass GK", "pass RB"),
			safer("pass GK", "pass CDM"),
		},
	},
	{
		// The forward stands behind the last line, the winger level with it (Law 11):
		//
		//	           rb LW
		//	 LCM*     rcb
		//	          lcb    CF     gk |
		name:    "one offside, one level",
		carrier: "LCM",
		ours: `LCM 2,6 CF 28,-2 LW 22.9,24 RW 18,-28 RCM 2,-10 CDM -8,0 LB -6,26 RB -6,-26
			LCB -18,9 RCB -18,-9 GK -38,0`,
		theirs: `rb 23,15 rcb 23,6 lcb 22,-5 lb 22,-17 rm 12,16 rcm 13,7 lcm 13,-5 lm 12,-16 rcf 0,12 lcf -2,0 gk 46,0`,
		order: []order{
			before("pass LW", "pass CF"),
			before("pass RCM", "pass CF"),
		},
	},
	{
		// Played in from the keeper with his face to his own goal, an opponent at
		// his back: give it back or lay it off, do not turn.
		//
		//	      LCB
		//	GK       *CDM lcm
		//	      RCB
		name:    "back to the press",
		carrier: "CDM",
		face:    r2.Vec{X: -1},
		ours: `CDM -24,0 GK -45,0 LCB -33,12 RCB -33,-12 LB -20,29 RB -20,-29 LCM -6,10 RCM -6,-10 LW 8,28 RW 8,-28
			CF 10,0`,
		theirs: `lcm -22.6,0.2 rcm -11,8 rcf -25,9 lcf -25,-8 lm -14,-22 rm -14,22 rcb 11,4 lcb -3,-8 lb 6,-24 rb 6,22
			gk 40,0`,
		order: []order{
			before("pass LCB", "carry on"),
			before("pass RCB", "carry on"),
			before("pass RCB", "take on"),
			before("pass GK", "carry on"),
			before("pass RCB", "stand"),
		},
	},
}
