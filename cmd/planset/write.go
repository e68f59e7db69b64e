package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// A page set ready to be written.
type output struct {
	name string
	data []byte
}

// outDir is where files go: --out, or a folder "out" beside the model.
func (a *app) outDir(d *draft) string { return a.flags.or("out", filepath.Join(d.dir, "out")) }

// write puts the files in place, each whole or not at all, and prints their
// paths. Nothing is put in place unless all could be written out.
func (a *app) write(dir string, files []output) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return wrong{fmt.Sprintf("the folder %q cannot be made: %v", dir, reason(err)), "choose another with --out"}
	}
	temps := make([]string, 0, len(files))
	defer func() {
		for _, t := range temps {
			os.Remove(t)
		}
	}()
	for _, f := range files {
		t, err := spool(dir, f)
		if t != "" {
			temps = append(temps, t)
		}
		if err != nil {
			return wrong{fmt.Sprintf("%q cannot be written: %v", filepath.Join(dir, f.name), reason(err)), "choose another folder with --out"}
		}
	}
	for i, f := range files {
		path := filepath.Join(dir, f.name)
		if err := os.Rename(temps[i], path); err != nil {
			return wrong{fmt.Sprintf("%q cannot be written: %v", path, reason(err)), "is it open in another program?"}
		}
		fmt.Fprintln(a.out, path)
	}
	return nil
}

// spool writes a file under a name of its own in the folder it will stand in.
func spool(dir string, f output) (string, error) {
	t, err := os.CreateTemp(dir, "."+f.name+".*")
	if err != nil {
		return "", err
	}
	name := t.Name()
	if _, err := t.Write(f.data); err != nil {
		t.Close()
		return name, err
	}
	if err := t.Chmod(0o644); err != nil {
		t.Close()
		return name, err
	}
	return name, t.Close()
}
