-- The queue tries a job more often than a letter is tried, so that a try which never reached the letter's row
-- does not leave it waiting with nobody to send it.

set local role plateday_jobs;
create or replace function plateday_queue.enqueue(task text, payload jsonb, run_at timestamptz, job_key text)
returns void language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare studio text := nullif(current_setting('app.studio_id', true), '');
begin
  if studio is null then raise exception 'A job needs a studio'; end if;
  perform graphile_worker.add_job(
    task, (payload || jsonb_build_object('studioId', studio))::json,
    run_at := run_at, max_attempts := 25, job_key := studio || ':' || job_key);
end $$;
reset role;
