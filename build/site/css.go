package site

// This file finds what a style asks for: url(…) and @import "…" (CSS Syntax Level 3, section 4.3).

import (
	"bytes"
	"strings"
)

func (r *reader) style(css []byte, where string) {
	rest := withoutComments(css)
	for len(rest) > 0 {
		u, at := nextWord(rest, "url(")
		i, iat := nextWord(rest, "@import")
		switch {
		case at < 0 && iat < 0:
			return
		case iat < 0 || at >= 0 && at < iat:
			var link string
			link, rest = urlEnd(u)
			// In a stylesheet of its own, "#id" still means the page that uses it.
			if !(where == "stylesheet" && strings.HasPrefix(link, "#")) {
				r.add(Ref{URL: link, By: where, Asked: true})
			}
		default:
			rest = bytes.TrimLeft(i, " \t\r\n\f")
			if len(rest) > 0 && (rest[0] == '"' || rest[0] == '\'') {
				var link string
				link, rest = quoted(rest)
				r.add(Ref{URL: link, By: where + " @import", Asked: true})
			}
		}
	}
}

// nextWord finds a word in any letter case; it returns what follows it, and where it begins.
func nextWord(css []byte, word string) (after []byte, at int) {
	for i := 0; i+len(word) <= len(css); i++ {
		if css[i]|0x20 == word[0]|0x20 && bytes.EqualFold(css[i:i+len(word)], []byte(word)) {
			return css[i+len(word):], i
		}
	}
	return nil, -1
}

// urlEnd reads the address of a url( … ), with or without quotes.
func urlEnd(css []byte) (string, []byte) {
	css = bytes.TrimLeft(css, " \t\r\n\f")
	if len(css) > 0 && (css[0] == '"' || css[0] == '\'') {
		return quoted(css)
	}
	end := bytes.IndexByte(css, ')')
	if end < 0 {
		end = len(css)
	}
	return cssText(bytes.TrimRight(css[:end], " \t\r\n\f")), css[end:]
}

func quoted(css []byte) (string, []byte) {
	for i := 1; i < len(css); i++ {
		switch css[i] {
		case '\\':
			i++
		case css[0]:
			return cssText(css[1:i]), css[i+1:]
		}
	}
	return cssText(css[1:]), nil
}

// cssText undoes escapes: a backslash and up to six hexadecimal digits, or any other character.
func cssText(b []byte) string {
	if bytes.IndexByte(b, '\\') < 0 {
		return string(b)
	}
	var out strings.Builder
	for i := 0; i < len(b); i++ {
		if b[i] != '\\' || i+1 == len(b) {
			out.WriteByte(b[i])
			continue
		}
		i++
		value, digits := rune(0), 0
		for ; digits < 6 && i < len(b) && hexValue(b[i]) >= 0; i, digits = i+1, digits+1 {
			value = value<<4 | rune(hexValue(b[i]))
		}
		switch {
		case digits == 0:
			out.WriteByte(b[i])
		default:
			out.WriteRune(value)
			if i == len(b) || b[i] != ' ' { // one space ends the digits and is part of the escape
				i--
			}
		}
	}
	return out.String()
}

func withoutComments(css []byte) []byte {
	if !bytes.Contains(css, []byte("/*")) {
		return css
	}
	var out []byte
	for {
		before, after, found := bytes.Cut(css, []byte("/*"))
		out = append(out, before...)
		if !found {
			return out
		}
		_, css, _ = bytes.Cut(after, []byte("*/"))
		out = append(out, ' ')
	}
}

// hexValue returns the value of a hexadecimal digit, or -1.
func hexValue(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'a' <= c|0x20 && c|0x20 <= 'f':
		return int(c|0x20-'a') + 10
	}
	return -1
}
