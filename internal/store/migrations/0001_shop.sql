-- One row, the number of the last change. A writer updates it first, which makes writers wait for each other.
CREATE TABLE counter (
	one      INTEGER PRIMARY KEY CHECK (one = 1),
	revision BIGINT NOT NULL
);
INSERT INTO counter (one, revision) VALUES (1, 0);

-- The things of the shop as they are now. revision is that of the last change of this thing, and its version.
CREATE TABLE thing (
	id       TEXT PRIMARY KEY,
	kind     TEXT NOT NULL,
	name     TEXT NOT NULL,
	position BIGINT NOT NULL,
	revision BIGINT NOT NULL,
	format   INTEGER NOT NULL,
	body     TEXT NOT NULL
);
CREATE INDEX thing_by_name ON thing (kind, name);

-- The audit trail: who changed what when, and what came of each thing. Only ever added to.
CREATE TABLE change (
	revision BIGINT PRIMARY KEY,
	at_ms    BIGINT NOT NULL,
	who      TEXT NOT NULL,
	what     TEXT NOT NULL
);
CREATE TABLE change_thing (
	revision BIGINT NOT NULL REFERENCES change (revision),
	place    BIGINT NOT NULL,
	thing    TEXT NOT NULL,
	kind     TEXT NOT NULL,
	name     TEXT NOT NULL,
	deed     TEXT NOT NULL,
	format   INTEGER NOT NULL,
	body     TEXT NOT NULL, -- empty when the thing was removed
	PRIMARY KEY (revision, place)
);
CREATE INDEX change_of_thing ON change_thing (thing, revision);
