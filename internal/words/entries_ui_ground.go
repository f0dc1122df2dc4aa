package words

// uiGround is what every page of the web app says.
var uiGround = []entry{
	{"Skip to the content", "Zum Inhalt springen", "Ir al contenido", "Aller au contenu"},
	{"Main places", "Hauptbereiche", "Secciones", "Rubriques"},
	{"Day", "Tag", "Día", "Jour"},
	{"Jobs", "Aufträge", "Trabajos", "Travaux"},
	{"Rack", "Regal", "Estante", "Râtelier"},
	{"Folders", "Maschinen", "Plegadoras", "Plieuses"},
	{"Admin", "Verwaltung", "Gestión", "Gestion"},
	{"The clock of the shop", "Die Uhr des Betriebs", "El reloj del taller", "L'horloge de l'atelier"},
	{"Light", "Hell", "Claro", "Clair"},
	{"Dark", "Dunkel", "Oscuro", "Sombre"},
	{"Light or dark as the system", "Hell oder dunkel wie das System", "Claro u oscuro como el sistema", "Clair ou sombre comme le système"},
	{"Log out", "Abmelden", "Cerrar sesión", "Se déconnecter"},
	{"Undo", "Rückgängig", "Deshacer", "Annuler l'action"},
	{"Keys", "Tasten", "Teclas", "Touches"},
	{"This list", "Diese Liste", "Esta lista", "Cette liste"},
	{"Close a dialog", "Einen Dialog schließen", "Cerrar un diálogo", "Fermer un dialogue"},
	{"Close", "Schließen", "Cerrar", "Fermer"},
	{"Are you sure?", "Sicher?", "¿Seguro?", "Êtes-vous sûr ?"},
	{"Yes, do it", "Ja, ausführen", "Sí, hacerlo", "Oui, le faire"},
	{"Cancel", "Abbrechen", "Cancelar", "Abandonner"},
	{"To the start page", "Zur Startseite", "A la página de inicio", "Vers la page d'accueil"},

	{"That is too large", "Das ist zu groß", "Es demasiado grande", "C'est trop grand"},
	{"Send less at once.", "Bitte weniger auf einmal senden.", "Envíe menos de una vez.", "Envoyez-en moins à la fois."},
	{"Something went wrong here", "Hier ist etwas schiefgegangen", "Algo ha fallado aquí", "Quelque chose a échoué ici"},
	{
		"It is not your fault. What was wrong stands in the log of the server. Nothing of it was kept.",
		"Das liegt nicht an Ihnen. Was falsch war, steht im Protokoll des Servers. Nichts davon wurde behalten.",
		"No es culpa suya. Lo que falló está en el registro del servidor. No se ha guardado nada.",
		"Ce n'est pas votre faute. La cause est dans le journal du serveur. Rien n'a été gardé.",
	},
	{"Not found", "Nicht gefunden", "No encontrado", "Introuvable"},
	{
		"It may have been removed or renamed since.", "Vielleicht wurde es inzwischen entfernt oder umbenannt.",
		"Quizá se haya quitado o cambiado de nombre.", "Il a peut-être été retiré ou renommé depuis.",
	},
	{"Somebody else changed it first", "Jemand anders hat es zuerst geändert", "Otra persona lo cambió antes", "Quelqu'un d'autre l'a changé avant"},
	{
		"Nothing was overwritten. Look at how it is now, then try again.", "Nichts wurde überschrieben. Sehen Sie nach, wie es jetzt ist, und versuchen Sie es noch einmal.",
		"No se ha sobrescrito nada. Mire cómo está ahora e inténtelo de nuevo.", "Rien n'a été écrasé. Regardez l'état actuel, puis réessayez.",
	},
	{"You may not do that", "Das dürfen Sie nicht", "No puede hacer eso", "Vous ne pouvez pas faire cela"},
	{
		"Ask somebody with a higher role, or have your role changed.", "Fragen Sie jemanden mit einer höheren Rolle, oder lassen Sie Ihre Rolle ändern.",
		"Pregunte a alguien con un rol superior o pida que cambien el suyo.", "Demandez à quelqu'un d'un rôle supérieur, ou faites changer le vôtre.",
	},
	{"That cannot be done", "Das geht nicht", "No se puede hacer", "C'est impossible"},
	{"The reasons:", "Die Gründe:", "Los motivos:", "Les raisons :"},

	{"Taken back.", "Rückgängig gemacht.", "Deshecho.", "Annulé."},
	{"There is no shop yet", "Es gibt noch keinen Betrieb", "Todavía no hay taller", "Il n'y a pas encore d'atelier"},
	{
		"Begin with the demo shop to look around, or import the file of your own shop: its folders, shaft sets, hours and jobs.",
		"Beginnen Sie mit dem Vorführbetrieb, um sich umzusehen, oder übernehmen Sie die Datei Ihres Betriebs: Maschinen, Wellensätze, Zeiten und Aufträge.",
		"Empiece con el taller de muestra para mirar, o importe el archivo de su taller: plegadoras, juegos de ejes, horarios y trabajos.",
		"Commencez par l'atelier de démonstration pour regarder, ou importez le fichier de votre atelier : plieuses, jeux d'arbres, horaires et travaux.",
	},
	{"Import a shop", "Einen Betrieb übernehmen", "Importar un taller", "Importer un atelier"},
	{"An admin has to do that.", "Das muss jemand von der Verwaltung tun.", "Tiene que hacerlo un administrador.", "Un administrateur doit le faire."},
}
