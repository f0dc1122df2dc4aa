package desk

import (
	"fmt"

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

// unknown is the fault of a name that does not exist, with the nearest one that does.
func unknown(what, name string, known []string) fault.Fault {
	return fault.Fault{
		Kind: fault.Missing, Code: shop.CodeUnknownName, Field: what,
		Wrong: fmt.Sprintf("there is no %s %q", what, name), Right: shop.DidYouMean(name, what, known),
	}
}
