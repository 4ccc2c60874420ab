package calc

import (
	"strconv"
	"strings"

	"millmaths.example/paperprop"
)

// thousands refuses numbers of a list that blanks part into thousands: 1 234 N is one
// reading or two. In brackets blanks part members, as in the lists that this package
// prints; but none of those begins with 0, as 034 does in 1 034.
func thousands(numbers []string, unit string, bracket bool) error {
	whole, sure := grouped(numbers)
	if whole == nil || bracket && !sure {
		return nil
	}
	one := strings.Join(whole, " ")
	if len(whole) > 1 {
		one = "[" + one + "]"
	}
	parts := strings.Join(numbers, " ")
	reason := "blanks between digits, write " + strings.TrimSpace(one+" "+unit)
	if !sure {
		reason = "blanks between digits can be read two ways, write " + strings.TrimSpace(one+" "+unit) +
			" or " + strings.TrimSpace("["+parts+"] "+unit)
	}
	return &paperprop.NumberError{Text: parts, Reason: reason}
}

// thousandsWithin refuses a member with blanks in it, [1 234, 2 345], where the list has
// commas or semicolons between members.
func thousandsWithin(inner string) error {
	members := strings.Split(strings.ReplaceAll(inner, ", ", ";"), ";")
	for _, member := range members {
		numbers := strings.Fields(member)
		if whole, _ := grouped(numbers); len(members) > 1 && len(whole) == 1 {
			return &paperprop.NumberError{Text: strings.Join(numbers, " "), Reason: "blanks between digits, write " + whole[0]}
		}
	}
	return nil
}

// grouped joins numbers that are the thousands of others: 1 234 2 345.5 makes 1234 and
// 2345.5. It returns nil unless all are, and unless they would be odd as members: one
// less than a tenth of the next, or, which makes it sure, one that begins with 0. 98 101
// 103 are three readings.
func grouped(numbers []string) (whole []string, sure bool) {
	for len(numbers) > 0 {
		n := 1
		for n < len(numbers) && isGroup(numbers[n]) && !strings.Contains(numbers[n-1], ".") {
			n++
		}
		head := strings.TrimPrefix(strings.TrimPrefix(numbers[0], "-"), "−")
		first, err := strconv.Atoi(head)
		if n == 1 || err != nil || first < 1 || len(head) > 3 || head[0] == '0' {
			return nil, false
		}
		zero := false
		for _, group := range numbers[1:n] {
			zero = zero || group[0] == '0'
		}
		if second, _ := strconv.Atoi(numbers[1][:3]); !zero && 10*first > second {
			return nil, false
		}
		sure = sure || zero
		whole, numbers = append(whole, strings.Join(numbers[:n], "")), numbers[n:]
	}
	return whole, sure
}

// isGroup reports whether a number can be the thousands of another, or the last of them
// with a fraction: 234, 034.5.
func isGroup(number string) bool {
	return skipDigits(number, 0) == 3 && (len(number) == 3 || number[3] == '.' && skipDigits(number, 4) == len(number))
}
