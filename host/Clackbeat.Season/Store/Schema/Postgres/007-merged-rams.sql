-- The joined names of Schema/007 for a server.
ALTER TABLE ram ADD COLUMN merged_into bigint REFERENCES ram (id);
ALTER TABLE burst ADD COLUMN merged_from bigint REFERENCES ram (id);
ALTER TABLE mark ADD COLUMN merged_from bigint REFERENCES ram (id);
