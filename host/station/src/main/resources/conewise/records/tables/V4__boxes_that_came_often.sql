-- The boxes with most attempts are asked for in this order, some of them at a time.
DROP INDEX run_by_attempt;
CREATE INDEX run_by_attempt ON run (attempt, finished_at, id, job_id, serial);
