package words

// entry is a text in English, German, Spanish, French, in that order. English is the key.
type entry [4]string

func (e entry) key() string { return e[0] }

// entries is the catalogue, by subject.
var entries = slicesOf(
	sheet,
	day,
	card,
	bench,
	label,
	stock,
	cautions,
	operations,
	notes,
	rates,
	misses,
	lines,
	places,
	moves,
	rescues,
	ahead,
	terminal,
	planned,
	foldings,
	uiGround,
	uiDay,
	uiForm,
	uiHelp,
	uiAccount,
	uiAdmin,
	uiFolders,
	uiJobs,
	uiFloor,
	uiRack,
)

func slicesOf(lists ...[]entry) []entry {
	var all []entry
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}
