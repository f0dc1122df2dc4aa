-- A second number beside that of the shop's changes, for what is written down without changing the shop.
ALTER TABLE counter ADD COLUMN serial BIGINT NOT NULL DEFAULT 0;

-- Where a thing stood before a change that took it from there: ahead of the thing with this id; '.' is the end of its
-- kind. Empty where nothing left its place, and in changes of before there was this column.
ALTER TABLE change_thing ADD COLUMN stood TEXT NOT NULL DEFAULT '';

-- Drafts of plans. serial numbers them in the order in which they came.
CREATE TABLE draft (
	id     TEXT PRIMARY KEY,
	serial BIGINT NOT NULL,
	parent TEXT NOT NULL,
	at_ms  BIGINT NOT NULL,
	who    TEXT NOT NULL,
	how    TEXT NOT NULL,
	note   TEXT NOT NULL,
	taken  BIGINT NOT NULL, -- the revision by which the shop took it over; 0 = not
	format INTEGER NOT NULL,
	body   TEXT NOT NULL
);
CREATE UNIQUE INDEX draft_by_serial ON draft (serial);
CREATE INDEX draft_by_time ON draft (taken, at_ms);

-- What the floor recorded, as it is now. version is the serial of its last writing. What is searched stands in columns.
CREATE TABLE floor_record (
	id       TEXT PRIMARY KEY,
	version  BIGINT NOT NULL,
	job      TEXT NOT NULL,
	folder   TEXT NOT NULL,
	start_ms BIGINT NOT NULL,
	format   INTEGER NOT NULL,
	body     TEXT NOT NULL
);
CREATE INDEX floor_record_by_start ON floor_record (start_ms, id);
CREATE INDEX floor_record_by_job ON floor_record (job, start_ms, id);
CREATE INDEX floor_record_by_folder ON floor_record (folder, start_ms, id);

-- Every version of every record, the newest too. Only ever added to.
CREATE TABLE floor_record_past (
	id      TEXT NOT NULL,
	version BIGINT NOT NULL,
	format  INTEGER NOT NULL,
	body    TEXT NOT NULL,
	PRIMARY KEY (id, version)
);

-- People who can log in, by their name in small letters. version is the revision of the last change, chosen that by which
-- the password was chosen.
CREATE TABLE account (
	name     TEXT PRIMARY KEY,
	role     TEXT NOT NULL,
	hash     TEXT NOT NULL,
	lang     TEXT NOT NULL,
	inch     INTEGER NOT NULL, -- 0, 1; -1 = as the shop reads lengths
	since_ms BIGINT NOT NULL,
	ended    INTEGER NOT NULL,
	chosen   BIGINT NOT NULL,
	version  BIGINT NOT NULL
);

-- Programs that can come in under somebody's name.
CREATE TABLE token (
	id       TEXT PRIMARY KEY,
	name     TEXT NOT NULL,
	account  TEXT NOT NULL,
	role     TEXT NOT NULL,
	digest   TEXT NOT NULL,
	since_ms BIGINT NOT NULL,
	until_ms BIGINT NOT NULL, -- 0: until it is taken back
	used_ms  BIGINT NOT NULL  -- 0: never
);
CREATE UNIQUE INDEX token_by_digest ON token (digest);

-- Links with which a password can be chosen, once.
CREATE TABLE invitation (
	digest   TEXT PRIMARY KEY,
	account  TEXT NOT NULL,
	until_ms BIGINT NOT NULL
);

-- Who is logged in. data is base64.
CREATE TABLE session (
	digest    TEXT PRIMARY KEY,
	expiry_ms BIGINT NOT NULL,
	data      TEXT NOT NULL
);
CREATE INDEX session_by_expiry ON session (expiry_ms);

-- Writes that their askers may send again, with the answers they got. status 0: there is no answer yet. body is base64.
CREATE TABLE request_key (
	who     TEXT NOT NULL,
	name    TEXT NOT NULL,
	what    TEXT NOT NULL,
	digest  TEXT NOT NULL,
	at_ms   BIGINT NOT NULL,
	status  INTEGER NOT NULL,
	headers TEXT NOT NULL,
	body    TEXT NOT NULL,
	PRIMARY KEY (who, name)
);
CREATE INDEX request_key_by_time ON request_key (at_ms);
