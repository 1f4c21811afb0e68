-- The ledger, the same on SQLite and PostgreSQL. docs/ledger.md tells it in words.
-- Ids come from the files; times are UTC text of one width, 2026-11-25T10:03:00.000Z.

CREATE TABLE job (
  job_id TEXT NOT NULL PRIMARY KEY,
  folder TEXT NOT NULL,
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  bytes BIGINT NOT NULL,
  received TEXT NOT NULL,
  finished TEXT NOT NULL,
  state TEXT NOT NULL,
  proof TEXT,
  strips_file TEXT,
  why TEXT,
  pages INTEGER,
  condition_name TEXT,
  condition_source TEXT,
  proofing_system TEXT,
  substrate TEXT,
  strips_sha256 TEXT,
  strips_json TEXT
);
CREATE INDEX job_by_time ON job (received, job_id);
CREATE INDEX job_by_bytes ON job (sha256);
CREATE INDEX job_by_strips ON job (strips_sha256);

CREATE TABLE label_item (
  job_id TEXT NOT NULL REFERENCES job ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  value TEXT NOT NULL,
  PRIMARY KEY (job_id, position)
);

CREATE TABLE job_finding (
  job_id TEXT NOT NULL REFERENCES job ON DELETE CASCADE,
  position INTEGER NOT NULL,
  code TEXT NOT NULL,
  severity TEXT NOT NULL,
  text TEXT NOT NULL,
  PRIMARY KEY (job_id, position)
);

CREATE TABLE strip (
  job_id TEXT NOT NULL REFERENCES job ON DELETE CASCADE,
  strip_id TEXT NOT NULL,
  received TEXT NOT NULL,
  page INTEGER NOT NULL,
  seed BIGINT NOT NULL,
  edge TEXT NOT NULL,
  media_extended BOOLEAN NOT NULL,
  reader TEXT NOT NULL,
  aperture_mm DOUBLE PRECISION NOT NULL,
  within_de00_2_pct DOUBLE PRECISION NOT NULL,
  within_de00_3_pct DOUBLE PRECISION NOT NULL,
  mean_de00 DOUBLE PRECISION NOT NULL,
  standard_within_de00_3_pct DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (job_id, strip_id)
);
CREATE INDEX strip_by_id ON strip (strip_id, received, job_id);

CREATE TABLE patch (
  job_id TEXT NOT NULL,
  strip_id TEXT NOT NULL,
  patch_set TEXT NOT NULL,
  patch_id TEXT NOT NULL,
  position INTEGER NOT NULL,
  role TEXT NOT NULL,
  inks TEXT NOT NULL,
  aim_l DOUBLE PRECISION NOT NULL,
  aim_a DOUBLE PRECISION NOT NULL,
  aim_b DOUBLE PRECISION NOT NULL,
  aim_source TEXT NOT NULL,
  area_pct DOUBLE PRECISION NOT NULL,
  represents_pct DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (job_id, strip_id, patch_set, patch_id),
  FOREIGN KEY (job_id, strip_id) REFERENCES strip ON DELETE CASCADE
);

CREATE TABLE score (
  score_id TEXT NOT NULL PRIMARY KEY,
  folder TEXT NOT NULL,
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  received TEXT NOT NULL,
  scored TEXT NOT NULL,
  job_id TEXT,
  proof TEXT,
  verdict TEXT NOT NULL,
  score_json TEXT NOT NULL
);
CREATE INDEX score_by_time ON score (received, score_id);
CREATE INDEX score_by_job ON score (job_id);

CREATE TABLE strip_score (
  score_id TEXT NOT NULL REFERENCES score ON DELETE CASCADE,
  position INTEGER NOT NULL,
  strip_id TEXT NOT NULL,
  page INTEGER NOT NULL,
  measurement TEXT NOT NULL,
  simulated BOOLEAN NOT NULL,
  tolerance TEXT NOT NULL,
  verdict TEXT NOT NULL,
  alignment TEXT NOT NULL,
  confidence DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (score_id, position)
);
CREATE INDEX strip_score_by_id ON strip_score (strip_id);

CREATE TABLE set_score (
  score_id TEXT NOT NULL,
  position INTEGER NOT NULL,
  patch_set TEXT NOT NULL,
  patches INTEGER NOT NULL,
  judged INTEGER NOT NULL,
  mean_de00 DOUBLE PRECISION NOT NULL,
  p95_de00 DOUBLE PRECISION NOT NULL,
  max_de00 DOUBLE PRECISION NOT NULL,
  area_mean_de00 DOUBLE PRECISION,
  area_p95_de00 DOUBLE PRECISION,
  verdict TEXT NOT NULL,
  PRIMARY KEY (score_id, position, patch_set),
  FOREIGN KEY (score_id, position) REFERENCES strip_score ON DELETE CASCADE
);

CREATE TABLE score_check (
  score_id TEXT NOT NULL,
  position INTEGER NOT NULL,
  number INTEGER NOT NULL,
  name TEXT NOT NULL,
  patch_set TEXT NOT NULL,
  metric TEXT NOT NULL,
  statistic TEXT NOT NULL,
  patches INTEGER NOT NULL,
  value DOUBLE PRECISION NOT NULL,
  limit_value DOUBLE PRECISION NOT NULL,
  guard_band DOUBLE PRECISION NOT NULL,
  verdict TEXT NOT NULL,
  PRIMARY KEY (score_id, position, number),
  FOREIGN KEY (score_id, position) REFERENCES strip_score ON DELETE CASCADE
);

CREATE TABLE patch_score (
  score_id TEXT NOT NULL,
  position INTEGER NOT NULL,
  patch_set TEXT NOT NULL,
  patch_id TEXT NOT NULL,
  aim_l DOUBLE PRECISION NOT NULL,
  aim_a DOUBLE PRECISION NOT NULL,
  aim_b DOUBLE PRECISION NOT NULL,
  aim_source TEXT NOT NULL,
  lab_l DOUBLE PRECISION NOT NULL,
  lab_a DOUBLE PRECISION NOT NULL,
  lab_b DOUBLE PRECISION NOT NULL,
  de00 DOUBLE PRECISION NOT NULL,
  de76 DOUBLE PRECISION NOT NULL,
  dch DOUBLE PRECISION NOT NULL,
  dh DOUBLE PRECISION NOT NULL,
  dl DOUBLE PRECISION NOT NULL,
  sctv_pct DOUBLE PRECISION,
  sctv_aim_pct DOUBLE PRECISION,
  limit_metric TEXT,
  limit_value DOUBLE PRECISION,
  judged BOOLEAN NOT NULL,
  PRIMARY KEY (score_id, position, patch_set, patch_id),
  FOREIGN KEY (score_id, position) REFERENCES strip_score ON DELETE CASCADE
);

CREATE TABLE score_finding (
  score_id TEXT NOT NULL,
  position INTEGER NOT NULL,
  number INTEGER NOT NULL,
  code TEXT NOT NULL,
  severity TEXT NOT NULL,
  text TEXT NOT NULL,
  PRIMARY KEY (score_id, position, number),
  FOREIGN KEY (score_id, position) REFERENCES strip_score ON DELETE CASCADE
);

CREATE TABLE calibration (
  calibration_id TEXT NOT NULL PRIMARY KEY,
  proofing_system TEXT NOT NULL,
  at TEXT NOT NULL,
  note TEXT NOT NULL
);
