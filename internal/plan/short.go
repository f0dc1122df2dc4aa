package plan

import (
	"foldwright/internal/changeover"
	"foldwright/internal/words"
)

// InShort tells what is done at stations, where anything is, as it stands in the lanes of a day.
func InShort(stations []Station) words.Joined {
	var said words.Joined
	for _, st := range stations {
		switch st.Mode {
		case changeover.Shift:
			said = append(said, words.T("%s shift", st.Station))
		case changeover.Swap:
			said = append(said, words.T("%s %s in", st.Station, st.Set))
		case changeover.Built:
			said = append(said, words.T("%s %s built", st.Station, st.Set))
		case changeover.InFolder:
			said = append(said, words.T("%s %s fitted", st.Station, st.Set))
		case changeover.Plain:
			said = append(said, words.T("%s %s plain", st.Station, st.Set))
		}
	}
	return said
}
