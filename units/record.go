package units

import "strconv"

// unitRecord is what a unit descriptor stands for.
type unitRecord struct {
	symbol string  // as printed and read
	name   string  // in words
	factor float64 // size in the SI unit of the type
	exact  bool    // a ratio of whole numbers
}

// quantityRecord is what the methods of one type share.
type quantityRecord struct {
	name          string // Go type
	words         string // what a person calls it
	basis         string // annotation its text must carry, or empty
	prefix        string // base symbol that takes an SI prefix, or empty
	dim           dimension
	metric, other uint8 // everyday units, for an error about a missing one
	units         []unitRecord
}

func (q *quantityRecord) symbol(u uint8) string {
	if int(u) < len(q.units) {
		return q.units[u].symbol
	}
	return q.unitName(u)
}

func (q *quantityRecord) unitName(u uint8) string {
	if int(u) < len(q.units) {
		return q.units[u].name
	}
	return q.name + "Unit(" + strconv.Itoa(int(u)) + ")"
}
