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

// notes is the advice on a job, with its sources.
var notes = []entry{
	{
		"the thickness of %s is an estimate from grammage and volume: measure the stock before the gaps are set",
		"die Dicke von %s ist aus Grammatur und Volumen geschätzt: Papier messen, bevor die Walzen eingestellt werden",
		"el espesor de %s es una estimación por gramaje y volumen: mida el papel antes de ajustar los rodillos",
		"l'épaisseur de %s est estimée d'après le grammage et la main : mesurer le papier avant de régler les rouleaux",
	},
	{"folds %s", "Brüche %s", "pliegues %s", "plis %s"},
	{
		"%s across the grain of stock of %s: score first", "%s quer zur Faserlaufrichtung bei %s: vorher rillen",
		"%s a contrafibra en papel de %s: hender antes", "%s en travers des fibres d'un papier de %s : rainer d'abord",
	},
	{
		"%s of stock of %s: score first", "%s bei Papier von %s: vorher rillen",
		"%s en papel de %s: hender antes", "%s d'un papier de %s : rainer d'abord",
	},
	{
		"fold %d closes an edge and %d layers go into fold %d: perforate fold %d to let the air out",
		"Bruch %d schließt eine Kante, und %d Lagen laufen in Bruch %d: Bruch %d perforieren, damit die Luft entweicht",
		"el pliegue %d cierra un borde y %d capas entran en el pliegue %d: perfore el pliegue %d para que salga el aire",
		"le pli %d ferme un bord et %d épaisseurs entrent dans le pli %d : perforer le pli %d pour laisser sortir l'air",
	},
	{
		"stock of %s folds well to %d layers, and this is %d: look out for wrinkles and loose folds",
		"Papier von %s lässt sich gut bis %d Lagen falzen, hier sind es %d: auf Quetschfalten und offene Brüche achten",
		"el papel de %s se pliega bien hasta %d capas y aquí son %d: atención a arrugas y pliegues flojos",
		"un papier de %s se plie bien jusqu'à %d épaisseurs, ici il y en a %d : surveiller faux plis et plis lâches",
	},
	{
		"the spine, fold %d, runs across the grain: the leaves may cockle and will not lie open",
		"der Bund, Bruch %d, liegt quer zur Faserlaufrichtung: die Blätter können sich wellen und bleiben nicht liegen",
		"el lomo, pliegue %d, va a contrafibra: las hojas pueden ondularse y no quedan abiertas",
		"le dos, pli %d, est en travers des fibres : les feuillets peuvent gondoler et ne restent pas ouverts",
	},
	{
		"the innermost of %d nested leaves stands out by about %s at the fore edge",
		"das innerste von %d Doppelblättern steht vorn etwa %s vor",
		"el bifolio interior de %d sobresale unos %s por el corte delantero",
		"le feuillet double intérieur sur %d dépasse d'environ %s en gouttière",
	},
	{"%s: a groove about %s wide", "%s: Rillbreite etwa %s", "%s: hendido de unos %s de ancho", "%s : rainure d'environ %s de large"},

	{"common practice", "übliche Praxis", "práctica común", "usage courant"},
	{
		"published trade guides, which name thresholds from 115 to 200 g/m²; a setting of the shop",
		"veröffentlichte Fachanleitungen, die Schwellen von 115 bis 200 g/m² nennen; im Betrieb einstellbar",
		"guías publicadas del oficio, con umbrales de 115 a 200 g/m²; ajustable por el taller",
		"guides publiés du métier, aux seuils de 115 à 200 g/m² ; réglable par l'atelier",
	},
	{
		"Roberts and Etherington, Bookbinding and the Conservation of Books, on grain",
		"Roberts und Etherington, Bookbinding and the Conservation of Books, zur Faserlaufrichtung",
		"Roberts y Etherington, Bookbinding and the Conservation of Books, sobre la fibra",
		"Roberts et Etherington, Bookbinding and the Conservation of Books, sur le sens des fibres",
	},
	{
		"PrintWiki, Perforating; the number of layers is common practice",
		"PrintWiki, Perforating; die Zahl der Lagen ist übliche Praxis",
		"PrintWiki, Perforating; el número de capas es práctica común",
		"PrintWiki, Perforating ; le nombre d'épaisseurs est d'usage courant",
	},
	{
		"geometry of nested leaves; the roundness of the fold is a setting of the shop",
		"Geometrie ineinandergesteckter Doppelblätter; die Rundung des Bruchs ist im Betrieb einstellbar",
		"geometría de bifolios encajados; la redondez del pliegue es ajustable por el taller",
		"géométrie de feuillets doubles encartés ; l'arrondi du pli est réglable par l'atelier",
	},
	{
		"published trade guides; factors are a setting of the shop",
		"veröffentlichte Fachanleitungen; die Faktoren sind im Betrieb einstellbar",
		"guías publicadas del oficio; los factores son ajustables por el taller",
		"guides publiés du métier ; les facteurs sont réglables par l'atelier",
	},
}

// rates is what sets the sheets an hour.
var rates = []entry{
	{"feeder", "Anleger", "alimentador", "margeur"},
	{"unit %d", "Falzwerk %d", "unidad %d", "groupe %d"},
	{"knife of unit %d", "Schwert von Falzwerk %d", "cuchilla de la unidad %d", "couteau du groupe %d"},
	{"job", "Auftrag", "trabajo", "travail"},
}
