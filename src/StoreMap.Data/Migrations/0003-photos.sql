-- Pictures of a survey, JPEG without metadata; what each shows is told by its journal event.
CREATE TABLE photos (
  id          TEXT PRIMARY KEY NOT NULL,
  survey      TEXT NOT NULL REFERENCES surveys(id),
  image       BLOB NOT NULL,
  at          TEXT NOT NULL,
  sender      TEXT NOT NULL
) STRICT;

CREATE INDEX photos_by_survey ON photos(survey, id);

CREATE TRIGGER photos_keep_update BEFORE UPDATE ON photos BEGIN SELECT RAISE(ABORT, 'photos are never changed'); END;
CREATE TRIGGER photos_keep_delete BEFORE DELETE ON photos BEGIN SELECT RAISE(ABORT, 'photos are never deleted'); END;
