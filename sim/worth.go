package sim

import (
	"math"

	"playout/model"
)

// Worth of places and shots, in goals. All take metres in the frame of the
// team that attacks.

// threat is the worth of having the ball at (x, y): the threat grid, bilinear
// between cell centres, on a pitch scaled to 105 x 68 m.
func threat(x, y float64, pitch model.Pitch) float64 {
	u := (x/pitch.Length+0.5)*16 - 0.5
	v := math.Abs(y)/pitch.Width*12 - 0.5
	u = min(max(u, 0), 15)
	v = min(max(v, 0), 5)
	i, j := min(int(u), 14), min(int(v), 4)
	fu, fv := u-float64(i), v-float64(j)
	a := threatGrid[i][j] + fv*(threatGrid[i][j+1]-threatGrid[i][j])
	b := threatGrid[i+1][j] + fv*(threatGrid[i+1][j+1]-threatGrid[i+1][j])
	return a + fu*(b-a)
}

// lossPrice is the chance that the opponent scores within 20 s of a loss, by
// 17.5 m bands from the own goal line and by the third of the width: middle,
// outer (|y| > 11.3 m). Bands are joined linearly at their centres.
//
// Source: computed from Pappalardo et al. (2019), CC BY 4.0, table of turnover
// cost.
var lossPrice = prices{
	{0.13913, 0.01634}, {0.02777, 0.01030}, {0.01206, 0.00698},
	{0.00619, 0.00456}, {0.00381, 0.00285}, {0.00156, 0.00120},
}

// prices are prices of a loss by band of the pitch and third of the width.
type prices [6][2]float64

// usualPrice is the price of a loss in midfield, goals.
const usualPrice = 0.005

// felt is the prices as they are felt: less than in proportion from place to place,
// by the power shape.
func (p prices) felt(shape float64) prices {
	for i := range p {
		for j := range p[i] {
			p[i][j] = usualPrice * math.Pow(p[i][j]/usualPrice, shape)
		}
	}
	return p
}

// at is the price of losing the ball at (x, y).
func (p *prices) at(x, y float64, pitch model.Pitch) float64 {
	u := min(max((x/pitch.Length+0.5)*6-0.5, 0), 5)
	i := min(int(u), 4)
	f := u - float64(i)
	// From the middle third of the width to the outer ones over 6 m.
	side := min(max((math.Abs(y)-8.3)/6, 0), 1)
	mid := p[i][0] + f*(p[i+1][0]-p[i][0])
	out := p[i][1] + f*(p[i+1][1]-p[i][1])
	return mid + side*(out-mid)
}

// Coefficients of the xG model. Source: logistic fit on 25,112 open-play shots
// of Pappalardo et al. (2019), CC BY 4.0.
const (
	xgIntercept = -1.07307
	xgDistance  = -0.10802 // per m
	xgAngle     = 1.64658  // per rad between the posts
	xgHeader    = -1.05491
)

// shotLogit is the log odds of a goal from (x, y).
func shotLogit(x, y float64, header bool, pitch model.Pitch) float64 {
	dx := max(pitch.Length/2-x, 0.1)
	d := math.Hypot(dx, y)
	const post = model.GoalWidth / 2
	angle := math.Atan2(y+post, dx) - math.Atan2(y-post, dx)
	z := xgIntercept + xgDistance*d + xgAngle*angle
	if header {
		z += xgHeader
	}
	return z
}
