package words

// operations is what is wanted besides folding, as it stands on cards and beside tools.
var operations = []entry{
	{"%s fold %d", "%s, Bruch %d", "%s, pliegue %d", "%s, pli %d"},
	{"%s at s %s", "%s bei s %s", "%s en s %s", "%s à s %s"},
	{"%s at t %s", "%s bei t %s", "%s en t %s", "%s à t %s"},
	{"%s with %s", "%s, mit %s", "%s, con %s", "%s, avec %s"},
	{"%s strip", "%s, mit Streifen", "%s, con tira", "%s, avec bande"},
	{"%s strip %s", "%s, Streifen %s", "%s, tira %s", "%s, bande %s"},
	{"%s one-up", "%s, ein Nutzen", "%s, una pose", "%s, une pose"},
	{"%s two-up", "%s, zwei Nutzen", "%s, dos poses", "%s, deux poses"},
	{"trim %s at the head", "Kopfbeschnitt %s", "refilado de cabeza %s", "rogne de tête %s"},
	{"trim %s at the foot", "Fußbeschnitt %s", "refilado de pie %s", "rogne de pied %s"},
	{"trim %s at the front", "Vorderbeschnitt %s", "refilado delantero %s", "rogne de gouttière %s"},
	{"trim head", "Kopfbeschnitt", "refilado de cabeza", "rogne de tête"},
	{"trim foot", "Fußbeschnitt", "refilado de pie", "rogne de pied"},
	{"trim front", "Vorderbeschnitt", "refilado delantero", "rogne de gouttière"},
	{"%s and %s", "%s und %s", "%s y %s", "%s et %s"},
	{"%s", "%s", "%s", "%s"},
}
