package sim

import "gonum.org/v1/gonum/spatial/r2"

// Stills in front of the goal; see wingStills for the drawings.
var goalStills = []still{
	{
		// At the penalty spot, nobody within 4 m, the keeper on his line, every
		// team-mate marked:
		//
		//	   LW rb            |
		//	        rcb
		//	  CF*            gk |]
		//	        lcb
		//	   RW lb            |
		name:    "free at the penalty spot",
		carrier: "CF",
		ours: `CF 41,0 LW 39,12 RW 39,-12 LCM 32,6 RCM 31,-7 CDM 22,0 LB 22,24 RB 20,-24
			LCB 2,8 RCB 2,-8 GK -32,0`,
		theirs: `gk 51,0 rb 40.5,11.5 lb 40.5,-11.5 rcb 44,5.5 lcb 44,-5.5 rcm 33,5 lcm 32,-6 rm 30,16 lm 30,-16
			rcf 12,4 lcf 12,-4`,
		order: []order{
			before("shoot", "pass LW"),
			before("shoot", "pass RW"),
			before("shoot", "pass LCM"),
			before("shoot", "carry on"),
			before("shoot", "stand").known(counted),
			before("shoot", "take on"),
		},
	},
	{
		// At the penalty spot, but the keeper has come out and is at his feet; a
		// team-mate square of him has the open goal:
		//
		//	  CF* gk            |]
		//
		//	  RW                |
		name:    "keeper out, team-mate square",
		carrier: "CF",
		ours: `CF 41,1 RW 40.8,-6 LW 30,14 LCM 26,6 RCM 25,-7 CDM 18,0 LB 16,24 RB 16,-24
			LCB 2,8 RCB 2,-8 GK -32,0`,
		theirs: `gk 44,1 rb 33,16 lb 30,-14 rcb 38.5,6 lcb 34,-1 rcm 28,5 lcm 27,-6 rm 24,16 lm 24,-16
			rcf 12,4 lcf 12,-4`,
		order: []order{
			before("pass RW", "shoot"),
			before("shoot", "stand"),
			before("pass RW", "carry back"),
		},
	},
	{
		// Through on the side of the goal, a narrow angle; a team-mate square of him
		// in front of the open goal:
		//
		//	      LW* gk        |
		//	                    |]
		//	      CF            |]
		name:    "narrow angle, team-mate square",
		carrier: "LW",
		ours: `LW 46,10 CF 45,0 RW 34,-12 LCM 28,8 RCM 27,-7 CDM 18,0 LB 20,24 RB 16,-24
			LCB 2,8 RCB 2,-8 GK -32,0`,
		theirs: `gk 49,5.5 rb 40,14 lb 36,-11 rcb 40,5 lcb 39,-5 rcm 30,5 lcm 30,-6 rm 28,16 lm 26,-16
			rcf 12,4 lcf 12,-4`,
		order: []order{
			before("pass CF", "shoot"),
			before("pass CF", "stand"),
			before("pass CF", "carry back"),
			before("shoot", "pass LB"),
		},
	},
	{
		// From 32 m with three in the way a shot is the last thing to do:
		//
		//	        LW
		//	   LCM*    rcm  rcb     |]
		//	        RCM
		name:    "far out",
		carrier: "LCM",
		ours: `LCM 20,4 RCM 19,-10 LW 30,27 RW 30,-26 CF 34,0 CDM 8,2 LB 16,25 RB 12,-24
			LCB -6,8 RCB -6,-8 GK -36,0`,
		theirs: `rcm 25,4 lcm 25,-4 rm 26,16 lm 26,-16 rb 34,14 rcb 35,5 lcb 35,-4 lb 34,-13 rcf 12,6 lcf 12,-6 gk 49,0`,
		order: []order{
			before("pass LW", "shoot"),
			before("pass LB", "shoot"),
			before("pass RCM", "shoot"),
			before("carry on", "shoot"),
		},
	},
	{
		// At the byline with the box full: back to the man who comes up late rather
		// than into the crowd.
		//
		//	             *LW      |
		//	            rb        |
		//	   LCM >      rcb CF
		//	             lcb   gk |]
		//	           lb RW
		name:    "byline, box full",
		carrier: "LW",
		face:    r2.Vec{X: 0.3, Y: -1},
		ours: `LW 49.5,19 LCM 38.5,5,3,0 CF 46.5,2 RW 46,-7 RCM 34,-8 CDM 28,4 LB 34,24 RB 22,-24
			LCB 4,8 RCB 4,-8 GK -32,0`,
		theirs: `rb 47,15 rcb 47.5,3 lcb 47,-1.5 lb 47.2,-6 rcm 44.5,4 lcm 41,-4 rm 38,17 lm 36,-12 rcf 20,6 lcf 16,-6 gk 51,1.5`,
		order: []order{
			before("cut back LCM", "cross CF").known(blurred),
			before("cut back LCM", "cross RW"),
			before("cut back LCM", "shoot"),
			before("cut back LCM", "take on"),
			safer("cut back LCM", "cross CF"),
			safer("cut back LCM", "cross RW"),
			safer("cut back LCM", "cut back CF"),
		},
	},
	{
		// A line on the halfway with grass behind it, the forward on his way:
		//
		//	         |    rb
		//	 LCM*    |   rcb
		//	         |CF >           gk |
		//	         |   lcb
		name:    "high line, run in behind",
		carrier: "LCM",
		run:     "CF",
		ours: `LCM -8,4 CF 5,-1,6.5,0 LW 3,28 RW 3,-28 RCM -8,-10 CDM -16,0 LB -14,26 RB -14,-26
			LCB -26,9 RCB -26,-9 GK -42,0`,
		theirs: `rb 6,17 rcb 6,6 lcb 6,-7 lb 6,-18 rm -2,18 rcm -1,9 lcm -1,-5 lm -2,-16 rcf -12,10 lcf -14,-6 gk 40,0`,
		order: []order{
			before("pass CF", "pass LCB"), // later, as the next three
			before("pass CF", "carry on"),
			before("pass CF", "stand"),
			dearer("pass CF", "stand"),
			safer("space CF", "space CF").than("deep line, no room behind"),
		},
	},
	{
		// The line at the edge of its box, the keeper behind it: no room to play
		// into.
		//
		//	           rb     |
		//	 LCM*     rcb     |
		//	       CF       gk|]
		//	          lcb     |
		name:    "deep line, no room behind",
		carrier: "LCM",
		run:     "CF",
		ours: `LCM 18,4 CF 35.5,-1,4,0 LW 32,28 RW 32,-28 RCM 18,-10 CDM 10,0 LB 14,26 RB 12,-26
			LCB -4,9 RCB -4,-9 GK -32,0`,
		theirs: `rb 37,13 rcb 37,4 lcb 37,-4 lb 37,-13 rm 27,18 rcm 28,8 lcm 28,-4 lm 27,-14 rcf 14,12 lcf 12,-6 gk 47,0`,
		order: []order{
			before("pass LW", "space CF"),
			before("pass LB", "space CF"),
			safer("pass RCM", "space CF"),
		},
	},
}
