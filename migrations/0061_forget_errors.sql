-- What a job failed with may name somebody (a mail server repeats the address it does not know): erased with the person.
set local role plateday_jobs;
create function plateday_queue.forget_errors() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
  update graphile_worker._private_jobs set last_error = null
  where last_error is not null
    and payload->>'studioId' = (select nullif(current_setting('app.studio_id', true), ''))
$$;
revoke execute on function plateday_queue.forget_errors from public;
grant execute on function plateday_queue.forget_errors to plateday_app;
reset role;
