-- Pictures of a store's findings, beside those of its surveys.
CREATE TABLE store_photos (
  id          TEXT PRIMARY KEY NOT NULL,
  store       TEXT NOT NULL REFERENCES stores(id),
  image       BLOB NOT NULL,
  at          TEXT NOT NULL,
  sender      TEXT NOT NULL
) STRICT;

CREATE INDEX store_photos_by_store ON store_photos(store, id);

CREATE TRIGGER store_photos_keep_update BEFORE UPDATE ON store_photos BEGIN SELECT RAISE(ABORT, 'photos are never changed'); END;
CREATE TRIGGER store_photos_keep_delete BEFORE DELETE ON store_photos BEGIN SELECT RAISE(ABORT, 'photos are never deleted'); END;
