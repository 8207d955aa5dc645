-- Records are only ever added to.

CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'records are only ever added to: % of % is refused', TG_OP, TG_TABLE_NAME;
END
$$;

DO $$
DECLARE
  name TEXT;
BEGIN
  FOREACH name IN ARRAY ARRAY[
    'plan', 'job', 'limits', 'run', 'run_detail', 'capture', 'second_sweep', 'estimate', 'judgement', 'check_result', 'sighting', 'overruling']
  LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()',
      name || '_is_never_changed', name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()',
      name || '_is_never_emptied', name);
  END LOOP;
END
$$;
