-- Records are only ever added to. INSERT OR REPLACE would delete without firing a trigger of deletion, so it has
-- a guard of its own.

CREATE TRIGGER plan_is_never_changed BEFORE UPDATE ON plan
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in plan may be changed');
END;

CREATE TRIGGER plan_is_never_deleted BEFORE DELETE ON plan
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in plan may be deleted');
END;

CREATE TRIGGER plan_is_never_replaced BEFORE INSERT ON plan
WHEN EXISTS (SELECT 1 FROM plan WHERE hash = NEW.hash)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in plan may be replaced');
END;

CREATE TRIGGER job_is_never_changed BEFORE UPDATE ON job
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in job may be changed');
END;

CREATE TRIGGER job_is_never_deleted BEFORE DELETE ON job
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in job may be deleted');
END;

CREATE TRIGGER job_is_never_replaced BEFORE INSERT ON job
WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.id OR name = NEW.name)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in job may be replaced');
END;

CREATE TRIGGER limits_is_never_changed BEFORE UPDATE ON limits
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in limits may be changed');
END;

CREATE TRIGGER limits_is_never_deleted BEFORE DELETE ON limits
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in limits may be deleted');
END;

CREATE TRIGGER limits_is_never_replaced BEFORE INSERT ON limits
WHEN EXISTS (SELECT 1 FROM limits WHERE id = NEW.id OR (job_id = NEW.job_id AND version = NEW.version) OR (job_id = NEW.job_id AND plan_hash = NEW.plan_hash))
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in limits may be replaced');
END;

CREATE TRIGGER run_is_never_changed BEFORE UPDATE ON run
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run may be changed');
END;

CREATE TRIGGER run_is_never_deleted BEFORE DELETE ON run
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run may be deleted');
END;

CREATE TRIGGER run_is_never_replaced BEFORE INSERT ON run
WHEN EXISTS (SELECT 1 FROM run WHERE id = NEW.id OR token = NEW.token OR (job_id = NEW.job_id AND serial = NEW.serial AND attempt = NEW.attempt))
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run may be replaced');
END;

CREATE TRIGGER run_detail_is_never_changed BEFORE UPDATE ON run_detail
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run_detail may be changed');
END;

CREATE TRIGGER run_detail_is_never_deleted BEFORE DELETE ON run_detail
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run_detail may be deleted');
END;

CREATE TRIGGER run_detail_is_never_replaced BEFORE INSERT ON run_detail
WHEN EXISTS (SELECT 1 FROM run_detail WHERE run_id = NEW.run_id)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in run_detail may be replaced');
END;

CREATE TRIGGER capture_is_never_changed BEFORE UPDATE ON capture
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in capture may be changed');
END;

CREATE TRIGGER capture_is_never_deleted BEFORE DELETE ON capture
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in capture may be deleted');
END;

CREATE TRIGGER capture_is_never_replaced BEFORE INSERT ON capture
WHEN EXISTS (SELECT 1 FROM capture WHERE run_id = NEW.run_id AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in capture may be replaced');
END;

CREATE TRIGGER second_sweep_is_never_changed BEFORE UPDATE ON second_sweep
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in second_sweep may be changed');
END;

CREATE TRIGGER second_sweep_is_never_deleted BEFORE DELETE ON second_sweep
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in second_sweep may be deleted');
END;

CREATE TRIGGER second_sweep_is_never_replaced BEFORE INSERT ON second_sweep
WHEN EXISTS (SELECT 1 FROM second_sweep WHERE run_id = NEW.run_id AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in second_sweep may be replaced');
END;

CREATE TRIGGER estimate_is_never_changed BEFORE UPDATE ON estimate
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in estimate may be changed');
END;

CREATE TRIGGER estimate_is_never_deleted BEFORE DELETE ON estimate
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in estimate may be deleted');
END;

CREATE TRIGGER estimate_is_never_replaced BEFORE INSERT ON estimate
WHEN EXISTS (SELECT 1 FROM estimate WHERE run_id = NEW.run_id AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in estimate may be replaced');
END;

CREATE TRIGGER judgement_is_never_changed BEFORE UPDATE ON judgement
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in judgement may be changed');
END;

CREATE TRIGGER judgement_is_never_deleted BEFORE DELETE ON judgement
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in judgement may be deleted');
END;

CREATE TRIGGER judgement_is_never_replaced BEFORE INSERT ON judgement
WHEN EXISTS (SELECT 1 FROM judgement WHERE id = NEW.id OR (run_id = NEW.run_id AND number = NEW.number))
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in judgement may be replaced');
END;

CREATE TRIGGER check_result_is_never_changed BEFORE UPDATE ON check_result
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in check_result may be changed');
END;

CREATE TRIGGER check_result_is_never_deleted BEFORE DELETE ON check_result
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in check_result may be deleted');
END;

CREATE TRIGGER check_result_is_never_replaced BEFORE INSERT ON check_result
WHEN EXISTS (SELECT 1 FROM check_result WHERE judgement_id = NEW.judgement_id AND place = NEW.place)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in check_result may be replaced');
END;

CREATE TRIGGER sighting_is_never_changed BEFORE UPDATE ON sighting
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in sighting may be changed');
END;

CREATE TRIGGER sighting_is_never_deleted BEFORE DELETE ON sighting
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in sighting may be deleted');
END;

CREATE TRIGGER sighting_is_never_replaced BEFORE INSERT ON sighting
WHEN EXISTS (SELECT 1 FROM sighting WHERE id = NEW.id)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in sighting may be replaced');
END;

CREATE TRIGGER overruling_is_never_changed BEFORE UPDATE ON overruling
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in overruling may be changed');
END;

CREATE TRIGGER overruling_is_never_deleted BEFORE DELETE ON overruling
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in overruling may be deleted');
END;

CREATE TRIGGER overruling_is_never_replaced BEFORE INSERT ON overruling
WHEN EXISTS (SELECT 1 FROM overruling WHERE id = NEW.id)
BEGIN
  SELECT RAISE(ABORT, 'records are only ever added to: nothing in overruling may be replaced');
END;
