-- Times are microseconds since 1970-01-01 UTC, figures SI units; docs/season-store.md says why each table is as it is.
CREATE TABLE ram (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE burst (
    id INTEGER PRIMARY KEY,
    ram INTEGER NOT NULL REFERENCES ram (id),
    source_hash BLOB NOT NULL,
    source TEXT NOT NULL,
    start_us INTEGER NOT NULL,
    duration_us INTEGER NOT NULL,
    state TEXT NOT NULL,
    beat_count INTEGER NOT NULL,
    completeness TEXT NOT NULL,
    UNIQUE (ram, source_hash)
) STRICT;
CREATE INDEX burst_by_time ON burst (ram, start_us);

CREATE TABLE figure (
    ram INTEGER NOT NULL REFERENCES ram (id),
    kind TEXT NOT NULL,
    start_us INTEGER NOT NULL,
    burst INTEGER NOT NULL REFERENCES burst (id),
    value REAL NOT NULL,
    u REAL,
    PRIMARY KEY (ram, kind, start_us, burst)
) STRICT, WITHOUT ROWID;

CREATE TABLE condition (
    burst INTEGER NOT NULL REFERENCES burst (id),
    code TEXT NOT NULL,
    probability REAL NOT NULL,
    PRIMARY KEY (burst, code)
) STRICT, WITHOUT ROWID;

CREATE TABLE beats (
    burst INTEGER PRIMARY KEY REFERENCES burst (id),
    packed BLOB NOT NULL
) STRICT;
