package pumpsizing

import (
	"fmt"
	"slices"
)

// The choices of this package are small integers that read and write the words
// of a list: wordOf, marshalWord and unmarshalWord serve them all.

// wordOf is the word of choice i, or the type's name with the number.
func wordOf(what string, words []string, i uint8) string {
	if int(i) < len(words) {
		return words[i]
	}
	return fmt.Sprintf("%s(%d)", what, i)
}

// marshalWord is wordOf for text and JSON, and an error outside the list.
func marshalWord(what string, words []string, i uint8) ([]byte, error) {
	if int(i) >= len(words) {
		return nil, fmt.Errorf("pumpsizing.%s: %d is not one of %q", what, i, words)
	}
	return []byte(words[i]), nil
}

// unmarshalWord finds the choice of a word.
func unmarshalWord(what string, words []string, text []byte) (uint8, error) {
	i := slices.Index(words, string(text))
	if i < 0 {
		return 0, fmt.Errorf("pumpsizing.%s: %q is not one of %q", what, text, words)
	}
	return uint8(i), nil
}
