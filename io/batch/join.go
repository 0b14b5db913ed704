package batch

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/file"
	"fencerow/program/farm"
)

// share is one share of a run, as its audit says.
type share struct {
	folder
	audit
	at, of int // 3 of 16
}

// name names a share in a sentence.
func (s share) name() string { return fmt.Sprintf("share %s in %s", s.Part, s.path) }

// Join writes the joined files of all shares of a run (Options.Part) into a folder, as a run
// in one piece does; its parts stay where they are. The error is farm.Mistakes where the
// folders are not all shares of one run, with what to do; nothing is written then.
func Join(folders []string, out string) (Counts, error) {
	shares, err := openShares(folders)
	if err != nil {
		return Counts{}, err
	}
	if err := sameRun(shares); err != nil {
		return Counts{}, err
	}
	if err := emptyFolder(out); err != nil {
		return Counts{}, err
	}
	f := folder{path: out, files: file.NewRun()}
	a, counts := shares[0].audit, Counts{}
	from := origin{masked: a.Masked}
	for _, s := range shares {
		counts.add(*s.Counts)
		from.shares = append(from.shares, s.folder)
	}
	a.Part, a.Counts = "", &counts
	err = f.copyFiles(shares[0].path, figuresFolder)
	copied := map[string]bool{}
	for i := 0; i < len(shares) && err == nil; i++ {
		if path := shares[i].path; !copied[path] { // several shares may lie in one folder
			copied[path] = true
			err = f.copyFiles(path, pagesFolder)
		}
	}
	if err != nil {
		return Counts{}, err
	}
	if err := f.joinAndSum(from, a); err != nil {
		return Counts{}, err
	}
	return counts, f.writeAudit(a)
}

// openShares reads the audits of all shares in some folders, in the order of their numbers.
func openShares(folders []string) (shares []share, err error) {
	var all farm.Mistakes
	for _, path := range folders {
		found, err := sharesIn(path)
		var wrong farm.Mistakes
		if errors.As(err, &wrong) {
			all = append(all, wrong...)
		} else if err != nil {
			return nil, err
		}
		shares = append(shares, found...)
	}
	if len(all) > 0 {
		return nil, all
	}
	slices.SortStableFunc(shares, func(a, b share) int { return a.at - b.at })
	return shares, nil
}

// sharesIn reads the audits of the shares in a folder.
func sharesIn(path string) (shares []share, err error) {
	ended, _ := filepath.Glob(filepath.Join(path, "run-*of*.json")) // the pattern is sound
	begun, _ := filepath.Glob(filepath.Join(path, "counts", "run-*of*-begun.json"))
	var wrong farm.Mistakes
	for _, name := range begun {
		number := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(name), "run-"), "-begun.json")
		if !slices.Contains(ended, filepath.Join(path, "run-"+number+".json")) {
			wrong = append(wrong, mistake(path, "its share "+number+" has not ended", "run that share again with --resume, then join")...)
		}
	}
	for _, name := range ended {
		s := share{folder: folder{path: path, share: strings.TrimSuffix(strings.TrimPrefix(filepath.Base(name), "run-"), ".json") + "-"}}
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal(text, &s.audit); err != nil {
			wrong = append(wrong, mistake(name, "cannot be read: "+err.Error(), "copy the folder of that share again")...)
			continue
		}
		if s.Format != AuditFormat {
			wrong = append(wrong, mistake(name, fmt.Sprintf("has the format %q, and this version of fencerow joins %s", s.Format, AuditFormat), "run the share again with this version")...)
			continue
		}
		at, of, _ := strings.Cut(s.Part, "/")
		s.at, _ = strconv.Atoi(at)
		s.of, _ = strconv.Atoi(of)
		if err := s.whole(); err != nil {
			wrong = append(wrong, err...)
			continue
		}
		shares = append(shares, s)
	}
	if len(ended)+len(begun) == 0 {
		wrong = append(wrong, mistake(path, "holds no share of a run", "name folders that fencerow batch --part wrote")...)
	}
	if len(wrong) > 0 {
		return nil, wrong
	}
	return shares, nil
}

// whole says which part files of a share are missing; nil for none.
func (s share) whole() farm.Mistakes {
	var sum Counts
	names, err := s.parts("counts", ".json")
	for i := 0; i < len(names) && err == nil; i++ {
		var one Counts
		if one, err = s.counts(i + 1); err == nil {
			sum.add(one)
		}
		for _, kind := range kinds {
			if _, missing := os.Stat(s.file(kind.name, kind.extension, i+1)); kind.always && missing != nil {
				return mistake(s.file(kind.name, kind.extension, i+1), "is missing", "copy the folder of share "+s.Part+" again, or run that share again with --resume")
			}
		}
	}
	if s.Counts == nil || err != nil || sum != *s.Counts {
		return mistake(s.path, fmt.Sprintf("the parts of its share %s have other counts than its %s", s.Part, s.folder.audit()), "copy that folder again, or run the share again")
	}
	return nil
}

// sameRun returns what keeps shares from being all of one run.
func sameRun(shares []share) error {
	var wrong farm.Mistakes
	first := shares[0]
	for i, s := range shares {
		switch {
		case s.of != first.of:
			wrong = append(wrong, mistake(s.path, fmt.Sprintf("holds share %s, and %s holds share %s", s.Part, first.path, first.Part), "join shares of one number alone")...)
			continue
		case i > 0 && s.at == shares[i-1].at:
			wrong = append(wrong, mistake(s.path, fmt.Sprintf("holds share %s, which %s holds too", s.Part, shares[i-1].path), "name each share once")...)
			continue
		}
		now, before := s.audit, first.audit
		now.Part, before.Part = "", ""
		if what := now.differs(before); what != "" {
			wrong = append(wrong, mistake(s.path, fmt.Sprintf("its share answers another question than %s: %s", first.name(), what), "run the share again with the same table, inputs and settings")...)
		}
	}
	for at := 1; at <= first.of && len(wrong) == 0; at++ {
		if !slices.ContainsFunc(shares, func(s share) bool { return s.at == at }) {
			wrong = append(wrong, mistake(first.path, fmt.Sprintf("share %d/%d is missing", at, first.of), fmt.Sprintf("name the folder that holds it, or run it with --part %d/%d", at, first.of))...)
		}
	}
	if len(wrong) > 0 {
		return wrong
	}
	return nil
}

// emptyFolder refuses a folder that holds something.
func emptyFolder(out string) error {
	entries, err := os.ReadDir(out)
	switch {
	case err == nil && len(entries) > 0:
		return ErrNotEmpty
	case err != nil && !os.IsNotExist(err):
		return err
	}
	return nil
}

// copyFiles copies the files of a folder of a share: what the answers rest on, which is the
// same in every share, or pages.
func (f folder) copyFiles(share, name string) error {
	names, err := filepath.Glob(filepath.Join(share, name, "*"))
	for i := 0; i < len(names) && err == nil; i++ {
		to := filepath.Join(f.path, name, filepath.Base(names[i]))
		if strings.HasSuffix(to, file.Ending) {
			continue
		}
		var text []byte
		if text, err = os.ReadFile(names[i]); err == nil {
			err = f.whole(to, func(w io.Writer) error { _, err := w.Write(text); return err })
		}
	}
	return err
}

// figuresFolder is where a run keeps what its answers rest on (package kept).
const figuresFolder = "figures"
