-- Units of what a twin found of the ram's parts.
INSERT INTO figure_unit (kind, si_unit, shown_unit, factor) VALUES
    ('twin-opening', 'm²', 'cm²', 10000),
    ('twin-plug-head', 'm', 'm', 1),
    ('twin-losses', '1', '%', 100),
    ('twin-vessel-head', 'm', 'm', 1),
    ('twin-lateness', '1', '%', 100),
    ('twin-gas', '1', 'ppm', 1000000);
