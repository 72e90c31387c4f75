-- The views of Schema/006 for a server; times as timestamps with time zone.
CREATE TABLE figure_unit (
    kind text PRIMARY KEY,
    si_unit text NOT NULL,
    shown_unit text NOT NULL,
    factor double precision NOT NULL
);
INSERT INTO figure_unit (kind, si_unit, shown_unit, factor) VALUES
    ('rate', '1/min', '1/min', 1),
    ('delivery-pressure', 'Pa', 'bar', 1e-05),
    ('peak-median', 'Pa', 'bar', 1e-05),
    ('peak-max', 'Pa', 'bar', 1e-05),
    ('peak-true', 'Pa', 'bar', 1e-05),
    ('suction', 'Pa', 'bar', 1e-05),
    ('mean-pressure', 'Pa', 'bar', 1e-05),
    ('delivered', 'm³/s', 'L/min', 60000),
    ('waste', 'm³/s', 'L/min', 60000),
    ('drawn', 'm³/s', 'L/min', 60000),
    ('closing-velocity', 'm/s', 'm/s', 1),
    ('wave-speed', 'm/s', 'm/s', 1),
    ('supply-head', 'm', 'm', 1),
    ('battery', 'V', 'V', 1),
    ('irregularity', '1', '%', 100),
    ('efficiency', '1', '%', 100),
    ('rankine', '1', '%', 100),
    ('drive-side', '1', '%', 100),
    ('rating-use', '1', '%', 100),
    ('fatigue-per-hour', '1/h', '1/h', 1),
    ('fatigue-per-hour-low', '1/h', '1/h', 1),
    ('fatigue-per-hour-high', '1/h', '1/h', 1);

CREATE VIEW rams AS
SELECT r.name AS ram FROM ram r WHERE r.removed_of IS NULL;

CREATE VIEW bursts AS
SELECT r.name AS ram, to_timestamp(t.start_us / 1e6) AS started, t.start_uncertainty_s, t.duration_us / 1e6 AS duration_s, t.state, t.beat_count AS beats,
    t.completeness, t.source
FROM burst t JOIN ram r ON r.id = t.ram WHERE r.removed_of IS NULL;

CREATE VIEW figures AS
SELECT r.name AS ram, t.kind AS figure, to_timestamp(t.start_us / 1e6) AS started, t.value, t.u, n.si_unit, t.value * n.factor AS shown, t.u * n.factor AS shown_u,
    n.shown_unit, COALESCE(t.bound = 'upper', false) AS is_upper_bound
FROM figure t JOIN ram r ON r.id = t.ram JOIN figure_unit n ON n.kind = t.kind WHERE r.removed_of IS NULL;

CREATE VIEW conditions AS
SELECT r.name AS ram, to_timestamp(t.start_us / 1e6) AS started, c.code AS condition, c.probability
FROM condition c JOIN burst t ON t.id = c.burst JOIN ram r ON r.id = t.ram WHERE r.removed_of IS NULL;

CREATE VIEW marks AS
SELECT r.name AS ram, to_timestamp(t.at_us / 1e6) AS at, t.words FROM mark t JOIN ram r ON r.id = t.ram WHERE r.removed_of IS NULL;

CREATE VIEW corrections AS
SELECT r.name AS ram, to_timestamp(t.at_us / 1e6) AS at, t.who, t.what, t.was, t.becomes, t.why FROM journal t JOIN ram r ON r.id = t.ram WHERE r.removed_of IS NULL;
