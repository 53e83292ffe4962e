-- Mail to be sent (the outbox), and the door through which the app puts jobs on the queue.

create table mail (
  studio_id uuid not null references studio,
  mail_id uuid not null,
  about_id uuid not null,
  sequence int not null,
  kind text not null,
  recipient text not null,
  recipient_name text not null default '',
  snapshot jsonb not null,
  state text not null check (state in ('waiting', 'sending', 'sent', 'parked', 'dropped')),
  message_id text not null,
  attempts int not null default 0,
  lease_until timestamptz,
  last_error text not null default '',
  created_at timestamptz not null,
  sent_at timestamptz,
  primary key (studio_id, mail_id),
  constraint mail_once unique (studio_id, about_id, sequence, kind, recipient)
);
create index mail_by_time on mail (studio_id, created_at);
call plateday_tenant('mail');

create schema plateday_queue authorization plateday_jobs;
grant usage on schema plateday_queue to plateday_app;
set local role plateday_jobs;

-- The only way for the app to enqueue: the studio comes from the transaction, not from the caller.
create function plateday_queue.enqueue(task text, payload jsonb, run_at timestamptz, job_key text)
returns void language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare studio text := nullif(current_setting('app.studio_id', true), '');
begin
  if studio is null then raise exception 'A job needs a studio'; end if;
  perform graphile_worker.add_job(
    task, (payload || jsonb_build_object('studioId', studio))::json,
    run_at := run_at, max_attempts := 12, job_key := studio || ':' || job_key);
end $$;
revoke execute on function plateday_queue.enqueue from public;
grant execute on function plateday_queue.enqueue to plateday_app;

-- Each worker says every few seconds that it lives; the jobs of one that fell silent are freed.
create table plateday_queue.heartbeat (
  worker_id text primary key,
  seen_at timestamptz not null
);
reset role;

-- The calendar feed's door, one statement: finds the studio by its address, names it to row-level
-- security, and returns the feed behind the secret's hash. No row when address or secret is unknown.
create function plateday_feed_door(address text, secret_hash bytea)
returns table (studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint)
language plpgsql as $$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select l.studio_id, l.link_id, l.kind, l.subject_id, l.revoked_at is not null, s.calendar_counter
    from link l join studio s on s.studio_id = l.studio_id
    where l.studio_id = found and l.purpose = 'feed' and l.token_hash = secret_hash;
end $$;
revoke execute on function plateday_feed_door from public;
grant execute on function plateday_feed_door to plateday_app;
