-- What a shelf holds. The same for SQLite and PostgreSQL; texts in UTF-8, values in SI.

CREATE TABLE coil (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  recipe TEXT NOT NULL,
  notes TEXT NOT NULL,
  added TEXT NOT NULL
);

CREATE TABLE tag (
  coil TEXT NOT NULL REFERENCES coil (id),
  tag TEXT NOT NULL,
  PRIMARY KEY (coil, tag)
);

CREATE TABLE measurement (
  id TEXT PRIMARY KEY,
  coil TEXT NOT NULL REFERENCES coil (id),
  bench TEXT NOT NULL,
  who TEXT NOT NULL,
  measured TEXT NOT NULL,
  celsius DOUBLE PRECISION,
  added TEXT NOT NULL,
  job TEXT NOT NULL,
  recordings TEXT NOT NULL UNIQUE
);

CREATE INDEX measurement_coil ON measurement (coil);

CREATE TABLE content (
  sha256 TEXT PRIMARY KEY,
  size BIGINT NOT NULL
);

CREATE TABLE content_piece (
  sha256 TEXT NOT NULL REFERENCES content (sha256),
  number INTEGER NOT NULL,
  bytes ${bytes} NOT NULL,
  PRIMARY KEY (sha256, number)
);

CREATE TABLE file (
  measurement TEXT NOT NULL REFERENCES measurement (id),
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  sha256 TEXT NOT NULL REFERENCES content (sha256),
  PRIMARY KEY (measurement, name)
);

CREATE TABLE result (
  id TEXT PRIMARY KEY,
  measurement TEXT NOT NULL REFERENCES measurement (id),
  number INTEGER NOT NULL,
  program TEXT NOT NULL,
  made TEXT NOT NULL,
  state TEXT NOT NULL,
  reason TEXT NOT NULL,
  json TEXT NOT NULL,
  guitar TEXT,
  UNIQUE (measurement, number)
);

CREATE TABLE reading (
  result TEXT NOT NULL REFERENCES result (id),
  quantity TEXT NOT NULL,
  value DOUBLE PRECISION NOT NULL,
  low DOUBLE PRECISION,
  high DOUBLE PRECISION,
  known TEXT NOT NULL,
  PRIMARY KEY (result, quantity)
);

CREATE TABLE curve (
  result TEXT PRIMARY KEY REFERENCES result (id),
  decibel ${bytes} NOT NULL,
  low ${bytes} NOT NULL,
  high ${bytes} NOT NULL
);

CREATE TABLE recipe (
  name TEXT PRIMARY KEY,
  wire TEXT NOT NULL
);

CREATE TABLE recipe_target (
  recipe TEXT NOT NULL REFERENCES recipe (name),
  quantity TEXT NOT NULL,
  target DOUBLE PRECISION NOT NULL,
  tolerance DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (recipe, quantity)
);
