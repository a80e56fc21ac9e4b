package hydraulics

// The words of the choices of the pipe side; see [choices].
var (
	regimeWords       = choices{"Regime", []string{"still", "laminar", "transition", "turbulent"}}
	lossEndWords      = choices{"LossEnd", []string{"typical", "low", "high"}}
	hoseKindWords     = choices{"HoseKind", []string{"smooth bore", "lay-flat, lined", "spiral visible in the bore", "corrugated bore"}}
	entranceKindWords = choices{"EntranceKind", []string{"flush", "projecting"}}
	areaChangeWords   = choices{"AreaChangeMethod", []string{"Crane TP-410", "White", "Rennels & Hudson 2012", "Hooper 1988"}}
	barShapeWords     = choices{"BarShape", []string{"sharp", "rounded nose", "rounded both", "round", "fish-form"}}
	valveKindWords    = func() choices {
		c := choices{typ: "ValveKind"}
		for _, v := range valves {
			c.words = append(c.words, v.name)
		}
		return c
	}()
	dragLawWords      = choices{"DragLaw", []string{"Haider & Levenspiel 1989", "Schiller & Naumann 1933", "Clift & Gauvin 1970", "Clift, Grace & Weber 1978"}}
	pipeStandardWords = choices{"PipeStandard", []string{"none", "ASME B36.10M", "ASME B36.19M", "ISO 1307"}}
	restraintWords    = choices{"PipeRestraint", []string{"expansion joints", "anchored at one end", "anchored all along"}}
)

// String returns the choice in words.
func (r Regime) String() string { return regimeWords.text(uint8(r)) }

// MarshalText writes the choice in words.
func (r Regime) MarshalText() ([]byte, error) { return regimeWords.marshal(uint8(r)) }

// UnmarshalText reads the choice in words.
func (r *Regime) UnmarshalText(text []byte) error {
	v, err := regimeWords.unmarshal(text)
	if err == nil {
		*r = Regime(v)
	}
	return err
}

// String returns the choice in words.
func (e LossEnd) String() string { return lossEndWords.text(uint8(e)) }

// MarshalText writes the choice in words.
func (e LossEnd) MarshalText() ([]byte, error) { return lossEndWords.marshal(uint8(e)) }

// UnmarshalText reads the choice in words.
func (e *LossEnd) UnmarshalText(text []byte) error {
	v, err := lossEndWords.unmarshal(text)
	if err == nil {
		*e = LossEnd(v)
	}
	return err
}

// String returns the choice in words.
func (k HoseKind) String() string { return hoseKindWords.text(uint8(k)) }

// MarshalText writes the choice in words.
func (k HoseKind) MarshalText() ([]byte, error) { return hoseKindWords.marshal(uint8(k)) }

// UnmarshalText reads the choice in words.
func (k *HoseKind) UnmarshalText(text []byte) error {
	v, err := hoseKindWords.unmarshal(text)
	if err == nil {
		*k = HoseKind(v)
	}
	return err
}

// String returns the choice in words.
func (k EntranceKind) String() string { return entranceKindWords.text(uint8(k)) }

// MarshalText writes the choice in words.
func (k EntranceKind) MarshalText() ([]byte, error) { return entranceKindWords.marshal(uint8(k)) }

// UnmarshalText reads the choice in words.
func (k *EntranceKind) UnmarshalText(text []byte) error {
	v, err := entranceKindWords.unmarshal(text)
	if err == nil {
		*k = EntranceKind(v)
	}
	return err
}

// String returns the choice in words.
func (m AreaChangeMethod) String() string { return areaChangeWords.text(uint8(m)) }

// MarshalText writes the choice in words.
func (m AreaChangeMethod) MarshalText() ([]byte, error) { return areaChangeWords.marshal(uint8(m)) }

// UnmarshalText reads the choice in words.
func (m *AreaChangeMethod) UnmarshalText(text []byte) error {
	v, err := areaChangeWords.unmarshal(text)
	if err == nil {
		*m = AreaChangeMethod(v)
	}
	return err
}

// String returns the choice in words.
func (b BarShape) String() string { return barShapeWords.text(uint8(b)) }

// MarshalText writes the choice in words.
func (b BarShape) MarshalText() ([]byte, error) { return barShapeWords.marshal(uint8(b)) }

// UnmarshalText reads the choice in words.
func (b *BarShape) UnmarshalText(text []byte) error {
	v, err := barShapeWords.unmarshal(text)
	if err == nil {
		*b = BarShape(v)
	}
	return err
}

// String returns the choice in words.
func (k ValveKind) String() string { return valveKindWords.text(uint8(k)) }

// MarshalText writes the choice in words.
func (k ValveKind) MarshalText() ([]byte, error) { return valveKindWords.marshal(uint8(k)) }

// UnmarshalText reads the choice in words.
func (k *ValveKind) UnmarshalText(text []byte) error {
	v, err := valveKindWords.unmarshal(text)
	if err == nil {
		*k = ValveKind(v)
	}
	return err
}

// String returns the choice in words.
func (l DragLaw) String() string { return dragLawWords.text(uint8(l)) }

// MarshalText writes the choice in words.
func (l DragLaw) MarshalText() ([]byte, error) { return dragLawWords.marshal(uint8(l)) }

// UnmarshalText reads the choice in words.
func (l *DragLaw) UnmarshalText(text []byte) error {
	v, err := dragLawWords.unmarshal(text)
	if err == nil {
		*l = DragLaw(v)
	}
	return err
}

// String returns the choice in words.
func (s PipeStandard) String() string { return pipeStandardWords.text(uint8(s)) }

// MarshalText writes the choice in words.
func (s PipeStandard) MarshalText() ([]byte, error) { return pipeStandardWords.marshal(uint8(s)) }

// UnmarshalText reads the choice in words.
func (s *PipeStandard) UnmarshalText(text []byte) error {
	v, err := pipeStandardWords.unmarshal(text)
	if err == nil {
		*s = PipeStandard(v)
	}
	return err
}

// String returns the choice in words.
func (p PipeRestraint) String() string { return restraintWords.text(uint8(p)) }

// MarshalText writes the choice in words.
func (p PipeRestraint) MarshalText() ([]byte, error) { return restraintWords.marshal(uint8(p)) }

// UnmarshalText reads the choice in words.
func (p *PipeRestraint) UnmarshalText(text []byte) error {
	v, err := restraintWords.unmarshal(text)
	if err == nil {
		*p = PipeRestraint(v)
	}
	return err
}
