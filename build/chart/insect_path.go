package chart

// The outline of a shape as SVG path data (SVG 2, section 9.3), short: whole units, each point
// relative to the one before, and a curve that goes on smoothly without its first handle.

import "strconv"

// spot is a place in whole units of the viewBox.
type spot struct{ x, y int }

func (a spot) minus(b spot) spot { return spot{a.x - b.x, a.y - b.y} }

// nib writes one path. Each step starts at the rounded end of the last, so that no error adds up.
type nib struct {
	pen    *pen
	at     spot
	handle spot // from the last curve's second handle to its end; none after a line
	last   byte // the command that numbers without a letter repeat
}

func (n *nib) move(to spot) {
	n.pen.raw("M")
	n.last = 'M'
	n.pairs(false, to)
	n.at, n.handle = to, spot{}
}

func (n *nib) line(to spot) {
	if to != n.at {
		n.command('l', to)
	}
	n.at, n.handle = to, spot{}
}

func (n *nib) cubic(a, b, to spot) {
	switch {
	case a == n.at && b == n.at && to == n.at: // too small to be seen
		return
	case n.smooth(a):
		n.command('s', b, to)
	default:
		n.command('c', a, b, to)
	}
	n.at, n.handle = to, to.minus(b)
}

// smooth reports whether the curve goes on in the direction it came from, within a unit.
func (n *nib) smooth(a spot) bool {
	off := a.minus(n.at).minus(n.handle)
	return (n.last == 'c' || n.last == 's') && max(off.x, -off.x) <= 1 && max(off.y, -off.y) <= 1
}

func (n *nib) command(letter byte, to ...spot) {
	if letter != n.last {
		n.pen.out = append(n.pen.out, letter)
	}
	for i := range to {
		to[i] = to[i].minus(n.at)
	}
	n.pairs(letter == n.last, to...)
	n.last = letter
}

// pairs writes numbers; a minus sign parts them as well as a space does.
func (n *nib) pairs(after bool, list ...spot) {
	for i, p := range list {
		for k, v := range [2]int{p.x, p.y} {
			if v >= 0 && (after || i+k > 0) {
				n.pen.raw(" ")
			}
			n.pen.out = strconv.AppendInt(n.pen.out, int64(v), 10)
		}
	}
}
