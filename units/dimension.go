package units

import "strconv"

// dimension counts the base dimensions of a unit. A mass below the stroke is
// counted apart, so that mg/(kg·h) is not a plain 1/h; angle, charge, cycles
// and practical salinity, which the SI calls one, count as well.
type dimension [10]int8

const (
	dimLength = iota
	dimMass
	dimPerMass // counted negative
	dimTime
	dimTemp
	dimCurrent
	dimAngle
	dimCharge
	dimCycle
	dimSalinity
)

var (
	lengthDim      = dimension{dimLength: 1}
	areaDim        = dimension{dimLength: 2}
	volumeDim      = dimension{dimLength: 3}
	massDim        = dimension{dimMass: 1}
	timeDim        = dimension{dimTime: 1}
	speedDim       = dimension{dimLength: 1, dimTime: -1}
	accelDim       = dimension{dimLength: 1, dimTime: -2}
	flowDim        = dimension{dimLength: 3, dimTime: -1}
	forceDim       = dimension{dimMass: 1, dimLength: 1, dimTime: -2}
	pressureDim    = dimension{dimMass: 1, dimLength: -1, dimTime: -2}
	energyDim      = dimension{dimMass: 1, dimLength: 2, dimTime: -2}
	powerDim       = dimension{dimMass: 1, dimLength: 2, dimTime: -3}
	viscosityDim   = dimension{dimMass: 1, dimLength: -1, dimTime: -1}
	kinematicDim   = dimension{dimLength: 2, dimTime: -1}
	temperatureDim = dimension{dimTemp: 1}
	currentDim     = dimension{dimCurrent: 1}
	voltageDim     = dimension{dimMass: 1, dimLength: 2, dimTime: -3, dimCurrent: -1}
	resistanceDim  = dimension{dimMass: 1, dimLength: 2, dimTime: -3, dimCurrent: -2}
	angleDim       = dimension{dimAngle: 1}
	turningDim     = dimension{dimAngle: 1, dimTime: -1}
	chargeDim      = dimension{dimCharge: 1}
	cyclesDim      = dimension{dimCycle: 1, dimTime: -1}
	salinityDim    = dimension{dimSalinity: 1}

	massPerVolumeDim   = dimension{dimMass: 1, dimLength: -3}
	chargePerVolumeDim = dimension{dimCharge: 1, dimLength: -3}
	massFractionDim    = dimension{dimMass: 1, dimPerMass: -1}
)

// String writes the dimension in SI base units, such as "kg·m-3".
func (d dimension) String() string {
	var b []byte
	for i, n := range d {
		if n == 0 {
			continue
		}
		if len(b) > 0 {
			b = append(b, "·"...)
		}
		b = append(b, [...]string{"m", "kg", "kg", "s", "K", "A", "rad", "eq", "cycle", "PSU"}[i]...)
		if n != 1 {
			b = strconv.AppendInt(b, int64(n), 10)
		}
	}
	if len(b) == 0 {
		return "one"
	}
	return string(b)
}

// times returns the dimension of d multiplied by e.
func (d dimension) times(e dimension) dimension {
	for i, n := range e {
		d[i] += n
	}
	return d
}

// inverse returns the dimension of one over d.
func (d dimension) inverse() dimension {
	for i, n := range d {
		d[i] = -n
	}
	d[dimMass], d[dimPerMass] = d[dimPerMass], d[dimMass]
	return d
}
