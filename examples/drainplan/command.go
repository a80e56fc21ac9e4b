package drainplan

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// Command parses the options, takes one folder and prints the answer to it. It
// returns the exit code: 0, 1 when the folder or a value cannot be used, 2 for
// options that are not known. After parsing, enough says whether everything
// needed was given; nil asks for nothing more than the folder.
func Command(flags *flag.FlagSet, args []string, stdout, stderr io.Writer, enough func() bool, answer func(folder string) (string, error)) int {
	flags.SetOutput(stderr)
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() != 1 || enough != nil && !enough() {
		flags.Usage()
		return 2
	}
	text, err := answer(flags.Arg(0))
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 1
	}
	fmt.Fprint(stdout, text)
	return 0
}
