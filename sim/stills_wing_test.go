package sim

import "gonum.org/v1/gonum/spatial/r2"

// Stills of outnumbering them and of the wing. In the drawings the team on the
// ball attacks to the right, its left is above; letters in capitals are its own
// men, small ones the opponents, * is at the ball's carrier, the lines are not
// to scale. Places are metres from the centre spot.
var wingStills = []still{
	{
		// Two against one, the one comes to the carrier, the others are on their way back:
		//
		//	CF*  lcb              |
		//	                   gk |
		//	  RW >                |
		name:    "two against one, he commits",
		carrier: "CF",
		ours: `CF 22,4,4,0 RW 22,-6,5,0 LW 6,26 CDM -8,0 LCM 0,10 RCM 0,-8
			LB -14,24 LCB -22,8 RCB -22,-8 RB -14,-24 GK -40,0`,
		theirs: `lcb 25,3,-2,0 gk 47,0 rcb 10,8,5,0 lb 8,-18,5,1 rb 6,22,5,-1 lm 0,-20,4,0 lcm 2,-4,5,0 rcm 2,6,5,0 rm 0,20,4,0
			lcf -16,-6 rcf -16,6`,
		order: []order{
			before("pass RW", "take on"),
			before("pass RW", "stand"),
			before("pass RW", "carry back"),
			before("pass RW", "shoot"), // from 30 m
			before("pass RW", "pass LW"),
			safer("pass RW", "take on"),
		},
	},
	{
		// Two against one, the one stays off in the lane to the second:
		//
		//	CF*                   |
		//	        lcb        gk |
		//	  RW >                |
		name:    "two against one, he stays off",
		carrier: "CF",
		ours: `CF 22,4,4,0 RW 24,-7,5,0 LW 6,26 CDM -8,0 LCM 0,10 RCM 0,-8
			LB -14,24 LCB -22,8 RCB -22,-8 RB -14,-24 GK -40,0`,
		theirs: `lcb 31,-4 gk 47,0 rcb 10,8,5,0 lb 8,-18,5,1 rb 6,22,5,-1 lm 0,-20,4,0 lcm 2,-4,5,0 rcm 2,6,5,0 rm 0,20,4,0
			lcf -16,-6 rcf -16,6`,
		order: []order{
			before("carry on", "stand"),
			before("carry on", "carry back"),
			before("carry on", "feet RW"), // drive at him until he has to choose
			before("carry on", "shoot"),
			safer("carry on", "carry on").than("two against one, he commits"),
		},
	},
	{
		// Three against two on the wing: the full-back has gone out to the winger,
		// the left-back runs underneath into the room he has left.
		//
		//	          LW rb       |
		//	    LB >              |
		//	LCM*rm                |
		//	              rcb     |
		name:    "three against two, full-back out",
		carrier: "LCM",
		run:     "LB",
		ours: `LCM 18,17 LW 29,30 LB 24,23,5.5,-0.5 CF 31,3 RW 30,-22 RCM 14,-6 CDM 6,4
			LCB -8,10 RCB -8,-8 RB 4,-24 GK -36,0`,
		theirs: `rb 30.5,29 rm 20.5,17 rcb 32,9 lcb 32,0 lb 30,-13 rcm 21,6 lcm 20,-3 lm 20,-14
			rcf 8,6 lcf 8,-6 gk 47,0`,
		order: []order{
			before("pass LB", "feet LW"),
			before("pass LB", "take on"),
			before("pass LB", "stand"),
			before("pass LB", "feet CF"),
			safer("pass LB", "feet LW"),
		},
	},
	{
		// The same, but the full-back goes with the runner: the winger is free.
		//
		//	          LW          |
		//	    LB >   rb         |
		//	LCM*rm                |
		//	              rcb     |
		name:    "three against two, full-back inside",
		carrier: "LCM",
		run:     "LB",
		ours: `LCM 18,17 LW 29,31 LB 24,21,5.5,-0.5 CF 31,3 RW 30,-22 RCM 14,-6 CDM 6,4
			LCB -8,10 RCB -8,-8 RB 4,-24 GK -36,0`,
		theirs: `rb 27.5,21,4,0 rm 20.5,17 rcb 32,9 lcb 32,0 lb 30,-13 rcm 21,6 lcm 20,-3 lm 20,-14
			rcf 8,6 lcf 8,-6 gk 47,0`,
		order: []order{
			before("feet LW", "pass LB"),
			before("feet LW", "take on"),
			before("feet LW", "stand"),
			safer("feet LW", "pass LB"),
			safer("feet LW", "feet LW").than("three against two, full-back out"),
		},
	},
	{
		// A winger alone against the full-back, nobody covers:
		//
		//	LB     LW* rb         |
		//	                      |
		//	              rcb     |
		name:    "full-back alone",
		carrier: "LW",
		ours: `LW 28,28 LB 12,29 LCM 16,12 CF 32,2 RW 30,-24 RCM 12,-8 CDM 4,2
			LCB -10,10 RCB -10,-8 RB 4,-24 GK -36,0`,
		theirs: `rb 30.5,27.5 rcb 34,6 lcb 34,-2 lb 32,-14 rm 15,20 rcm 18,6 lcm 18,-4 lm 18,-16
			rcf 6,6 lcf 6,-6 gk 47,0`,
		order: []order{
			before("take on", "pass LB"), // at him, while he is alone
			before("take on", "pass LCB"),
			before("take on", "carry back").known(hurried),
			dearer("take on", "take on").than("full-back covered"),
		},
	},
	{
		// The same with the midfielder back to double up:
		//
		//	LB     LW* rb         |
		//	       rm    rcb      |
		name:    "full-back covered",
		carrier: "LW",
		ours: `LW 28,28 LB 12,29 LCM 16,12 CF 32,2 RW 30,-24 RCM 12,-8 CDM 4,2
			LCB -10,10 RCB -10,-8 RB 4,-24 GK -36,0`,
		theirs: `rb 30.5,27.5 rm 27.5,24.5 rcb 34,21 lcb 34,-2 lb 32,-14 rcm 18,6 lcm 18,-4 lm 18,-16
			rcf 6,6 lcf 6,-6 gk 47,0`,
		order: []order{
			before("pass LB", "take on").known(length),
			before("pass LB", "carry on").known(length),
			before("pass LB", "stand").known(length),
		},
	},
	{
		// Back to goal under tight pressure at the touchline: lay it off or play
		// it back, do not turn.
		//
		//	----------------------
		//	LB        *LW rb
		//	      LCM
		name:    "back to goal at the touchline",
		carrier: "LW",
		face:    r2.Vec{X: -1, Y: -0.2},
		ours: `LW 14,30 LB 2,27 LCM 7,20 CF 20,2 RW 18,-26 RCM 4,-8 CDM -4,4
			LCB -18,10 RCB -18,-8 RB -6,-24 GK -40,0`,
		theirs: `rb 15.3,29.6 rm 12,14 rcb 24,10 lcb 24,0 lb 22,-14 rcm 10,6 lcm 10,-4 lm 10,-16
			rcf -4,4 lcf -4,-8 gk 46,0`,
		order: []order{
			before("pass LB", "carry on"),
			before("pass LCM", "carry on"),
			before("pass LCM", "take on"),
			before("pass LCM", "stand").known(length),
			before("pass LB", "high CF"),
		},
	},
	{
		// Switch under way, the block half across: the ball has come from the
		// left-back's side, the far winger is free now.
		//
		//	LB   rm  rb
		//	LCB    rcm  rcb
		//	   CDM*   lcm lcb
		//	            lm lb
		//	RB               RW
		name:    "switch under way, far side open",
		carrier: "CDM",
		face:    r2.Vec{X: 0.8, Y: -0.6},
		ours: `CDM -6,-2 LB 4,29 LCB -16,13 RCB -16,-8 RB -6,-24 LCM 4,12 RCM 6,-8 LW 20,28 CF 20,4 RW 14,-30
			GK -40,0`,
		theirs: `rm 8,24 rcm 6,14 lcm 6,2 lm 7,-9 rcf -2,12 lcf -3,4 rb 20,22 rcb 20,12 lcb 20,4 lb 20,-9 gk 45,1`,
		order: []order{
			before("pass RW", "pass LB"), // do not play it back to where they are
			before("pass RB", "pass LB"),
			before("pass RW", "pass LW"),
			before("pass RW", "pass LCB"),
			safer("pass RW", "pass LW"),
		},
	},
	{
		// The same when the block has arrived: the winger is marked, the midfielder
		// in the lane to him.
		//
		//	LB
		//	LCB   rm      rb
		//	   CDM* rcm   rcb
		//	        lcm  lcb
		//	RB        lm   RW lb
		name:    "switch under way, block across",
		carrier: "CDM",
		face:    r2.Vec{X: 0.8, Y: -0.6},
		ours: `CDM -6,-2 LB 4,29 LCB -16,13 RCB -16,-8 RB -6,-24 LCM 4,12 RCM 6,-8 LW 20,28 CF 20,4 RW 14,-30
			GK -40,0`,
		theirs: `rm 6,9 rcm 5,0 lcm 5,-10 lm 4,-20 rcf -1,4 lcf -2,-8 rb 20,8 rcb 20,-1 lcb 20,-10 lb 15.5,-28.5 gk 45,-1`,
		order: []order{
			before("pass LB", "pass RW"), // the free man is now where it came from
			before("pass LCB", "pass RW"),
			before("pass RB", "pass RW"),
			safer("pass RB", "pass RW"),
		},
	},
}
