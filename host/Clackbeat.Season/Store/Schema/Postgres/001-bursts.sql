-- The tables of Schema/001 for a server. The primary key of figure carries the values, so that a plot reads one
-- stretch of the index and never the table.
CREATE TABLE ram (
    id bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY,
    name text COLLATE "C" NOT NULL UNIQUE
);

CREATE TABLE burst (
    id bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY,
    ram bigint NOT NULL REFERENCES ram (id),
    source_hash bytea NOT NULL,
    source text NOT NULL,
    start_us bigint NOT NULL,
    duration_us bigint NOT NULL,
    state text NOT NULL,
    beat_count bigint NOT NULL,
    completeness text NOT NULL,
    UNIQUE (ram, source_hash)
);
CREATE INDEX burst_by_time ON burst (ram, start_us, id) INCLUDE (duration_us, state);

CREATE TABLE figure (
    ram bigint NOT NULL REFERENCES ram (id),
    kind text COLLATE "C" NOT NULL,
    start_us bigint NOT NULL,
    burst bigint NOT NULL REFERENCES burst (id),
    value double precision NOT NULL,
    u double precision,
    PRIMARY KEY (ram, kind, start_us, burst) INCLUDE (value, u)
);

CREATE TABLE condition (
    burst bigint NOT NULL REFERENCES burst (id),
    code text NOT NULL,
    probability double precision NOT NULL,
    PRIMARY KEY (burst, code)
);

CREATE TABLE beats (
    burst bigint PRIMARY KEY REFERENCES burst (id),
    packed bytea NOT NULL
);
-- Packed beats are deflated already.
ALTER TABLE beats ALTER COLUMN packed SET STORAGE EXTERNAL;
