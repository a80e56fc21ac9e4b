package hydraulics

import "fmt"

// InletType is a shape of culvert mouth of the design charts of HDS-5. It is
// [ConcreteSquareHeadwall], [ConcreteGrooveHeadwall],
// [ConcreteGrooveProjecting], [MetalHeadwall], [MetalMitred],
// [MetalProjecting], [BevelledRing45], [BevelledRing33], [BoxWings30To75],
// [BoxWings90Or15], [BoxWings0], [BoxWings45Bevelled],
// [BoxWings18To33Bevelled], [BoxHeadwallChamfered], [BoxHeadwallBevelled45] or
// [BoxHeadwallBevelled33]; [InletUnset] is refused.
type InletType uint8

// The mouths of [CulvertSpec]. The zero value is an error, since the mouth
// decides the flow.
const (
	InletUnset InletType = iota
	ConcreteSquareHeadwall
	ConcreteGrooveHeadwall
	ConcreteGrooveProjecting
	MetalHeadwall
	MetalMitred
	MetalProjecting
	BevelledRing45
	BevelledRing33
	BoxWings30To75
	BoxWings90Or15
	BoxWings0
	BoxWings45Bevelled
	BoxWings18To33Bevelled
	BoxHeadwallChamfered
	BoxHeadwallBevelled45
	BoxHeadwallBevelled33
	inletTypes
)

// InletCoefficients are the constants of the inlet-control equations of one
// mouth, and its entrance loss.
type InletCoefficients struct {
	Name  string  `json:"name"`
	Box   bool    `json:"box"`   // for a rectangular barrel
	Form  int     `json:"form"`  // of the unsubmerged equation, 1 or 2
	K     float64 `json:"k"`     // unsubmerged
	M     float64 `json:"m"`     // unsubmerged
	C     float64 `json:"c"`     // submerged
	Y     float64 `json:"y"`     // submerged
	Slope float64 `json:"slope"` // on the barrel slope: -0.5, and +0.7 for a mitred mouth
	Ke    float64 `json:"ke"`    // on the velocity head in the full barrel
}

// The constants of FHWA (2012), HDS-5, third edition, table A.1; Ke of its table
// C.2 (from memory).
var inletTable = [inletTypes]InletCoefficients{
	ConcreteSquareHeadwall:   {"concrete pipe, square edge in a headwall", false, 1, 0.0098, 2.0, 0.0398, 0.67, -0.5, 0.5},
	ConcreteGrooveHeadwall:   {"concrete pipe, groove end in a headwall", false, 1, 0.0018, 2.0, 0.0292, 0.74, -0.5, 0.2},
	ConcreteGrooveProjecting: {"concrete pipe, groove end projecting", false, 1, 0.0045, 2.0, 0.0317, 0.69, -0.5, 0.2},
	MetalHeadwall:            {"corrugated metal pipe in a headwall", false, 1, 0.0078, 2.0, 0.0379, 0.69, -0.5, 0.5},
	MetalMitred:              {"corrugated metal pipe mitred to the slope", false, 1, 0.0210, 1.33, 0.0463, 0.75, 0.7, 0.7},
	MetalProjecting:          {"corrugated metal pipe projecting", false, 1, 0.0340, 1.50, 0.0553, 0.54, -0.5, 0.9},
	BevelledRing45:           {"circular, bevelled ring of 45 degrees", false, 1, 0.0018, 2.50, 0.0300, 0.74, -0.5, 0.2},
	BevelledRing33:           {"circular, bevelled ring of 33.7 degrees", false, 1, 0.0018, 2.50, 0.0243, 0.83, -0.5, 0.2},
	BoxWings30To75:           {"box, wingwalls flared 30 to 75 degrees", true, 1, 0.026, 1.0, 0.0347, 0.81, -0.5, 0.4},
	BoxWings90Or15:           {"box, wingwalls flared 90 or 15 degrees", true, 1, 0.061, 0.75, 0.0400, 0.80, -0.5, 0.5},
	BoxWings0:                {"box, wingwalls not flared", true, 1, 0.061, 0.75, 0.0423, 0.82, -0.5, 0.7},
	BoxWings45Bevelled:       {"box, wingwalls flared 45 degrees, top edge bevelled 0.043 D", true, 2, 0.510, 0.667, 0.0309, 0.80, -0.5, 0.2},
	BoxWings18To33Bevelled:   {"box, wingwalls flared 18 to 33.7 degrees, top edge bevelled 0.083 D", true, 2, 0.486, 0.667, 0.0249, 0.83, -0.5, 0.2},
	BoxHeadwallChamfered:     {"box, 90 degree headwall, 20 mm chamfers", true, 2, 0.515, 0.667, 0.0375, 0.79, -0.5, 0.5},
	BoxHeadwallBevelled45:    {"box, 90 degree headwall, 45 degree bevels", true, 2, 0.495, 0.667, 0.0314, 0.82, -0.5, 0.2},
	BoxHeadwallBevelled33:    {"box, 90 degree headwall, 33.7 degree bevels", true, 2, 0.486, 0.667, 0.0252, 0.865, -0.5, 0.2},
}

// Coefficients returns the constants of the mouth and whether it is one of the
// table's.
func (i InletType) Coefficients() (InletCoefficients, bool) {
	if i == InletUnset || i >= inletTypes {
		return InletCoefficients{}, false
	}
	return inletTable[i], true
}

// String returns the mouth in words.
func (i InletType) String() string {
	if c, ok := i.Coefficients(); ok {
		return c.Name
	}
	return fmt.Sprintf("InletType(%d)", uint8(i))
}
