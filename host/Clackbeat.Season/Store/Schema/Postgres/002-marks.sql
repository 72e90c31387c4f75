-- What a keeper did, so that before and after can be compared.
CREATE TABLE mark (
    id bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY,
    ram bigint NOT NULL REFERENCES ram (id),
    at_us bigint NOT NULL,
    words text NOT NULL,
    UNIQUE (ram, at_us, words)
);
