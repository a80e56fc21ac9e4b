package biomass

import "fmt"

// The enumerations of this package are written as words, in JSON too.

func word(typ string, names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return fmt.Sprintf("%s(%d)", typ, i)
}

func marshalWord(typ string, names []string, i int) ([]byte, error) {
	if i >= len(names) {
		return nil, fmt.Errorf("biomass.%s: %d is not one of %q", typ, i, names)
	}
	return []byte(names[i]), nil
}

func unmarshalWord(typ string, names []string, text []byte) (int, error) {
	for i, n := range names {
		if string(text) == n {
			return i, nil
		}
	}
	return 0, fmt.Errorf("biomass.%s: %q is not one of %q", typ, text, names)
}
