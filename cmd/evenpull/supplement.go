package main

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
	"time"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/data"
	"evenpull/sim/show/page"

	"github.com/spf13/cobra"
)

// supplement is what a command came to, as --data keeps it.
type supplement struct {
	title    string
	parts    []part
	studies  []study      // that were put into its page
	page     []byte       // that is written beside it; nil for none
	called   string       // the page, without its folder
	pictures []files.Part // of the page
	read     []named      // what the command read
	date     string       // that it bears; "" for today's
}

// part is a file of it.
type part struct {
	files.Part
	fields []data.Field // the columns of a table; nil for what is none
}

// keepsData registers --data.
func keepsData(c *cobra.Command, dir *string, what string) {
	c.Flags().StringVar(dir, "data", "", "keep "+what+" in this `folder`, with all that they were made from: \"evenpull report --verify\" makes them again")
}

// keep writes a supplement into the folder of --data. Of a command that is run again it is
// what is compared.
func (s streams) keep(c *cobra.Command, dir string, sup *supplement) error {
	sup.read = s.read.texts
	if s.again != nil {
		s.again.came = sup
		return nil
	}
	if c.Context().Err() != nil { // half of it would not be made again
		return files.Interrupted{Name: dir}
	}
	m := manifest{Args: argsOf(c), Origin: page.Origin{Version: s.build().version, Commit: s.build().commit, Date: cmp.Or(sup.date, today()), Command: commandOf(c)}}
	if sup.page != nil {
		m.Page = keptPage{sup.called, checksum(sup.page)}
	}
	parts, err := sup.files(m, nil)
	if err != nil {
		return err
	}
	force, _ := c.Flags().GetBool("force")
	if err := writeFolder(c.Context(), dir, force, parts); err != nil {
		return err
	}
	s.say("data written to %s", dir)
	if b := s.build(); !b.known() {
		s.say("! this evenpull does not know its commit: who makes the data again cannot tell which it was; for a publication take a release, or one built in a clone of the repository")
	}
	return nil
}

func today() string { return time.Now().Format(time.DateOnly) }

// files are those of the folder: what the command read and came to, what the tables hold, and
// the manifest, of which m has how they were made. Where some are held already, as another
// processor rounds, those are described.
func (sup *supplement) files(m manifest, held map[string][]byte) ([]files.Part, error) {
	m.Inputs, m.Studies, m.SHA256 = []keptInput{}, []keptInput{}, map[string]string{}
	var all []part
	add := func(name string, content []byte, fields []data.Field) {
		all = append(all, part{files.Part{Name: name, Data: content}, fields})
	}
	for i, in := range sup.read {
		name := inputName(in.file, i+1, m.Inputs)
		m.Inputs = append(m.Inputs, keptInput{in.given, name})
		add(name, []byte(in.text), nil)
	}
	all = append(all, sup.parts...)
	for i, st := range sup.studies {
		in := keptInput{st.given, freeName(studiesFolder, st.called(), fmt.Sprintf("study-%d", i+1), m.Studies)}
		m.Studies = append(m.Studies, in)
		for _, name := range st.names() {
			add(path.Join(in.Kept, name), st.held[name], st.fields(name))
		}
	}
	description, err := sup.describe(m, all, held)
	add(packageName, description, nil)
	size := 0
	parts := make([]files.Part, len(all))
	for i := range all {
		parts[i] = all[i].Part
		m.SHA256[parts[i].Name] = checksum(parts[i].Data)
		size += len(parts[i].Data)
	}
	text := m.text()
	if size += len(text); len(parts) >= mostFiles || size > mostBytes || len(text) > mostOfManifest {
		return nil, fmt.Errorf("the data would be %d files of %d MB; want at most %d of %d MB: fewer scenarios or rows, or fewer trains in them", len(parts)+1, size>>20, mostFiles, mostBytes>>20)
	}
	return append(parts, files.Part{Name: manifestName, Data: text}), cmp.Or(err, m.check())
}

// packageName is the file that tells what the tables hold.
const packageName = "datapackage.json"

// describe tells what the files hold.
func (sup *supplement) describe(m manifest, all []part, held map[string][]byte) ([]byte, error) {
	var list []data.Resource
	for _, p := range all {
		r := data.Resource{Path: p.Name, Data: p.Data, Fields: p.fields}
		if kept, there := held[p.Name]; there {
			r.Data = kept
		}
		list = append(list, r)
	}
	var b bytes.Buffer
	err := data.Package(&b, "evenpull-"+m.Args[0], sup.title, "Made by evenpull "+m.Version+", commit "+m.Commit+", with: "+m.Command, list)
	return b.Bytes(), err
}

// inputName is what a file that was read is kept as: by its own name where every system takes
// that, and no other has it.
func inputName(file string, number int, others []keptInput) string {
	base := baseOf(file)
	ending := strings.ToLower(path.Ext(base))
	if isSample(file) && ending == "" {
		base, ending = base+".toml", ".toml"
	}
	if ending != ".toml" && ending != ".csv" {
		ending = ".txt"
	}
	return freeName(inputsFolder, base, fmt.Sprintf("input-%d%s", number, ending), others)
}

// freeName is a name in a folder, or else another where systems differ about it or it is taken.
func freeName(folder, base, other string, others []keptInput) string {
	name := path.Join(folder, base)
	if !ownName.MatchString(base) || reserved.MatchString(base) || slices.ContainsFunc(others, func(o keptInput) bool { return strings.EqualFold(o.Kept, name) }) {
		return path.Join(folder, other)
	}
	return name
}

// The folders within one of data.
const (
	inputsFolder   = "inputs"
	studiesFolder  = "studies"
	picturesWithin = "pictures"
)

var (
	ownName  = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,60}(\.(toml|csv))?$`) // everywhere the name of one file
	reserved = regexp.MustCompile(`(?i)^((input|study)-[0-9]+|con|prn|aux|nul|(com|lpt)[0-9])(\..*)?$`)

	studyFolder = regexp.MustCompile(`^` + studiesFolder + `/[A-Za-z0-9_-]{1,61}(\.(toml|csv))?$`)
)

func checksum(content []byte) string { return fmt.Sprintf("%x", sha256.Sum256(content)) }

// keeper gathers parts, and the first error met on the way.
type keeper struct {
	parts []part
	err   error
}

func (k *keeper) add(name string, fields []data.Field, write func(io.Writer) error) {
	var b bytes.Buffer
	k.err = cmp.Or(k.err, write(&b))
	k.parts = append(k.parts, part{files.Part{Name: name, Data: b.Bytes()}, fields})
}

// keep keeps a document and its rows.
func keep[T any](k *keeper, document, rows string, of data.Document[T], origin data.Origin, result *T) {
	k.add(document, nil, func(w io.Writer) error { return of.JSON(w, origin, result) })
	k.add(rows, of.Fields(result), func(w io.Writer) error { return of.CSV(w, origin, result) })
}
