-- A data folder's database as the first step alone left it: its schema, the list of steps done, and what a store had by then.
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
CREATE TABLE [SchemaVersions] (
    SchemaVersionID INTEGER CONSTRAINT [PK_SchemaVersions_Id] PRIMARY KEY AUTOINCREMENT NOT NULL,
    ScriptName TEXT NOT NULL,
    Applied DATETIME NOT NULL
);
INSERT INTO SchemaVersions(ScriptName, Applied) VALUES ('0001-stores.sql', '2026-03-01 14:59:00');
INSERT INTO stores VALUES ('quince-street','Quince Street Grocery','2026-03-01T15:00:00.000Z');
INSERT INTO layouts VALUES ('quince-street',1,'{"format": "storemap-layout/1", "id": "quince-street", "name": "Quince Street", "units": "ft", "revision": 1, "outline": [[0, 0], [60, 0], [60, 40], [0, 40]], "entrances": [{"id": "E1", "at": [30, 0]}], "fixtures": [{"id": "C1", "tag": "1A", "kind": "open-case", "outline": [[10, 10], [34, 10], [34, 13.5], [10, 13.5]], "front": [[10, 10], [34, 10]], "sections": [12, 12], "circuit": "A1"}], "circuits": [{"id": "A1", "system": "A"}], "systems": [{"id": "A", "type": "direct", "refrigerant": "R-448A", "charge": 900, "chargeUnit": "lb"}]}','2026-03-01T15:00:00.000Z','Ada Brook');
INSERT INTO layouts VALUES ('quince-street',2,'{"format": "storemap-layout/1", "id": "quince-street", "name": "Quince Street Grocery", "units": "ft", "revision": 2, "outline": [[0, 0], [60, 0], [60, 40], [0, 40]], "entrances": [{"id": "E1", "at": [30, 0]}], "fixtures": [{"id": "C1", "tag": "1A", "kind": "open-case", "outline": [[10, 10], [34, 10], [34, 13.5], [10, 13.5]], "front": [[10, 10], [34, 10]], "sections": [12, 12], "circuit": "A1"}], "circuits": [{"id": "A1", "system": "A"}], "systems": [{"id": "A", "type": "direct", "refrigerant": "R-448A", "charge": 900, "chargeUnit": "lb"}]}','2026-03-02T15:00:00.000Z','Ada Brook');
INSERT INTO surveys VALUES ('20260304-visit','quince-street','2026-03-05T03:00:00.000Z','2026-03-05T03:20:00.000Z','Ada Brook');
INSERT INTO events(id,survey,document,at,sender) VALUES ('e1','20260304-visit','{"v":1,"id":"e1","survey":"20260304-visit","device":"d1","number":1,"time":"2026-03-04T21:01:00.000-06:00","kind":"reading","body":{"fixture":"C1","at":3,"ppm":"2"}}','2026-03-05T03:20:00.000Z','Ada Brook');
INSERT INTO events(id,survey,document,at,sender) VALUES ('e2','20260304-visit','{"v":1,"id":"e2","survey":"20260304-visit","device":"d1","number":2,"time":"2026-03-04T21:02:00.000-06:00","kind":"reading","body":{"fixture":"C1","at":9,"ppm":"41"}}','2026-03-05T03:20:00.000Z','Ada Brook');
INSERT INTO events(id,survey,document,at,sender) VALUES ('e3','20260304-visit','{"v":1,"id":"e3","survey":"20260304-visit","device":"d1","number":3,"time":"2026-03-04T21:03:00.000-06:00","kind":"reading","body":{"fixture":"C1","at":15,"ppm":"<1"}}','2026-03-05T03:20:00.000Z','Ada Brook');
INSERT INTO finding_entries(id,store,finding,document,at,sender) VALUES ('f1','quince-street','F1','{"v":1,"id":"f1","survey":"quince-street","device":"d1","number":1,"time":"2026-03-04T21:30:00.000-06:00","kind":"service","body":{"units":"ft","entry":{"finding":"F1","date":"2026-03-04","fixture":"C1","at":9,"status":"open","technician":"Ada Brook"}}}','2026-03-05T03:40:00.000Z','Ada Brook');
