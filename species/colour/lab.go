package colour

// From sRGB to CIELAB, and the difference between two colours.

import (
	"math"

	"guidegen/content/measure"
)

// Lab is a colour in CIELAB under D65 for the 2° observer.
type Lab struct{ L, A, B float64 }

// linear undoes the sRGB transfer curve (IEC 61966-2-1), 0 … 1.
func linear(channel uint8) float64 {
	v := float64(channel) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// toXYZ is the matrix of the sRGB primaries and the D65 white, to seven
// decimals (Lindbloom). The sums of its rows are that white.
var toXYZ = [3][3]float64{
	{0.4124564, 0.3575761, 0.1804375},
	{0.2126729, 0.7151522, 0.0721750},
	{0.0193339, 0.1191920, 0.9503041},
}

// Lab converts to CIELAB (CIE 15:2004).
func (c RGB) Lab() Lab {
	rgb := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var f [3]float64
	for i, row := range toXYZ {
		var sum, white float64
		for j := range row {
			sum = float64(row[j]*rgb[j]) + sum
			white += row[j]
		}
		f[i] = labCurve(sum / white)
	}
	return Lab{float64(116*f[1]) - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])}
}

func labCurve(t float64) float64 {
	const edge = 6. / 29
	if t > edge*edge*edge {
		return math.Cbrt(t)
	}
	return float64(t/(3*edge*edge)) + 4./29
}

// JustControlled is the difference that a tyer can just control (our
// judgement); what lies below is no difference in practice.
const JustControlled = 2

// Difference is the colour difference ΔE₀₀ (CIEDE2000) with kL = kC = kH = 1:
//
//	ΔE₀₀ = √( (ΔL'/S_L)² + (ΔC'/S_C)² + (ΔH'/S_H)² + R_T (ΔC'/S_C)(ΔH'/S_H) )
//
// 0 is the same colour. It is symmetric, and no metric: two steps may be
// smaller than one.
func Difference(p, q Lab) float64 {
	// Sharma, Wu & Dalal (2005), The CIEDE2000 color-difference formula,
	// Color Research and Application 30:21–30, doi:10.1002/col.20070.
	meanC := (math.Hypot(p.A, p.B) + math.Hypot(q.A, q.B)) / 2
	g := (1 - chromaShare(meanC)) / 2
	c1, h1 := polar(float64(p.A*(1+g)), p.B)
	c2, h2 := polar(float64(q.A*(1+g)), q.B)

	// The hue halfway and the way to it. A hue difference of 180° to within
	// rounding must not be sent the other way round by its last bit.
	turn, sum := h2-h1, h1+h2
	switch {
	case c1 == 0 || c2 == 0: // a grey has no hue: the other's holds
		turn = 0
	case measure.Round9(math.Abs(turn)) <= 180:
		sum /= 2
	default:
		turn -= math.Copysign(360, turn)
		sum = math.Mod((sum+360)/2, 360)
	}

	meanL, meanC2 := (p.L+q.L)/2, (c1+c2)/2
	deltaH := 2 * math.Sqrt(c1*c2) * sin(turn/2)
	t := 1 - float64(0.17*cos(sum-30)) + float64(0.24*cos(2*sum)) +
		float64(0.32*cos(float64(3*sum)+6)) - float64(0.20*cos(float64(4*sum)-63))
	l50 := float64((meanL - 50) * (meanL - 50))
	sL := 1 + float64(0.015*l50)/math.Sqrt(20+l50)
	sC := 1 + float64(0.045*meanC2)
	sH := 1 + float64(0.015*meanC2*t)
	bend := (sum - 275) / 25
	rT := -2 * chromaShare(meanC2) * sin(60*math.Exp(-float64(bend*bend)))

	dL, dC, dH := (q.L-p.L)/sL, (c2-c1)/sC, deltaH/sH
	return math.Sqrt(max(0, float64(dL*dL)+float64(dC*dC)+float64(dH*dH)+float64(rT*dC*dH)))
}

// chromaShare is √(C⁷ / (C⁷ + 25⁷)).
func chromaShare(c float64) float64 {
	c7 := math.Pow(c, 7)
	return math.Sqrt(c7 / (c7 + 6103515625))
}

// polar gives the chroma and the hue in degrees, 0 … 360.
func polar(a, b float64) (chroma, hue float64) {
	hue = math.Atan2(b, a) * 180 / math.Pi
	if hue < 0 {
		hue += 360
	}
	return math.Hypot(a, b), hue
}

func sin(degrees float64) float64 { return math.Sin(degrees * math.Pi / 180) }
func cos(degrees float64) float64 { return math.Cos(degrees * math.Pi / 180) }
