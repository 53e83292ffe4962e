-- What is still to be done for a studio, so that a copy of it can be put back with its reminders and offers running.

set local role plateday_jobs;
create function plateday_queue.waiting()
returns table (task text, payload jsonb, run_at timestamptz, job_key text)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select t.identifier, j.payload::jsonb - 'studioId', j.run_at, substr(j.key, length(s.studio) + 2)
  from (select nullif(current_setting('app.studio_id', true), '') as studio) s,
    graphile_worker._private_jobs j join graphile_worker._private_tasks t on t.id = j.task_id
  where j.payload->>'studioId' = s.studio and j.key like s.studio || ':%'
  order by j.run_at, j.key
$$;
revoke execute on function plateday_queue.waiting from public;
grant execute on function plateday_queue.waiting to plateday_app;
reset role;
