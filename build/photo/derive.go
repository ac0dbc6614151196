package photo

// From a file's bytes to the pictures of the site.

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"sync"
)

// quality of the JPEGs written, of 100: half the bytes of 90, and no harm seen
// at arm's length.
const quality = 80

// Made is one file of the site.
type Made struct {
	Name string
	Size Size
	JPEG []byte
}

// A large picture takes hundreds of megabytes while it is worked on, so it is
// worked on alone; small ones go side by side.
var atWork sync.RWMutex

const large = 12 << 20 // pixels

// Derive makes the pictures in all sizes, smallest first. The error is a
// *Refusal where the file turns out to be broken.
func Derive(b []byte) ([]Made, error) {
	p, err := Inspect(b)
	if err != nil {
		return nil, err
	}
	if p.Width*p.Height > large {
		atWork.Lock()
		defer atWork.Unlock()
	} else {
		atWork.RLock()
		defer atWork.RUnlock()
	}
	img, _, err := image.Decode(bytes.NewReader(b))
	if err != nil {
		return nil, broken(err)
	}
	sizes := p.Sizes()
	widest := sizes[len(sizes)-1]
	lying := widest
	if p.Orientation > 4 {
		lying = Size{widest.Height, widest.Width}
	}
	full := upright(reduce(opaqueRows(img), img.Bounds().Dx(), img.Bounds().Dy(), lying), p.Orientation)
	out := make([]Made, len(sizes))
	for i, s := range sizes {
		pic := full
		if s != widest {
			pic = reduce(rows(full), full.Rect.Dx(), full.Rect.Dy(), s)
		}
		var buf bytes.Buffer
		if err := jpeg.Encode(&buf, pic, &jpeg.Options{Quality: quality}); err != nil {
			return nil, err
		}
		out[i] = Made{p.Name(s.Width), s, buf.Bytes()}
	}
	return out, nil
}

// opaqueRows reads rows of any picture as RGBA on white, one at a time: a
// JPEG has no transparency.
func opaqueRows(img image.Image) func(y int) []uint8 {
	b := img.Bounds()
	strip := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	white := image.NewUniform(color.White)
	return func(y int) []uint8 {
		draw.Draw(strip, strip.Rect, white, image.Point{}, draw.Src)
		draw.Draw(strip, strip.Rect, img, image.Pt(b.Min.X, b.Min.Y+y), draw.Over)
		return strip.Pix
	}
}

func rows(img *image.RGBA) func(y int) []uint8 {
	return func(y int) []uint8 { return img.Pix[y*img.Stride : y*img.Stride+4*img.Rect.Dx()] }
}

// upright turns a picture as its orientation asks.
func upright(in *image.RGBA, orientation int) *image.RGBA {
	if orientation == 1 {
		return in
	}
	w, h := in.Rect.Dx(), in.Rect.Dy()
	ow, oh := w, h
	if orientation > 4 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range oh {
		for x := range ow {
			sx, sy := x, y
			switch orientation {
			case 2:
				sx = w - 1 - x
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sy = h - 1 - y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, h-1-x
			case 7:
				sx, sy = w-1-y, h-1-x
			case 8:
				sx, sy = w-1-y, x
			}
			copy(out.Pix[out.PixOffset(x, y):][:4], in.Pix[in.PixOffset(sx, sy):][:4])
		}
	}
	return out
}
