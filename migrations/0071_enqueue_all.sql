-- The jobs that an act puts on the queue are put there in one go. Of those with one key the last counts, as when one
-- is put after the other. The queue is looked into by key: a plan from when it was short would read it whole each time.

set local role plateday_jobs;
create function plateday_queue.enqueue_all(tasks text[], payloads jsonb[], run_ats timestamptz[], job_keys text[])
returns void language plpgsql security definer set search_path = pg_catalog, pg_temp set enable_seqscan = off as $$
declare studio text := nullif(current_setting('app.studio_id', true), '');
begin
  if studio is null then raise exception 'A job needs a studio'; end if;
  perform from graphile_worker.add_jobs(array(
    select row(j.task, (j.payload || jsonb_build_object('studioId', studio))::json, null, j.run_at, 25,
      studio || ':' || j.job_key, null, null)::graphile_worker.job_spec
    from (select distinct on (one.job_key) one.* from unnest(tasks, payloads, run_ats, job_keys) with ordinality
      as one (task, payload, run_at, job_key, nth) order by one.job_key, one.nth desc) j
    order by j.nth));
end $$;
revoke execute on function plateday_queue.enqueue_all from public;
grant execute on function plateday_queue.enqueue_all to plateday_app;

-- One alone: for a process that still runs beside a newer one, and for each job of a copy that is put back.
create or replace function plateday_queue.enqueue(task text, payload jsonb, run_at timestamptz, job_key text)
returns void language sql security definer set search_path = pg_catalog, pg_temp as $$
  select plateday_queue.enqueue_all(array[task], array[payload], array[run_at], array[job_key]);
$$;
reset role;
