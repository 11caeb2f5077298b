// Command pack puts a folder into an archive, .tar.gz or .zip, which is the same wherever
// and whenever it is made: in order of names, with one time and without owners.
//
//	pack ARCHIVE FOLDER SECONDS-SINCE-1970
package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

func run(args []string) (err error) {
	if len(args) != 3 {
		return errors.New("want ARCHIVE FOLDER SECONDS")
	}
	seconds, err := strconv.ParseInt(args[2], 10, 64)
	if err != nil {
		return err
	}
	out, err := os.Create(args[0])
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	pack := tarred
	if strings.HasSuffix(args[0], ".zip") {
		pack = zipped
	}
	return pack(out, args[1], time.Unix(seconds, 0).UTC())
}

// each calls do with every file of a folder in order of names; name begins with that of
// the folder. The mode is that of a program or of a plain file.
func each(folder string, do func(name string, mode fs.FileMode, size int64, text io.Reader) error) error {
	return filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		info, err := f.Stat()
		if err != nil {
			return err
		}
		name, err := filepath.Rel(filepath.Dir(filepath.Clean(folder)), path)
		if err != nil {
			return err
		}
		mode := fs.FileMode(0o644)
		if info.Mode()&0o100 != 0 {
			mode = 0o755
		}
		return do(filepath.ToSlash(name), mode, info.Size(), f)
	})
}

func tarred(out io.Writer, folder string, at time.Time) error {
	gz := gzip.NewWriter(out)
	tw := tar.NewWriter(gz)
	err := each(folder, func(name string, mode fs.FileMode, size int64, text io.Reader) error {
		if err := tw.WriteHeader(&tar.Header{Typeflag: tar.TypeReg, Name: name, Mode: int64(mode), Size: size, ModTime: at, Format: tar.FormatPAX}); err != nil {
			return err
		}
		_, err := io.Copy(tw, text)
		return err
	})
	return errors.Join(err, tw.Close(), gz.Close())
}

func zipped(out io.Writer, folder string, at time.Time) error {
	zw := zip.NewWriter(out)
	err := each(folder, func(name string, mode fs.FileMode, _ int64, text io.Reader) error {
		h := &zip.FileHeader{Name: name, Method: zip.Deflate, Modified: at}
		h.SetMode(mode)
		w, err := zw.CreateHeader(h)
		if err != nil {
			return err
		}
		_, err = io.Copy(w, text)
		return err
	})
	return errors.Join(err, zw.Close())
}
