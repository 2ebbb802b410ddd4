-- Devices that were in contact; a lost one is shut out and told to wipe itself.
CREATE TABLE devices (
  id          TEXT PRIMARY KEY NOT NULL,
  person      TEXT NOT NULL,
  seen        TEXT NOT NULL,
  lost        TEXT
) STRICT;
