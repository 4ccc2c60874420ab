package table

import (
	"bytes"
	"encoding/binary"
	"math/bits"
)

// A scanner steps through the records of a text. It remembers the positions of the next
// line feed, carriage return and quote, so that no text is searched twice.
type scanner struct {
	text                        []byte
	delimiter                   byte
	pos                         int
	lineFeed, carriage, quoteAt int // next one at or after pos, len(text) if none; stale if less than pos
	searched                    bool
}

// A span is the position of a record in the scanner's text.
type span struct {
	start, stop, end int  // stop is where the line end begins, end is after it
	folded           bool // there are line ends within its quotes
}

// next returns the record at pos and moves past it. If rec is not nil, its cells are
// stored there. It reports false at the end of the text, and if a quote is never
// closed.
func (s *scanner) next(rec *Record) (span, bool) {
	if s.pos >= len(s.text) {
		return span{}, false
	}
	s.look()
	record := span{start: s.pos, stop: min(s.lineFeed, s.carriage)}
	switch {
	case s.quoteAt < record.stop:
		stop, open := walk(s.text, s.pos, s.delimiter, rec)
		if open {
			return span{}, false
		}
		record.folded, record.stop = stop > record.stop, stop
	case rec != nil:
		rec.split(s.text[record.start:record.stop], s.delimiter)
	}
	record.end = lineEnd(s.text, record.stop)
	s.pos = record.end
	return record, true
}

// look updates the three positions for pos.
func (s *scanner) look() {
	if !s.searched {
		s.searched, s.lineFeed, s.carriage, s.quoteAt = true, -1, -1, -1
	}
	if s.lineFeed < s.pos {
		s.lineFeed = indexFrom(s.text, s.pos, '\n')
	}
	if s.carriage < s.pos {
		s.carriage = indexFrom(s.text, s.pos, '\r')
	}
	if s.quoteAt < s.pos {
		s.quoteAt = indexFrom(s.text, s.pos, '"')
	}
}

// indexFrom returns the index of c at or after from, len(text) if there is none.
func indexFrom(text []byte, from int, c byte) int {
	if i := bytes.IndexByte(text[from:], c); i >= 0 {
		return from + i
	}
	return len(text)
}

// lineEnd returns the index after the line end that begins at stop: a line feed, a
// carriage return, or both.
func lineEnd(text []byte, stop int) int {
	if stop >= len(text) {
		return stop
	}
	if text[stop] == '\r' && stop+1 < len(text) && text[stop+1] == '\n' {
		return stop + 2
	}
	return stop + 1
}

// walk steps through a record with quotes, from its first byte to the line end outside
// them. If rec is not nil, it stores the cells there. A quote counts only at the
// beginning of a cell, perhaps after blanks: the inch sign of 32.5" is text.
func walk(text []byte, pos int, delimiter byte, rec *Record) (stop int, open bool) {
	rec.clear()
	for {
		begin := pos
		for pos < len(text) && isBlank(text[pos], delimiter) {
			pos++
		}
		if pos == len(text) || text[pos] != '"' {
			pos = cellEnd(text, pos, delimiter)
			rec.add(text[begin:pos])
		} else {
			closing, doubled := closingQuote(text, pos+1)
			if closing < 0 {
				return 0, true
			}
			end := cellEnd(text, closing+1, delimiter)
			rec.addQuoted(text[pos+1:closing], doubled, text[closing+1:end])
			pos = end
		}
		if pos == len(text) || text[pos] != delimiter {
			return pos, false
		}
		pos++
	}
}

func isBlank(c, delimiter byte) bool {
	return c == ' ' || c == '\t' && delimiter != '\t' || c == pageFeed
}

func isLineEnd(c byte) bool { return c == '\n' || c == '\r' }

// cellEnd returns the index of the delimiter or line end at or after pos.
func cellEnd(text []byte, pos int, delimiter byte) int {
	for pos < len(text) && text[pos] != delimiter && !isLineEnd(text[pos]) {
		pos++
	}
	return pos
}

// closingQuote returns the index of the quote that closes the cell at pos, -1 if there
// is none, and whether quotes within the cell are doubled.
func closingQuote(text []byte, pos int) (closing int, doubled bool) {
	for {
		pos = quoteFrom(text, pos)
		if pos == len(text) {
			return -1, doubled
		}
		if pos+1 == len(text) || text[pos+1] != '"' {
			return pos, doubled
		}
		doubled = true
		pos += 2
	}
}

// quoteFrom is indexFrom for a quote. Most cells are shorter than a wide search takes
// to start, so the first bytes are examined in two words.
func quoteFrom(text []byte, pos int) int {
	const quotes = '"' * ones
	if pos+16 <= len(text) {
		if hits := equalBytes(binary.LittleEndian.Uint64(text[pos:]), quotes); hits != 0 {
			return pos + bits.TrailingZeros64(hits)>>3
		}
		if hits := equalBytes(binary.LittleEndian.Uint64(text[pos+8:]), quotes); hits != 0 {
			return pos + 8 + bits.TrailingZeros64(hits)>>3
		}
		pos += 16
	}
	return indexFrom(text, pos, '"')
}

// lastRecord returns the end and the start of the last whole record. If more text may
// follow, a record is whole once its line end is there and the byte after a carriage
// return is known.
func lastRecord(text []byte, delimiter byte, final bool) (end, start int) {
	if !final {
		text = bytes.TrimSuffix(text, []byte{'\r'}) // its line feed may follow
	}
	if bytes.IndexByte(text, '"') < 0 {
		return lastLine(text, final)
	}
	s := scanner{text: text, delimiter: delimiter}
	for {
		record, ok := s.next(nil)
		if !ok || record.end == record.stop && !final {
			return end, start
		}
		end, start = record.end, record.start
	}
}

