package desk

import (
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/shop"
)

// jobNamed finds a job, or says which names there are.
func jobNamed(s *shop.Shop, name string) (*job.Job, error) {
	if j, ok := s.Job(name); ok {
		return j, nil
	}
	return nil, unknown("job", name, s.JobNames())
}

// folderNamed finds a folder, or says which names there are.
func folderNamed(s *shop.Shop, name string) (*machine.Folder, error) {
	if f, ok := s.Folder(name); ok {
		return f, nil
	}
	return nil, unknown("folder", name, s.FolderNames())
}

// shown is how many names a fault lists before it only counts them.
const shown = 6

// unknown is the fault of a name that does not exist, with the nearest one that does.
func unknown(what, name string, known []string) fault.Fault {
	f := fault.Fault{Kind: fault.Missing, Code: "unknown-name", Field: what, Wrong: fmt.Sprintf("there is no %s %q", what, name)}
	near, found := shop.Nearest(name, known)
	switch {
	case found:
		f.Right = fmt.Sprintf("did you mean %q?", near)
	case len(known) == 0:
		f.Right = fmt.Sprintf("the shop has no %s yet", what)
	case len(known) <= shown:
		f.Right = "known: " + strings.Join(known, ", ")
	default:
		f.Right = fmt.Sprintf("known: %s, … (%d in all)", strings.Join(known[:shown], ", "), len(known))
	}
	return f
}
