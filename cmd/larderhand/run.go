package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"os"

	"github.com/alecthomas/kong"
	"github.com/joho/godotenv"
)

// streams is what a command reads and writes.
type streams struct {
	in  *os.File
	out io.Writer
	err io.Writer
}

// run reads the command line and does what it asks for; the result is the exit
// code.
func run(ctx context.Context, args []string, in *os.File, out, errOut io.Writer) int {
	if err := godotenv.Load(); err != nil && !errors.Is(err, fs.ErrNotExist) {
		fmt.Fprintln(errOut, "larderhand: .env could not be read:", err)
		return 2
	}
	code := -1
	parser, err := kong.New(&cli{}, kong.Name("larderhand"), kong.Description("A helper for curing and smoking bacon that lives in a chat."),
		kong.Writers(out, errOut), kong.Exit(func(c int) { code = c }))
	if err != nil {
		fmt.Fprintln(errOut, "larderhand:", err)
		return 2
	}
	parsed, err := parser.Parse(args)
	if code >= 0 { // --help was asked for and is written
		return code
	}
	if err != nil {
		fmt.Fprintln(errOut, "larderhand:", err)
		return 2
	}
	parsed.BindTo(ctx, (*context.Context)(nil))
	parsed.Bind(streams{in, out, errOut})
	if err := parsed.Run(); err != nil && !errors.Is(err, context.Canceled) {
		fmt.Fprintln(errOut, "larderhand:", err)
		return 1
	}
	return 0
}

// logger writes to standard error at the level asked for.
func (f logFlags) logger(w io.Writer) *slog.Logger {
	var level slog.Level
	if err := level.UnmarshalText([]byte(f.Log)); err != nil {
		level = slog.LevelWarn
	}
	return slog.New(slog.NewTextHandler(w, &slog.HandlerOptions{Level: level}))
}