// lastLine is lastRecord for text without quotes.
func lastLine(text []byte, final bool) (end, start int) {
	end = len(text)
	if !final {
		end = behindLastLineEnd(text)
	}
	body := bytes.TrimSuffix(text[:end], []byte{'\n'})
	body = bytes.TrimSuffix(body, []byte{'\r'})
	return end, behindLastLineEnd(body)
}

// behindLastLineEnd returns the index at which the last, unended line begins.
func behindLastLineEnd(text []byte) int {
	start := bytes.LastIndexByte(text, '\n') + 1
	return start + bytes.LastIndexByte(text[start:], '\r') + 1
}

// countLines returns the number of line ends, including those within quotes.
func countLines(text []byte) int {
	n := bytes.Count(text, []byte{'\n'})
	for {
		i := bytes.IndexByte(text, '\r')
		if i < 0 {
			return n
		}
		text = text[i+1:]
		if len(text) == 0 || text[0] != '\n' {
			n++
		}
	}
}

// parse stores the cells of one whole raw record in rec.
func (rec *Record) parse(raw []byte, delimiter byte) {
	s := scanner{text: raw, delimiter: delimiter}
	s.next(rec)
}

// split stores the cells of a line without quotes in rec. It marks the delimiters of up
// to 64 bytes at once, so that the loop over them runs once a cell, equally often for
// every row.
func (rec *Record) split(line []byte, delimiter byte) {
	rec.clear()
	if delimiter == 0 {
		rec.add(line)
		return
	}
	fields := rec.Fields
	start, blanks := 0, uint64(0)
	for from := 0; from < len(line); from += 64 {
		hits, outer := marks(line[from:min(from+64, len(line))], ones*uint64(delimiter))
		blanks |= outer
		for ; hits != 0; hits &= hits - 1 {
			at := from + bits.TrailingZeros64(hits)
			fields = append(fields, line[start:at])
			start = at + 1
		}
	}
	fields = append(fields, line[start:])
	rec.plain = len(fields)
	if blanks != 0 {
		for i, cell := range fields {
			fields[i] = trim(cell)
		}
	}
	rec.Fields = fields
}

// marks returns a bit in hits for each of at most 64 bytes that is in pattern. Outer is
// not 0 if a byte may belong to a blank, as defined by the function outer.
func marks(part []byte, pattern uint64) (hits, outer uint64) {
	i := 0
	for ; i+8 <= len(part); i += 8 {
		word := binary.LittleEndian.Uint64(part[i:])
		outer |= outerBytes(word)
		hits |= byteBits(equalBytes(word, pattern)) << (i & 63)
	}
	if i < len(part) {
		word := wordAt(part, i)
		outer |= outerBytes(word)
		hits |= byteBits(equalBytes(word, pattern)) << (i & 63)
	}
	return hits, outer
}

// wordAt returns eight bytes of line from index i. Past the end they are '0', which is
// neither a blank nor a delimiter.
func wordAt(line []byte, i int) uint64 {
	left := len(line) - i
	if left >= 8 {
		return binary.LittleEndian.Uint64(line[i:])
	}
	if cap(line)-i >= 8 { // the bytes of the next line can be read
		return binary.LittleEndian.Uint64(line[i:i+8])&(1<<(8*left)-1) | '0'*ones<<(8*left)
	}
	word := uint64('0' * ones)
	for k, c := range line[i:] {
		word ^= uint64(c^'0') << (8 * k)
	}
	return word
}

// byteBits gathers the high bits of eight bytes, that of the first one lowest.
func byteBits(tops uint64) uint64 { return tops >> 7 * 0x0102040810204080 >> 56 }

const ones = 0x0101010101010101 // a byte times ones is that byte eight times

// equalBytes sets the high bit of each byte in which word and pattern agree. The
// shorter (x-ones)&^x would also mark the byte above such a one if that differs in the
// lowest bit, as ',' and '-' do.
func equalBytes(word, pattern uint64) uint64 {
	const low = 0x7f7f7f7f7f7f7f7f
	x := word ^ pattern
	return ^((x&low + low) | x | low)
}

// outerBytes is not 0 if a byte of word may belong to a blank, as defined by outer.
func outerBytes(word uint64) uint64 {
	const high = 0x80 * ones
	return (word | (word - '!'*ones)) & high
}

// trim removes blanks around a cell.
func trim(cell []byte) []byte {
	if n := len(cell); n > 0 && (outer(cell[0]) || outer(cell[n-1])) {
		return trimBlanks(cell)
	}
	return cell
}

// outer reports whether a blank may begin or end with c: a byte up to the space, or one
// of a no-break space or a byte order mark.
func outer(c byte) bool { return c <= ' ' || c >= 0x80 }

// A page of print begins with a pageFeed, and some old programs end a text with an
// endOfText.
const (
	pageFeed  = '\f'
	endOfText = '\x1a'
)

// A byteOrderMark stands within a text where one file was put behind another.
const byteOrderMark = "\uFEFF"

func trimBlanks(cell []byte) []byte {
	const blanks = " \t\u00A0\u202F" + byteOrderMark + string(pageFeed) + string(endOfText)
	return bytes.Trim(cell, blanks)
}
