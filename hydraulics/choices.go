package hydraulics

import (
	"fmt"
	"slices"
)

// choices are the words of a choice, by its number. They are stable: they are
// how a choice reads in JSON.
type choices struct {
	typ   string
	words []string
}

var (
	backflowWords     = choices{"Backflow", []string{"unset", "flap", "reverse"}}
	inletControlWords = choices{"InletControl", []string{"critical depth", "none"}}
	outfallLineWords  = choices{"OutfallLine", []string{"centreline", "brink"}}
	weirMethodWords   = choices{"WeirMethod", []string{"Kindsvater-Carter, USBR", "Kindsvater-Carter, ISO 1438", "Rehbock 1929", "Francis 1883"}}
	vNotchMethodWords = choices{"VNotchMethod", []string{"Kindsvater-Shen", "Kindsvater-Shen, 90 degrees", "White 2011"}}
	gateMethodWords   = choices{"GateMethod", []string{"Henderson 1966", "Swamee 1992"}}
	rackLawWords      = choices{"RackLaw", []string{"static head", "Noseda 1956", "energy head"}}
	rackEnergyWords   = choices{"RackEnergy", []string{"total head", "specific energy"}}
	inletTypeWords    = func() choices {
		c := choices{typ: "InletType"}
		for _, row := range inletTable {
			c.words = append(c.words, row.Name)
		}
		c.words[InletUnset] = "unset"
		return c
	}()
)

func (c *choices) text(i uint8) string {
	if int(i) < len(c.words) {
		return c.words[i]
	}
	return fmt.Sprintf("%s(%d)", c.typ, i)
}

func (c *choices) marshal(i uint8) ([]byte, error) {
	if int(i) >= len(c.words) {
		return nil, fmt.Errorf("hydraulics.%s: %d is not one of its choices %q", c.typ, i, c.words)
	}
	return []byte(c.words[i]), nil
}

func (c *choices) unmarshal(text []byte) (uint8, error) {
	if i := slices.Index(c.words, string(text)); i >= 0 {
		return uint8(i), nil
	}
	return 0, fmt.Errorf("hydraulics.%s: %q is not one of its choices %q", c.typ, text, c.words)
}

// String returns the choice in words.
func (b Backflow) String() string { return backflowWords.text(uint8(b)) }

// MarshalText writes the choice in words.
func (b Backflow) MarshalText() ([]byte, error) { return backflowWords.marshal(uint8(b)) }

// UnmarshalText reads the choice in words.
func (b *Backflow) UnmarshalText(text []byte) error {
	v, err := backflowWords.unmarshal(text)
	if err == nil {
		*b = Backflow(v)
	}
	return err
}

// String returns the choice in words.
func (i InletControl) String() string { return inletControlWords.text(uint8(i)) }

// MarshalText writes the choice in words.
func (i InletControl) MarshalText() ([]byte, error) { return inletControlWords.marshal(uint8(i)) }

// UnmarshalText reads the choice in words.
func (i *InletControl) UnmarshalText(text []byte) error {
	v, err := inletControlWords.unmarshal(text)
	if err == nil {
		*i = InletControl(v)
	}
	return err
}

// String returns the choice in words.
func (m WeirMethod) String() string { return weirMethodWords.text(uint8(m)) }

// MarshalText writes the choice in words.
func (m WeirMethod) MarshalText() ([]byte, error) { return weirMethodWords.marshal(uint8(m)) }

// UnmarshalText reads the choice in words.
func (m *WeirMethod) UnmarshalText(text []byte) error {
	v, err := weirMethodWords.unmarshal(text)
	if err == nil {
		*m = WeirMethod(v)
	}
	return err
}

// String returns the choice in words.
func (m VNotchMethod) String() string { return vNotchMethodWords.text(uint8(m)) }

// MarshalText writes the choice in words.
func (m VNotchMethod) MarshalText() ([]byte, error) { return vNotchMethodWords.marshal(uint8(m)) }

// UnmarshalText reads the choice in words.
func (m *VNotchMethod) UnmarshalText(text []byte) error {
	v, err := vNotchMethodWords.unmarshal(text)
	if err == nil {
		*m = VNotchMethod(v)
	}
	return err
}

// String returns the choice in words.
func (m GateMethod) String() string { return gateMethodWords.text(uint8(m)) }

// MarshalText writes the choice in words.
func (m GateMethod) MarshalText() ([]byte, error) { return gateMethodWords.marshal(uint8(m)) }

// UnmarshalText reads the choice in words.
func (m *GateMethod) UnmarshalText(text []byte) error {
	v, err := gateMethodWords.unmarshal(text)
	if err == nil {
		*m = GateMethod(v)
	}
	return err
}

// String returns the choice in words.
func (l RackLaw) String() string { return rackLawWords.text(uint8(l)) }

// MarshalText writes the choice in words.
func (l RackLaw) MarshalText() ([]byte, error) { return rackLawWords.marshal(uint8(l)) }

// UnmarshalText reads the choice in words.
func (l *RackLaw) UnmarshalText(text []byte) error {
	v, err := rackLawWords.unmarshal(text)
	if err == nil {
		*l = RackLaw(v)
	}
	return err
}

// String returns the choice in words.
func (e RackEnergy) String() string { return rackEnergyWords.text(uint8(e)) }

// MarshalText writes the choice in words.
func (e RackEnergy) MarshalText() ([]byte, error) { return rackEnergyWords.marshal(uint8(e)) }

// UnmarshalText reads the choice in words.
func (e *RackEnergy) UnmarshalText(text []byte) error {
	v, err := rackEnergyWords.unmarshal(text)
	if err == nil {
		*e = RackEnergy(v)
	}
	return err
}

// MarshalText writes the choice in words.
func (i InletType) MarshalText() ([]byte, error) { return inletTypeWords.marshal(uint8(i)) }

// UnmarshalText reads the choice in words.
func (i *InletType) UnmarshalText(text []byte) error {
	v, err := inletTypeWords.unmarshal(text)
	if err == nil {
		*i = InletType(v)
	}
	return err
}

// String returns the choice in words.
func (l OutfallLine) String() string { return outfallLineWords.text(uint8(l)) }

// MarshalText writes the choice in words.
func (l OutfallLine) MarshalText() ([]byte, error) { return outfallLineWords.marshal(uint8(l)) }

// UnmarshalText reads the choice in words.
func (l *OutfallLine) UnmarshalText(text []byte) error {
	v, err := outfallLineWords.unmarshal(text)
	if err == nil {
		*l = OutfallLine(v)
	}
	return err
}
