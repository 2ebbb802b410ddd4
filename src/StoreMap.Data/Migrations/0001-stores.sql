-- Ids of journal events, surveys and finding entries are made by the client, so that a batch sent twice lands once.
CREATE TABLE stores (
  id          TEXT PRIMARY KEY NOT NULL,
  name        TEXT NOT NULL,
  created     TEXT NOT NULL
) STRICT;

CREATE TABLE layouts (
  store       TEXT NOT NULL REFERENCES stores(id),
  version     INTEGER NOT NULL CHECK (version > 0),
  document    TEXT NOT NULL,
  saved       TEXT NOT NULL,
  saved_by    TEXT NOT NULL,
  PRIMARY KEY (store, version)
) STRICT;

CREATE TABLE surveys (
  id          TEXT PRIMARY KEY NOT NULL,
  store       TEXT NOT NULL REFERENCES stores(id),
  started     TEXT NOT NULL,
  created     TEXT NOT NULL,
  created_by  TEXT NOT NULL
) STRICT;

CREATE INDEX surveys_by_store ON surveys(store, started);

-- Never updated, never deleted: a mistake is withdrawn by a later event.
CREATE TABLE events (
  received    INTEGER PRIMARY KEY AUTOINCREMENT,
  id          TEXT NOT NULL UNIQUE,
  survey      TEXT NOT NULL REFERENCES surveys(id),
  document    TEXT NOT NULL,
  at          TEXT NOT NULL,
  sender      TEXT NOT NULL
) STRICT;

CREATE INDEX events_by_survey ON events(survey, received);

CREATE TABLE finding_entries (
  received    INTEGER PRIMARY KEY AUTOINCREMENT,
  id          TEXT NOT NULL UNIQUE,
  store       TEXT NOT NULL REFERENCES stores(id),
  finding     TEXT NOT NULL,
  document    TEXT NOT NULL,
  at          TEXT NOT NULL,
  sender      TEXT NOT NULL
) STRICT;

CREATE INDEX finding_entries_by_store ON finding_entries(store, received);

CREATE TRIGGER events_keep_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'journal events are never changed'); END;
CREATE TRIGGER events_keep_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'journal events are never deleted'); END;
CREATE TRIGGER finding_entries_keep_update BEFORE UPDATE ON finding_entries BEGIN SELECT RAISE(ABORT, 'finding entries are never changed'); END;
CREATE TRIGGER finding_entries_keep_delete BEFORE DELETE ON finding_entries BEGIN SELECT RAISE(ABORT, 'finding entries are never deleted'); END;
