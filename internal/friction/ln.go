package friction

import "math"

// Logarithms for positive normal arguments, of three grades: crudeLog2, and two
// that start from logCell. They split v = 2^e z with 1 <= z < 2 and take
//
//	ln v = e ln 2 + ln c + ln(1 + r), r = (z - c)/c,
//
// where c is the midpoint of the 1/128 in which z lies; r is below 1/256 in
// size, so that a short series does.

const (
	cellBits = 52 - 7              // bits that place z inside its 1/128
	cellMask = 1<<cellBits - 1     // those bits
	cellHalf = 1 << (cellBits - 1) // those bits of the midpoint
)

type logEntry struct {
	inv    float64 // 2^-52/c: turns the integer 2^52 (z - c) into r
	hi, lo float64 // ln c - 1023 ln 2 as a multiple of 2^-42 and the rest
}

// crudeLog2 reads the bits of v as a number linear in log2 v: within 0.043.
func crudeLog2(v float64) float64 {
	const offset = 1023 - 0.0430 // centres the error of log2(1+x) ≈ x
	return float64(int64(math.Float64bits(v)))*(1.0/(1<<52)) - offset
}

// logCell returns e + 1023 and r of v and the table entry of its c.
func logCell(v float64) (e, r float64, c *logEntry) {
	b := int64(math.Float64bits(v))
	c = &logTable[(b>>cellBits)&127]
	return float64(b >> 52), float64(b&cellMask-cellHalf) * c.inv, c
}
