package sim_test

import (
	"context"
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// A run of two league-average teams.
func ExampleRun() {
	sc := model.AverageScenario()
	sc.Possessions = 200
	res, err := sim.Run(context.Background(), &sc, sim.Config{Workers: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	t := &res.Tally
	fmt.Println(res.Played, "played;", t.FinalThird <= t.FinalReached && t.Goal <= t.Shot)
	// Output: 200 played; true
}

// Two team-mates and an opponent wait for a pass of 20 m: the man it is played
// to is nearest to its path.
func ExampleControlModel_Control() {
	model := sim.ControlModel{Spread: 0.45, FootHeight: 1.1, HeadHeight: 2.4, HeadRate: 0.9, Step: 0.01}
	player := func(x, y float64) sim.Contender {
		return sim.Contender{Pos: r2.Vec{X: x, Y: y}, Reaction: 0.7, Speed: 5, Top: 9, Rate: 4.3}
	}
	players := []sim.Contender{player(20, 0), player(10, 12), player(16, 5)}
	ball := sim.GroundFlight(r2.Vec{}, r2.Vec{X: 1}, sim.GroundLaunch(20, 8))
	p := make([]float64, len(players))
	sum := model.Control(players, &ball, 5, p)
	fmt.Printf("receiver %.2f, team-mate %.2f, opponent %.2f, together %.2f\n", p[0], p[1], p[2], sum)
	// Output: receiver 0.70, team-mate 0.00, opponent 0.30, together 1.00
}
