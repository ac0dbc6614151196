// Package photo makes the pictures of a site out of those of a guide: upright,
// in a few widths, and without anything but what can be seen. A picture is
// decoded and encoded anew, so no camera, owner, place or time that its file
// names can pass through; its colour profile is lost with them, and colours
// are taken for sRGB: Picture.Colours says where they are not.
//
// The same bytes in give the same bytes out on any machine: only whole numbers
// are reckoned with once a picture is read.
package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	_ "image/jpeg" // formats that are read
	_ "image/png"
	"strconv"

	_ "golang.org/x/image/webp"
)

// The largest pictures that are read. A few hundred bytes can claim to be
// larger than any memory, so the head of a file is asked first.
const (
	MaxSide   = 12000    // pixels along the longer side
	MaxPixels = 40 << 20 // 40 megapixels
)

// Widths are those that a picture is made in, none wider than itself.
var Widths = []int{360, 720, 1440}

// version stands in every name: raise it when the same picture comes out
// otherwise, so that a copy kept on a device isn't taken for the new one.
const version = "1"

// Why says why a picture is refused.
type Why int

// The reasons.
const (
	WrongFormat Why = iota // no JPEG, PNG or WebP by its content
	TooLarge               // more pixels than are read
	Broken                 // of a format that is read, but not readable
)

// Refusal is an error of the picture, never of the program.
type Refusal struct {
	Why  Why
	What string // "is a GIF"
	Do   string // what would be right
}

func (r *Refusal) Error() string { return r.What }

// Picture is what the head of a file says.
type Picture struct {
	Format        string // "jpeg", "png" or "webp", by content
	Width, Height int    // pixels, upright
	Orientation   int    // 1 … 8 as in the Exif standard; 1 is upright
	Colours       string // the colour profile, by its own name, where it is another than sRGB
	hash          string
}

// Size is one of the widths that a picture is made in.
type Size struct{ Width, Height int }

// Inspect reads the head of a picture. The error is a *Refusal.
func Inspect(b []byte) (Picture, error) {
	if r := refused(b); r != nil {
		return Picture{}, r
	}
	c, format, err := image.DecodeConfig(bytes.NewReader(b))
	if err != nil {
		return Picture{}, broken(err)
	}
	switch {
	case c.Width < 1 || c.Height < 1:
		return Picture{}, broken(fmt.Errorf("it has no pixels"))
	case c.Width > MaxSide || c.Height > MaxSide || c.Width*c.Height > MaxPixels:
		return Picture{}, &Refusal{TooLarge, fmt.Sprintf("is %d × %d pixels", c.Width, c.Height),
			fmt.Sprintf("scale it down: at most %d pixels along a side and %d megapixels are read; 2000 pixels along the longer side are plenty", MaxSide, MaxPixels>>20)}
	}
	sum := sha256.Sum256(append([]byte(version), b...))
	p := Picture{format, c.Width, c.Height, Orientation(b), otherColours(b), hex.EncodeToString(sum[:10])}
	if p.Orientation > 4 {
		p.Width, p.Height = p.Height, p.Width
	}
	return p, nil
}

func broken(err error) *Refusal {
	return &Refusal{Broken, "can't be read: " + err.Error(), "the file is damaged or cut short; save the picture anew"}
}

// Sizes are the sizes that the picture is made in, smallest first; it is never
// enlarged, and the last is its own where it is narrower than the widest.
func (p Picture) Sizes() []Size {
	var out []Size
	for _, w := range Widths {
		if w >= p.Width {
			return append(out, p.at(p.Width))
		}
		out = append(out, p.at(w))
	}
	return out
}

func (p Picture) at(width int) Size {
	return Size{width, max(1, (2*p.Height*width+p.Width)/(2*p.Width))}
}

// Name is the file name of the picture in a width. It comes from the content
// alone: a guide's own file names may say more than is meant for everyone.
func (p Picture) Name(width int) string { return p.hash + "-" + strconv.Itoa(width) + ".jpg" }

// Same reports whether the bytes are those that the picture was read from.
func (p Picture) Same(b []byte) bool {
	sum := sha256.Sum256(append([]byte(version), b...))
	return hex.EncodeToString(sum[:10]) == p.hash
}
