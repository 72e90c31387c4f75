-- Two names of one ram. The old name points to the one that stays and is hidden as what was taken out is. A burst or mark that came
-- over says from which name, so that the joining can be undone.
ALTER TABLE ram ADD COLUMN merged_into INTEGER REFERENCES ram (id);
ALTER TABLE burst ADD COLUMN merged_from INTEGER REFERENCES ram (id);
ALTER TABLE mark ADD COLUMN merged_from INTEGER REFERENCES ram (id);
