// Command sources writes SOURCES.md into each package directory it is given,
// from the check tables in the directory's testdata.
//
//	go run pondwright.example/internal/check/sources ./hydraulics ./icing
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"pondwright.example/internal/check"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: sources DIR...")
		os.Exit(2)
	}
	for _, dir := range os.Args[1:] {
		text, err := check.Render(dir)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, "SOURCES.md"), []byte(text), 0o644)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, "sources:", err)
			os.Exit(1)
		}
	}
}
