package photo

// The way through a picture's metadata, and the first of the two things that are
// read of it: which way up it is (Exif 2.32, CIPA DC-008-2019, section 4.6.4, tag
// 274 Orientation). Whatever is odd about it means upright.

import (
	"bytes"
	"encoding/binary"
)

// Orientation reads the way a picture lies from its file: 1 upright, 2
// mirrored, 3 turned by 180°, 4 mirrored top to bottom, 5 mirrored along the
// falling diagonal, 6 to be turned clockwise, 7 mirrored along the rising
// diagonal, 8 to be turned anticlockwise.
func Orientation(b []byte) int {
	way := 1
	metadata(b, func(name string, data []byte) bool {
		tiff, marked := bytes.CutPrefix(data, []byte("Exif\x00\x00"))
		switch {
		case name == "eXIf", name == "EXIF", name == "\xe1" && marked:
			way = tiffOrientation(tiff)
			return false
		}
		return true
	})
	return way
}

// metadata visits what stands in a file beside the picture, until visit says no: the
// segments of a JPEG before the first scan by their marker's second byte (ITU-T T.81,
// annex B), the chunks of a PNG or a WebP by their names. Where a file is cut short,
// it stops.
func metadata(b []byte, visit func(name string, data []byte) bool) {
	switch {
	case bytes.HasPrefix(b, []byte("\xff\xd8")):
		segments(b[2:], visit)
	case bytes.HasPrefix(b, []byte("\x89PNG\r\n\x1a\n")):
		chunks(b[8:], binary.BigEndian, 4, 8, 12, 1, visit)
	case len(b) >= 12 && string(b[:4]) == "RIFF":
		chunks(b[12:], binary.LittleEndian, 0, 8, 8, 2, visit)
	}
}

func segments(b []byte, visit func(name string, data []byte) bool) {
	for len(b) >= 4 && b[0] == 0xff {
		m := b[1]
		switch {
		case m == 0xff: // fill
			b = b[1:]
			continue
		case m == 0xd8 || m == 0x01 || m >= 0xd0 && m <= 0xd7: // no length follows
			b = b[2:]
			continue
		case m == 0xda || m == 0xd9: // the scan, the end
			return
		}
		n := int(binary.BigEndian.Uint16(b[2:]))
		if n < 2 || n+2 > len(b) || !visit(string([]byte{m}), b[4:n+2]) {
			return
		}
		b = b[n+2:]
	}
}

// chunks walks the chunks of a PNG or a WebP: where in a chunk its name
// stands, how many bytes stand before the data and around it, and to how
// many bytes data is filled up.
func chunks(b []byte, order binary.ByteOrder, nameAt, before, around, fill int, visit func(name string, data []byte) bool) {
	for len(b) >= around {
		n := int64(order.Uint32(b[4-nameAt:]))
		if n+int64(around) > int64(len(b)) || !visit(string(b[nameAt:nameAt+4]), b[before:before+int(n)]) {
			return
		}
		next := n + int64(around) + n%int64(fill)
		if next > int64(len(b)) {
			return
		}
		b = b[next:]
	}
}

// tiffOrientation reads the tag from the first directory (TIFF 6.0, section 2).
func tiffOrientation(b []byte) int {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(b, []byte("II*\x00")):
		order = binary.LittleEndian
	case bytes.HasPrefix(b, []byte("MM\x00*")):
		order = binary.BigEndian
	default:
		return 1
	}
	if len(b) < 8 {
		return 1
	}
	at := int64(order.Uint32(b[4:]))
	if at < 8 || at+2 > int64(len(b)) {
		return 1
	}
	dir := b[at:]
	n := int(order.Uint16(dir))
	dir = dir[2:]
	for range n {
		if len(dir) < 12 {
			return 1
		}
		const short = 3
		if order.Uint16(dir) == 0x0112 && order.Uint16(dir[2:]) == short && order.Uint32(dir[4:]) == 1 {
			if o := int(order.Uint16(dir[8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
		dir = dir[12:]
	}
	return 1
}
