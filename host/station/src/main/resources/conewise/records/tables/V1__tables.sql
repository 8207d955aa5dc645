-- All that is kept, for SQLite and PostgreSQL alike; what differs between the two are placeholders.
-- Instants are milliseconds since 1970-01-01 00:00 UTC.

CREATE TABLE plan (
  hash    TEXT PRIMARY KEY,          -- SHA-256 of the text's UTF-8 bytes, hexadecimal
  format  TEXT NOT NULL,             -- yaml or json
  text    TEXT NOT NULL,
  kept_at BIGINT NOT NULL
);

CREATE TABLE job (
  id   ${id},
  name TEXT NOT NULL UNIQUE
);

-- Which plans a job was judged by: a new text is a new version, counted here.
CREATE TABLE limits (
  id        ${id},
  job_id    BIGINT NOT NULL REFERENCES job (id),
  version   INTEGER NOT NULL,
  plan_hash TEXT NOT NULL REFERENCES plan (hash),
  since     BIGINT NOT NULL,
  UNIQUE (job_id, version),
  UNIQUE (job_id, plan_hash)
);

-- One run of one box; its attempt is counted here.
CREATE TABLE run (
  id            ${id},
  token         TEXT NOT NULL UNIQUE,
  job_id        BIGINT NOT NULL REFERENCES job (id),
  limits_id     BIGINT NOT NULL REFERENCES limits (id),
  serial        TEXT NOT NULL,
  attempt       INTEGER NOT NULL,
  started_at    BIGINT NOT NULL,
  finished_at   BIGINT NOT NULL,
  decision      TEXT NOT NULL,
  operator      TEXT,
  station       TEXT NOT NULL,
  jig_serial    TEXT,
  jig_board     TEXT NOT NULL,
  jig_firmware  TEXT NOT NULL,
  calibration   TEXT,
  temperature_c ${real},
  software      TEXT NOT NULL,
  UNIQUE (job_id, serial, attempt)
);
CREATE INDEX run_by_time ON run (finished_at, id);
CREATE INDEX run_by_decision ON run (decision, finished_at, id);
CREATE INDEX run_by_serial ON run (serial, finished_at, id);
CREATE INDEX run_by_job ON run (job_id, finished_at, id);
CREATE INDEX run_by_box ON run (job_id, serial, attempt, finished_at, decision);

-- What is read of a run only when it is looked at.
CREATE TABLE run_detail (
  run_id           BIGINT PRIMARY KEY REFERENCES run (id),
  curve            ${bytes},          -- packed; empty where there is none
  no_curve_because TEXT,
  findings         TEXT NOT NULL,     -- JSON
  facts            TEXT NOT NULL      -- JSON
);

CREATE TABLE capture (
  run_id  BIGINT NOT NULL REFERENCES run (id),
  place   INTEGER NOT NULL,
  samples ${bytes} NOT NULL,          -- packed
  PRIMARY KEY (run_id, place)
);

-- Sweeps of the same box in another state.
CREATE TABLE second_sweep (
  run_id BIGINT NOT NULL REFERENCES run (id),
  place  INTEGER NOT NULL,
  state  TEXT NOT NULL,
  part   TEXT NOT NULL,
  curve  ${bytes} NOT NULL,           -- packed
  PRIMARY KEY (run_id, place)
);

CREATE TABLE estimate (
  run_id BIGINT NOT NULL REFERENCES run (id),
  place  INTEGER NOT NULL,
  name   TEXT NOT NULL,
  value  ${real} NOT NULL,
  low    ${real} NOT NULL,
  high   ${real} NOT NULL,
  unit   TEXT NOT NULL,
  PRIMARY KEY (run_id, place)
);

-- Number 1 is how the run was judged on the bench; later ones are judged again, under other limits.
CREATE TABLE judgement (
  id        ${id},
  run_id    BIGINT NOT NULL REFERENCES run (id),
  number    INTEGER NOT NULL,
  limits_id BIGINT NOT NULL REFERENCES limits (id),
  judged_at BIGINT NOT NULL,
  software  TEXT NOT NULL,
  decision  TEXT NOT NULL,
  headline  TEXT NOT NULL,
  action    TEXT,
  fault     TEXT,                     -- the likeliest, in words
  details   TEXT NOT NULL,            -- JSON
  UNIQUE (run_id, number)
);

CREATE TABLE check_result (
  judgement_id BIGINT NOT NULL REFERENCES judgement (id),
  place        INTEGER NOT NULL,
  check_id     TEXT NOT NULL,
  title        TEXT NOT NULL,
  decision     TEXT NOT NULL,
  value        ${real},
  low          ${real},
  high         ${real},
  unit         TEXT,
  because      TEXT,                  -- why there is no value
  limit_low    ${real},
  limit_high   ${real},
  reason       TEXT NOT NULL,
  next_step    TEXT,
  PRIMARY KEY (judgement_id, place)
);

-- What a person saw, felt or heard of a box.
CREATE TABLE sighting (
  id      ${id},
  run_id  BIGINT NOT NULL REFERENCES run (id),
  seen_at BIGINT NOT NULL,
  seen_by TEXT,
  kind    TEXT NOT NULL,
  subject TEXT NOT NULL,
  seen    TEXT NOT NULL,
  tone_hz ${real},
  words   TEXT NOT NULL
);
CREATE INDEX sighting_by_run ON sighting (run_id);

-- A person decided otherwise than the verdict.
CREATE TABLE overruling (
  id       ${id},
  run_id   BIGINT NOT NULL REFERENCES run (id),
  ruled_at BIGINT NOT NULL,
  ruled_by TEXT NOT NULL,
  decision TEXT NOT NULL,
  reason   TEXT NOT NULL
);
CREATE INDEX overruling_by_run ON overruling (run_id);
