-- Few boxes come more than once; an owner asks for them every week.
CREATE INDEX run_by_attempt ON run (attempt, job_id, serial);
