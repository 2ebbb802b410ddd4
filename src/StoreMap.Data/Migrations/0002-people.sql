CREATE TABLE people (
  name        TEXT PRIMARY KEY NOT NULL COLLATE NOCASE,
  role        TEXT NOT NULL CHECK (role IN ('office', 'field')),
  passphrase  TEXT NOT NULL,
  stamp       TEXT NOT NULL,
  failures    INTEGER NOT NULL DEFAULT 0,
  locked_till TEXT
) STRICT;
