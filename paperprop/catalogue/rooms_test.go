package catalogue_test

import (
	"math/rand/v2"
	"slices"

	"millmaths.example/paperprop/calc"
)

// A room tells the walks over the catalogue what is particular to some of its
// calculations.
type room struct {
	// byMethod are the calculations that no formula line can say, and why.
	byMethod map[string]string

	// labels are inputs that no output depends on: "cobb time".
	labels []string

	// lost are inputs that solving can't find again, and why.
	lost map[string]string

	// broken are inputs whose range has gaps, and why: "ash ignition-temperature".
	broken map[string]string

	// jump are results without a formula line that jump, and why.
	jump map[string]string

	// limit are calculations whose lines are nothing over nothing at an end of a range,
	// where the method has the limit, and why.
	limit map[string]string

	// shape changes random inputs that hardly ever fit together by chance.
	shape map[string]func(r *rand.Rand, s *calc.Sheet)
}

var rooms = []room{stockRoom, streamRoom, fibreRoom, sheetRoom, opticsRoom, boardRoom, reelRoom, dryingRoom, labRoom}

func byMethod(calculation string) string {
	for _, r := range rooms {
		if why := r.byMethod[calculation]; why != "" {
			return why
		}
	}
	return ""
}

func hasLimit(calculation string) bool {
	return slices.ContainsFunc(rooms, func(r room) bool { return r.limit[calculation] != "" })
}

func isLabel(input string) bool {
	return slices.ContainsFunc(rooms, func(r room) bool { return slices.Contains(r.labels, input) })
}

func notFound(input string) bool {
	return slices.ContainsFunc(rooms, func(r room) bool { return r.lost[input] != "" })
}

// sorted puts a list in order.
func sorted(s *calc.Sheet, name string) {
	c, _ := s.Input(name)
	list := c.Numbers()
	slices.Sort(list)
	c.PutList(list)
}

func isBroken(input string) bool {
	return slices.ContainsFunc(rooms, func(r room) bool { return r.broken[input] != "" })
}

func jumps(output string) bool {
	return slices.ContainsFunc(rooms, func(r room) bool { return r.jump[output] != "" })
}
