package photo

// Making a picture smaller: cubic convolution by Keys with a = -1/2, the
// Catmull-Rom kernel, widened by the factor of reduction (Keys 1981, IEEE
// Transactions on Acoustics, Speech, and Signal Processing 29:1153,
// doi:10.1109/TASSP.1981.1163711). The weights are whole numbers, so the
// result is the same on machines that round products otherwise.

import (
	"image"
	"math"
)

const one = 1 << 14 // the sum of the weights of one pixel

// tap is the pixels that one pixel of the result is made of.
type tap struct {
	from    int
	weights []int32
}

// taps finds them along one side, from in pixels to out pixels.
func taps(in, out int) []tap {
	scale := float64(in) / float64(out)
	reach := 2 * scale
	list := make([]tap, out)
	for i := range list {
		centre := float64((float64(i)+0.5)*scale) - 0.5
		from, to := max(0, int(math.Ceil(centre-reach))), min(in-1, int(math.Floor(centre+reach)))
		raw, sum := make([]float64, to-from+1), 0.0
		for k := range raw {
			raw[k] = kernel((float64(from+k) - centre) / scale)
			sum += raw[k]
		}
		t := tap{from, make([]int32, len(raw))}
		left, most := int32(one), 0
		for k, w := range raw {
			t.weights[k] = int32(math.Round(float64(w/sum) * one))
			left -= t.weights[k]
			if t.weights[k] > t.weights[most] {
				most = k
			}
		}
		t.weights[most] += left
		list[i] = t
	}
	return list
}

func kernel(x float64) float64 {
	x = math.Abs(x)
	x2 := float64(x * x)
	x3 := float64(x2 * x)
	switch {
	case x < 1:
		return float64(1.5*x3) - float64(2.5*x2) + 1
	case x < 2:
		return float64(-0.5*x3) + float64(2.5*x2) - float64(4*x) + 2
	}
	return 0
}

// reduce makes a picture of w × h pixels smaller. Rows are asked for from the
// top, each once.
func reduce(row func(y int) []uint8, w, h int, to Size) *image.RGBA {
	// Narrowed, not yet lowered; in sixteenths and uncut, so that it is rounded
	// to whole steps once only. No alpha.
	half := make([]int16, 3*to.Width*h)
	across := taps(w, to.Width)
	for y := range h {
		src, dst := row(y), half[3*to.Width*y:]
		for x, t := range across {
			var r, g, b int32
			p := src[4*t.from:]
			for k, c := range t.weights {
				q := p[4*k : 4*k+3 : 4*k+3]
				r, g, b = r+c*int32(q[0]), g+c*int32(q[1]), b+c*int32(q[2])
			}
			dst[3*x], dst[3*x+1], dst[3*x+2] = sixteenths(r), sixteenths(g), sixteenths(b)
		}
	}
	out := image.NewRGBA(image.Rect(0, 0, to.Width, to.Height))
	sums := make([]int32, 3*to.Width)
	for y, t := range taps(h, to.Height) {
		for i := range sums {
			sums[i] = 16 * one / 2
		}
		for k, c := range t.weights {
			for i, v := range half[3*to.Width*(t.from+k):][:len(sums)] {
				sums[i] += c * int32(v)
			}
		}
		dst := out.Pix[y*out.Stride:]
		for x := range to.Width {
			dst[4*x], dst[4*x+1], dst[4*x+2], dst[4*x+3] = clamp(sums[3*x]), clamp(sums[3*x+1]), clamp(sums[3*x+2]), 255
		}
	}
	return out
}

func sixteenths(v int32) int16 { return int16((v + one/32) >> 10) }

func clamp(v int32) uint8 { return uint8(min(max(v>>18, 0), 255)) }
